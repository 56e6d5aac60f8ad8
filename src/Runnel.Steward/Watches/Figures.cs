using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Runnel.Steward.Watches;

/// <summary>Figures as the notices say them: rounded to what matters, always with their unit.</summary>
internal static class Figures
{
    private static readonly LocalDateTimePattern ClockPattern = LocalDateTimePattern.CreateWithInvariantCulture("d MMM HH:mm");

    /// <summary>"40 s", "34 min", "3 h", "3 h 10 min", "2.5 days".</summary>
    public static string Span(double seconds)
    {
        if (seconds < 90) return Text($"{seconds:0} s");
        double minutes = Math.Round(seconds / 60);
        if (minutes < 10) return Text($"{seconds / 60:0.#} min");
        if (minutes < 120) return Text($"{minutes:0} min");
        if (minutes < 48 * 60)
        {
            double tens = Math.Round(minutes / 10) * 10;
            int hours = (int)(tens / 60), rest = (int)tens % 60;
            return rest == 0 ? Text($"{hours} h") : Text($"{hours} h {rest} min");
        }

        return Text($"{minutes / 1440:0.#} days");
    }

    /// <summary>"4 to 6 min", or "4 min" where both ends read the same.</summary>
    public static string Range(double lowS, double highS)
    {
        string low = Span(lowS), high = Span(highS);
        if (low == high) return low;
        int unit = low.LastIndexOf(' ');
        return unit > 0 && high.EndsWith(low[unit..], StringComparison.Ordinal) && !low.Contains('h', StringComparison.Ordinal) ? $"{low[..unit]} to {high}" : $"{low} to {high}";
    }

    public static string Span(Duration length) => Span(length.TotalSeconds);

    /// <summary>Day and time on the place's own clock.</summary>
    public static string Clock(LoopState state, Instant time) => ClockPattern.Format(time.InZone(state.Place.Zone).LocalDateTime);

    public static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
