using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Runnel.Steward.OwnRule;

/// <summary>Figures and dates of the finding's sentences.</summary>
internal static class Words
{
    private static readonly LocalDatePattern DayPattern = LocalDatePattern.CreateWithInvariantCulture("d MMMM");

    public static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    public static string Minutes(Duration length) => Text($"{length.TotalMinutes:0.#} min");

    public static string ClockHour(double hour)
    {
        int minutes = (int)Math.Round(hour * 12) * 5 % 1440;
        return Text($"{minutes / 60:00}:{minutes % 60:00}");
    }

    public static string Day(LoopState state, Instant time) => DayPattern.Format(time.InZone(state.Place.Zone).Date);

    public static string Count(int n, string one, string many) => Text($"{n} {(n == 1 ? one : many)}");
}
