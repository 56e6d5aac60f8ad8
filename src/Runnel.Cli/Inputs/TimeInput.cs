using NodaTime;
using NodaTime.Text;

namespace Runnel.Cli.Inputs;

/// <summary>Times on the command line: RFC 3339 with an offset, or the place's own civil time without one.</summary>
internal static class TimeInput
{
    private static readonly IPattern<LocalDateTime>[] Civil =
    [
        LocalDateTimePattern.ExtendedIso,
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:ss"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd"),
    ];

    /// <param name="option">Where it was given, for the error.</param>
    /// <param name="text">As typed, or null when it was not given.</param>
    /// <param name="zone">Civil time of the place.</param>
    public static Instant? Read(string option, string? text, DateTimeZone zone)
    {
        if (text is null) return null;
        string trimmed = text.Trim();
        if (OffsetDateTimePattern.Rfc3339.Parse(trimmed) is { Success: true } exact) return exact.Value.ToInstant();
        foreach (var pattern in Civil)
        {
            // An hour that occurs twice: the first; one that is skipped: moved on by the jump.
            if (pattern.Parse(trimmed) is { Success: true } civil) return zone.AtLeniently(civil.Value).ToInstant();
        }

        throw RefusedException.WrongUsage(
            option, $"'{text}' is not a time", "Write it as 2026-03-01T06:00, or with an offset as 2026-03-01T06:00:00+11:00");
    }
}
