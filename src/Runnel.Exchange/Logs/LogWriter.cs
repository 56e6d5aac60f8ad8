using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Runnel.Exchange.Csv;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>
/// Writes readings as CSV in the long form, times in UTC. Where channels of the place have a scale or an offset, a fourth column names the
/// unit that each value is in, so that reading the file again does not apply them twice.
/// </summary>
public sealed class LogWriter
{
    private readonly TextWriter _to;
    private readonly Dictionary<string, string>? _units;

    /// <summary>Writes the header.</summary>
    /// <param name="to">Where to.</param>
    /// <param name="place">The place of the readings, or null where it is not known: then there is no column of units.</param>
    public LogWriter(TextWriter to, PlaceDescription? place)
    {
        ArgumentNullException.ThrowIfNull(to);
        _to = to;
        if (place is not null && place.Channels.Any(c => c.Scale != 1 || c.Offset != 0))
            _units = place.Channels.ToDictionary(c => c.Id, c => LogUnits.Written(c.Measures), StringComparer.Ordinal);
        if (_units is null) CsvLine.Write(to, "time", "channel", "value");
        else CsvLine.Write(to, "time", "channel", "value", "unit");
    }

    /// <summary>Writes one reading; the number with all the figures that give it back.</summary>
    public void Write(Instant time, string channel, double value)
    {
        string at = InstantPattern.ExtendedIso.Format(time);
        string number = value.ToString("R", CultureInfo.InvariantCulture);
        if (_units is null) CsvLine.Write(_to, at, channel, number);
        else CsvLine.Write(_to, at, channel, number, _units.GetValueOrDefault(channel, ""));
    }
}
