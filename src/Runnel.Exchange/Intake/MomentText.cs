using System.Text.Json;
using NodaTime;
using Runnel.Exchange.Logs;

namespace Runnel.Exchange.Intake;

/// <summary>Times in messages: RFC 3339 with an offset, civil time of the place without one, or seconds (or milliseconds) since 1970.</summary>
internal static class MomentText
{
    /// <summary>Seconds since 1970 stay below this for three thousand years; above it milliseconds are meant.</summary>
    private const double MillisecondsFrom = 1e11;

    /// <summary>A thousand years either way; further away no civil time is reckoned.</summary>
    private const long LongestTicks = 1000L * 366 * WrittenTime.PerDay;

    public static Instant? Read(in JsonElement time, DateTimeZone zone) => time.ValueKind switch
    {
        JsonValueKind.Number when time.TryGetDouble(out double number) => OfNumber(number),
        JsonValueKind.String => Read(time.GetString(), zone),
        _ => null,
    };

    public static Instant? Read(ReadOnlySpan<char> text, DateTimeZone zone)
    {
        var written = new TimeText().Read(text.Trim());
        return written.Kind switch
        {
            _ when Math.Abs(written.Ticks) > LongestTicks => null,
            TimeKind.None => null,
            TimeKind.Local => LocalDateTime.FromDateTime(DateTime.UnixEpoch.AddTicks(written.Ticks)).InZoneLeniently(zone).ToInstant(),
            _ => Instant.FromUnixTimeTicks(written.Ticks),
        };
    }

    public static Instant? OfNumber(double number)
    {
        double seconds = Math.Abs(number) >= MillisecondsFrom ? number / 1000 : number;
        // Rounded to the microsecond: a double holds no more of a present time.
        return double.IsFinite(seconds) && Math.Abs(seconds) * 1e7 < LongestTicks ? Instant.FromUnixTimeTicks((long)Math.Round(seconds * 1e6) * 10) : null;
    }
}
