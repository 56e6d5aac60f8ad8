using NodaTime;
using Runnel.Web.Words;

namespace Runnel.Web.Charts;

/// <summary>One mark of the time axis; <paramref name="Day"/> stands under it where a new day begins.</summary>
public sealed record TimeStep(Instant Time, string Label, string? Day);

/// <summary>Round civil times for an axis: hours, days, weeks from Monday, or months.</summary>
public static class TimeSteps
{
    private static readonly int[] HourSteps = [1, 2, 3, 6, 12];
    private static readonly int[] DaySteps = [1, 2, 7, 14, 28];

    /// <summary>Marks within the range, no more than <paramref name="most"/> or so.</summary>
    public static IReadOnlyList<TimeStep> Within(Interval range, DateTimeZone zone, int most)
    {
        double hours = range.Duration.TotalHours;
        foreach (int step in HourSteps)
        {
            if (hours / step <= most && hours <= 24 * 4) return [.. Hours(range, zone, step)];
        }

        foreach (int step in DaySteps)
        {
            if (hours / 24 / step <= most) return [.. Days(range, zone, step)];
        }

        return [.. Months(range, zone, (int)Math.Ceiling(hours / 24 / 30.4 / most))];
    }

    private static IEnumerable<TimeStep> Hours(Interval range, DateTimeZone zone, int step)
    {
        LocalDate date = range.Start.InZone(zone).Date;
        bool first = true;
        for (; zone.AtStartOfDay(date).ToInstant() < range.End; date = date.PlusDays(1))
        {
            for (int hour = 0; hour < 24; hour += step)
            {
                // An hour that a clock change skips is drawn at the moment the clock moved to.
                Instant time = zone.AtLeniently(date + new LocalTime(hour, 0)).ToInstant();
                if (time < range.Start || time > range.End) continue;
                yield return new(time, Times.Clock(new LocalTime(hour, 0)), first || hour == 0 ? Times.WeekdayAndDay(date) : null);
                first = false;
            }
        }
    }

    private static IEnumerable<TimeStep> Days(Interval range, DateTimeZone zone, int step)
    {
        LocalDate date = range.Start.InZone(zone).Date;
        // Weeks begin on Mondays; pairs of days are counted from a fixed day, so that marks stay put while the range moves.
        if (step >= 7) while (date.DayOfWeek != IsoDayOfWeek.Monday) date = date.PlusDays(-1);
        var epoch = new LocalDate(2001, 1, 1); // a Monday
        while (Period.DaysBetween(epoch, date) % step != 0) date = date.PlusDays(step >= 7 ? -7 : -1);
        for (; ; date = date.PlusDays(step))
        {
            Instant time = zone.AtStartOfDay(date).ToInstant();
            if (time > range.End) yield break;
            if (time >= range.Start) yield return new(time, Times.ShortDay(date), null);
        }
    }

    private static IEnumerable<TimeStep> Months(Interval range, DateTimeZone zone, int step)
    {
        LocalDate date = range.Start.InZone(zone).Date.With(DateAdjusters.StartOfMonth);
        for (; ; date = date.PlusMonths(Math.Max(1, step)))
        {
            Instant time = zone.AtStartOfDay(date).ToInstant();
            if (time > range.End) yield break;
            if (time >= range.Start) yield return new(time, Times.ShortDay(date), null);
        }
    }
}
