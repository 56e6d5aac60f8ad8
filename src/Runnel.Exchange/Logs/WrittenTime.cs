namespace Runnel.Exchange.Logs;

/// <summary>What a written time says.</summary>
internal enum TimeKind : byte
{
    /// <summary>Not understood.</summary>
    None,

    /// <summary>A moment: it carried an offset, or counts from 1970.</summary>
    Moment,

    /// <summary>The clock on the wall, without an offset.</summary>
    Local,
}

/// <summary>Which of two small numbers is the day.</summary>
internal enum DayMonth : byte
{
    /// <summary>Only one order is possible, or the form leaves no doubt.</summary>
    Sure,

    /// <summary>Day first, and month first would be impossible.</summary>
    DayFirst,

    /// <summary>Month first, and day first would be impossible.</summary>
    MonthFirst,

    /// <summary>Both orders give a date; day first was taken.</summary>
    Open,
}

/// <summary>A written time taken apart. Ticks are 100 ns since 1970, of the moment or of the wall clock.</summary>
internal readonly record struct WrittenTime(TimeKind Kind, long Ticks, DayMonth DayMonth = DayMonth.Sure)
{
    public const long PerMs = 10_000;
    public const long PerSecond = 10_000_000;
    public const long PerMinute = 60 * PerSecond;
    public const long PerHour = 60 * PerMinute;
    public const long PerDay = 24 * PerHour;

    /// <summary>Days from 1970-01-01, or null where there is no such date. Years 1 to 9998, so that offsets cannot overflow.</summary>
    public static long? DaysOf(int year, int month, int day)
    {
        if (year is < 1 or > 9998 || month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month)) return null;
        return (new DateTime(year, month, day, 0, 0, 0, DateTimeKind.Utc).Ticks - DateTime.UnixEpoch.Ticks) / PerDay;
    }

    /// <summary>The same clock time with day and month changed over; only for times whose order is open.</summary>
    public static long SwapDayAndMonth(long ticks)
    {
        var was = new DateTime(ticks + DateTime.UnixEpoch.Ticks, DateTimeKind.Utc);
        var now = new DateTime(was.Year, was.Day, was.Month, 0, 0, 0, DateTimeKind.Utc);
        return now.Ticks - DateTime.UnixEpoch.Ticks + was.TimeOfDay.Ticks;
    }
}
