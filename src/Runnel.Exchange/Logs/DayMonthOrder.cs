using NodaTime;

namespace Runnel.Exchange.Logs;

/// <summary>Dates such as 03/02/2026 are read one by one as day first; the whole column then decides.</summary>
internal static class DayMonthOrder
{
    private const string OtherWay = "day and month the other way round than in the rest of the log";

    public static void Settle(RawReadings raw, DateTimeZone zone, SkipTally tally, List<string> remarks)
    {
        int day = 0, month = 0, open = 0, firstOpen = -1;
        for (int i = 0; i < raw.Count; i++)
        {
            switch (raw.Form(i).Order)
            {
                case DayMonth.DayFirst:
                    day++;
                    break;
                case DayMonth.MonthFirst:
                    month++;
                    break;
                case DayMonth.Open:
                    if (open++ == 0) firstOpen = i;
                    break;
            }
        }

        if (open == 0 && (day == 0 || month == 0)) return;
        bool monthFirst = month > day;
        string why = "other rows leave no doubt";
        if (day == 0 && month == 0) (monthFirst, why) = ByContinuity(raw, zone);
        if (open > 0) remarks.Add($"Dates such as {Shown(raw, firstOpen)} were read {(monthFirst ? "month" : "day")} first: {why}.");
        for (int i = 0; i < raw.Count; i++)
        {
            ref var form = ref raw.Form(i);
            if (form.Order == DayMonth.Open && monthFirst) raw.Ticks(i) = WrittenTime.SwapDayAndMonth(raw.Ticks(i));
            else if (form.Order == (monthFirst ? DayMonth.DayFirst : DayMonth.MonthFirst))
            {
                form.Kind = TimeKind.None;
                tally.Add(OtherWay, raw.Line(i));
            }
        }
    }

    /// <summary>The order in which the dates follow one another in smaller steps; where that does not tell, the custom of the place.</summary>
    private static (bool MonthFirst, string Why) ByContinuity(RawReadings raw, DateTimeZone zone)
    {
        double dayWay = 0, monthWay = 0;
        long lastDay = 0, lastMonth = 0;
        for (int i = 0; i < raw.Count; i++)
        {
            long asDay = raw.Ticks(i);
            long asMonth = raw.Form(i).Order == DayMonth.Open ? WrittenTime.SwapDayAndMonth(asDay) : asDay;
            if (i > 0)
            {
                dayWay += Math.Abs(asDay - lastDay);
                monthWay += Math.Abs(asMonth - lastMonth);
            }

            (lastDay, lastMonth) = (asDay, asMonth);
        }

        if (Math.Abs(dayWay - monthWay) >= 2.0 * WrittenTime.PerDay)
            return (monthWay < dayWay, "only so do the days follow one another");
        bool custom = zone.Id.StartsWith("America/", StringComparison.Ordinal) || zone.Id.StartsWith("US/", StringComparison.Ordinal);
        return (custom, $"nothing in the log tells, and it is the custom in the zone {zone.Id}");
    }

    private static string Shown(RawReadings raw, int index)
    {
        var date = LocalDateTime.FromDateTime(new DateTime(raw.Ticks(index) + DateTime.UnixEpoch.Ticks)).Date;
        return FormattableString.Invariant($"{date.Day:00}/{date.Month:00}/{date.Year:0000}");
    }
}
