using System.Globalization;
using System.Text;
using NodaTime;
using NodaTime.Text;
using Runnel.Exchange.Csv;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>
/// Writes readings as CSV in the long form. Where channels of the place have a scale or an offset, a fourth column names the unit that each
/// value is in, so that reading the file again does not apply them twice.
/// </summary>
public static class LogWriter
{
    private static readonly OffsetDateTimePattern TimeForm = OffsetDateTimePattern.Rfc3339;

    /// <summary>Writes <paramref name="readings"/> in their order, UTF-8, times with the offset of the place; leaves the stream open.</summary>
    /// <returns>How many were written.</returns>
    public static long Write(Stream stream, PlaceDescription place, IEnumerable<Reading> readings, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(readings);
        bool scaled = place.Channels.Any(c => c.Scale != 1 || c.Offset != 0);
        string[] units = [.. place.Channels.Select(c => LogUnits.Written(c.Measures))];
        using var writer = new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), 1 << 16, leaveOpen: true);
        if (scaled) CsvLine.Write(writer, "time", "channel", "value", "unit");
        else CsvLine.Write(writer, "time", "channel", "value");
        long count = 0;
        foreach (var reading in readings)
        {
            if ((count++ & 0xFFF) == 0) cancel.ThrowIfCancellationRequested();
            string time = TimeForm.Format(reading.Time.InZone(place.Zone).ToOffsetDateTime());
            string value = reading.Value.ToString("R", CultureInfo.InvariantCulture);
            string id = place.Channels[reading.Channel].Id;
            if (scaled) CsvLine.Write(writer, time, id, value, units[reading.Channel]);
            else CsvLine.Write(writer, time, id, value);
        }

        return count;
    }
}
