using NodaTime;

namespace Runnel.Web.Words;

/// <summary>A stretch of time in words.</summary>
public static class Stretch
{
    /// <summary>"5 January to 5 March 2026", or with the clock where the stretch is short. An end at midnight belongs to the day before.</summary>
    public static string InWords(Interval range, DateTimeZone zone)
    {
        LocalDateTime from = range.Start.InZone(zone).LocalDateTime, to = range.End.InZone(zone).LocalDateTime;
        if (range.Duration <= Duration.FromDays(4))
            return $"{Times.WeekdayAndDay(from.Date)}, {Times.Clock(from.TimeOfDay)} to {Times.WeekdayAndDay(to.Date)}, {Times.Clock(to.TimeOfDay)}";
        LocalDate last = LastDay(range.End, zone);
        return from.Year == last.Year
            ? $"{Times.DayAndMonth(from.Date)} to {Times.FullDate(last)}"
            : $"{Times.FullDate(from.Date)} to {Times.FullDate(last)}";
    }

    /// <summary>The civil day that an end falls in.</summary>
    public static LocalDate LastDay(Instant end, DateTimeZone zone) => (end - Duration.FromMilliseconds(1)).InZone(zone).Date;
}
