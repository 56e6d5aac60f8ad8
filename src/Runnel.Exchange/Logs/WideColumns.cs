using Runnel.Place;
using Runnel.Place.PlaceFiles;

namespace Runnel.Exchange.Logs;

/// <summary>Binds the columns of a wide log to the channels of the place.</summary>
internal static class WideColumns
{
    /// <summary>Columns and their channels, in the order of the file; empty for the long form.</summary>
    /// <exception cref="UnreadableFileException">No column is a channel of the place.</exception>
    public static (int Column, int Channel, (double Scale, double Offset)? Unit)[] Bind(
        LogShape shape, LogChannels channels, LogUnits units, List<string> remarks)
    {
        if (shape.IsLong) return [];
        var bound = new List<(int Column, int Channel, (double, double)? Unit)>();
        var unused = new List<string>();
        for (int i = 0; i < shape.Columns.Count; i++)
        {
            if (i == shape.Time || i == shape.Clock || shape.Columns[i].Length == 0) continue;
            int channel = channels.Find(shape.Columns[i]);
            if (channel == LogChannels.LeftOut) continue;
            if (channel < 0) unused.Add(shape.Columns[i]);
            else if (bound.Any(b => b.Channel == channel)) remarks.Add($"Column \"{shape.Columns[i]}\" is passed over: an earlier column is the same channel.");
            else bound.Add((i, channel, UnitOf(shape.Columns[i], channels.Place.Channels[channel], units, remarks)));
        }

        var ids = channels.Place.Channels.Select(c => c.Id);
        if (bound.Count == 0 && shape.Value >= 0 && channels.Place.Channels.Count == 1) return [(shape.Value, 0, null)];
        if (bound.Count == 0)
        {
            throw new UnreadableFileException(
                Math.Max(1, shape.HeaderLine), 1, $"no column is a channel of the place (columns: {LogShape.Listed(shape.Columns)}; channels: {LogShape.Listed(ids)})",
                "Name the columns as the channels, or say which column is which channel");
        }

        if (unused.Count > 0)
        {
            string names = LogShape.Listed(unused.Select(u => NearestName.To(u, ids) is { } near ? $"{u} (nearest channel: {near})" : u));
            remarks.Add($"Columns passed over, being no channels of the place: {names}.");
        }

        return [.. bound];
    }

    /// <summary>A heading such as "Air temp (°F)" tells how its values turn into the channel's unit, unless the place file tells it already.</summary>
    private static (double Scale, double Offset)? UnitOf(string heading, Channel channel, LogUnits units, List<string> remarks)
    {
        string unit = Headings.UnitInBrackets(heading);
        if (unit.Length == 0 || channel.Scale != 1 || channel.Offset != 0 || units.To(channel.Measures, unit) is not { } told || told == (1, 0)) return null;
        remarks.Add($"Column \"{heading}\" was turned into {Quantities.UnitOf(channel.Measures)}.");
        return told;
    }
}
