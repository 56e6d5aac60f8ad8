using System.Globalization;
using NodaTime;

namespace Runnel.Web.Words;

/// <summary>Dates and spans in words, in the place's own civil time.</summary>
public static class Times
{
    private static readonly string[] Months =
        ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];

    /// <summary>"11 January".</summary>
    public static string DayAndMonth(LocalDate date) => string.Create(CultureInfo.InvariantCulture, $"{date.Day} {Months[date.Month - 1]}");

    /// <summary>"11 Jan".</summary>
    public static string ShortDay(LocalDate date) => string.Create(CultureInfo.InvariantCulture, $"{date.Day} {Months[date.Month - 1][..3]}");

    /// <summary>"11 January 2026".</summary>
    public static string FullDate(LocalDate date) => string.Create(CultureInfo.InvariantCulture, $"{DayAndMonth(date)} {date.Year}");

    /// <summary>"Sun 11 Jan".</summary>
    public static string WeekdayAndDay(LocalDate date) => $"{date.DayOfWeek.ToString()[..3]} {ShortDay(date)}";

    /// <summary>"16:48".</summary>
    public static string Clock(LocalTime time) => time.ToString("HH:mm", CultureInfo.InvariantCulture);

    /// <summary>"11 January, 16:48".</summary>
    public static string DayAndClock(Instant time, DateTimeZone zone)
    {
        LocalDateTime local = time.InZone(zone).LocalDateTime;
        return $"{DayAndMonth(local.Date)}, {Clock(local.TimeOfDay)}";
    }

    /// <summary>A span rounded down: minutes under 2 h, hours under 3 days, else days.</summary>
    public static string SpanRoundedDown(Duration span)
    {
        if (span < Duration.FromHours(2)) return Counted(Math.Floor(Math.Max(span.TotalMinutes, 0)), "min", "min");
        return span < Duration.FromDays(3)
            ? Counted(Math.Floor(span.TotalHours), "h", "h")
            : Counted(Math.Floor(span.TotalDays), "day", "days");
    }

    /// <summary>A span to the nearest of its unit, for things that have passed.</summary>
    public static string Span(Duration span)
    {
        if (span < Duration.FromMinutes(2)) return Counted(Math.Round(span.TotalSeconds), "s", "s");
        if (span < Duration.FromHours(2)) return Counted(Math.Round(span.TotalMinutes), "min", "min");
        return span < Duration.FromDays(3)
            ? Counted(Math.Round(span.TotalHours), "h", "h")
            : Counted(Math.Round(span.TotalDays), "day", "days");
    }

    private static string Counted(double count, string one, string many) => $"{Figures.Number(count)} {(count == 1 ? one : many)}";

    /// <summary>Weekday, day and time of day, as clocks on pages show them.</summary>
    public static string WeekdayAndClock(LocalDateTime local) => $"{WeekdayAndDay(local.Date)}, {Clock(local.TimeOfDay)}";
}
