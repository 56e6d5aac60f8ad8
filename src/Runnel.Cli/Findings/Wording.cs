using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Runnel.Place.Findings;

namespace Runnel.Cli.Findings;

/// <summary>How figures, times and names are put into words for people.</summary>
internal static class Wording
{
    private static readonly LocalDateTimePattern Moment = LocalDateTimePattern.CreateWithInvariantCulture("d MMM uuuu HH:mm");
    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("d MMM uuuu");

    public static string At(Instant time, DateTimeZone zone) => Moment.Format(time.InZone(zone).LocalDateTime);

    public static string Date(LocalDate date) => Day.Format(date);

    public static string Count(long n) => n.ToString("N0", CultureInfo.InvariantCulture);

    /// <summary>"1 top-up", "2 top-ups".</summary>
    public static string Count(long n, string one, string? many = null) => $"{Count(n)} {(n == 1 ? one : many ?? one + "s")}";

    /// <summary>Whole litres from ten on, one decimal below: more would claim a precision no valve has.</summary>
    public static string Litres(double l) =>
        double.IsNaN(l) ? "-" : Plain(l, Math.Abs(l) < 9.95 ? 1 : 0);

    public static string Plain(double value, int decimals)
    {
        double rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        // Rounding must not leave "-0".
        return (rounded == 0 ? 0 : rounded).ToString("N" + decimals, CultureInfo.InvariantCulture);
    }

    /// <summary>Three significant figures, without exponent in the range a household meets.</summary>
    public static string Figure(double value)
    {
        if (!double.IsFinite(value)) return "-";
        double size = Math.Abs(value);
        return Plain(value, size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3);
    }

    public static string Percent(double fraction) => Plain(100 * fraction, 0) + " %";

    /// <summary>A duration measured, to its two largest parts.</summary>
    public static string Seconds(double? seconds)
    {
        if (seconds is not { } s || !double.IsFinite(s)) return "-";
        long whole = (long)Math.Round(s, MidpointRounding.AwayFromZero);
        return whole switch
        {
            < 60 => $"{whole} s",
            < 3600 => $"{whole / 60} min {whole % 60:00} s",
            < 86400 => $"{whole / 3600} h {whole % 3600 / 60:00} min",
            _ => $"{whole / 86400} d {whole % 86400 / 3600} h",
        };
    }

    /// <summary>Time that is left, rounded down: the cautious end must stay cautious.</summary>
    public static string AtLeast(Duration left)
    {
        long minutes = Math.Max(0, (long)Math.Floor(left.TotalMinutes));
        return minutes switch
        {
            < 120 => $"{minutes} min",
            < 48 * 60 => $"{minutes / 60} h",
            _ => $"{minutes / 1440} days",
        };
    }

    public static string Name(Urgency urgency) => urgency switch
    {
        Urgency.ActNow => "ACT NOW",
        Urgency.Today => "TODAY",
        Urgency.Soon => "SOON",
        _ => "FOR THE RECORD",
    };

    /// <summary>"drain fouling (90 %), leak (8 %)".</summary>
    public static string Causes(Notice notice) =>
        string.Join(", or ", notice.Causes.Select(c => $"{c.Name.Replace('-', ' ')} ({Percent(c.Probability)})"));
}
