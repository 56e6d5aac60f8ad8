using NodaTime;

namespace Runnel.Exchange.Logs;

/// <summary>
/// Marks readings of a clock that was not set or lost its year: those later than the present, and small groups of days that lie more than a
/// year away from the bulk of the log. They are left out, so that the log does not seem to stretch over decades.
/// </summary>
internal static class ImpossibleTimes
{
    private const long FarDays = 400;

    /// <summary>Before this no logger of today was made (common practice); clocks that lost their setting start at 1970, 1980 or 2000.</summary>
    private static readonly long FirstPlausibleDay = WrittenTime.DaysOf(2001, 1, 2)!.Value;

    /// <returns>Marks the readings that are impossible, by index in the file; null where there are none.</returns>
    public static bool[]? Find(RawReadings raw, Instant? now, CancellationToken cancel)
    {
        var days = new SortedDictionary<long, long>();
        var counts = new Dictionary<long, long>();
        long lastDay = long.MinValue, run = 0;
        for (int i = 0; i < raw.Count; i++)
        {
            if (raw.Form(i).Kind == TimeKind.None) continue;
            long day = Math.DivRem(raw.Ticks(i), WrittenTime.PerDay).Quotient;
            if (day == lastDay)
            {
                run++;
                continue;
            }

            Flush();
            (lastDay, run) = (day, 1);
        }

        Flush();
        cancel.ThrowIfCancellationRequested();
        foreach (var (day, count) in counts) days[day] = count;
        var kept = KeptSpans(days);
        long latest = now is { } present ? present.ToUnixTimeTicks() + WrittenTime.PerDay : long.MaxValue;
        bool[]? marks = null;
        if (kept is null && latest == long.MaxValue) return null;
        for (int i = 0; i < raw.Count; i++)
        {
            long ticks = raw.Ticks(i);
            long day = Math.DivRem(ticks, WrittenTime.PerDay).Quotient;
            if (raw.Form(i).Kind == TimeKind.None || (ticks <= latest && (kept is null || kept.Exists(s => day >= s.From && day <= s.To)))) continue;
            marks ??= new bool[raw.Count];
            marks[i] = true;
        }

        return marks;

        void Flush()
        {
            if (run > 0) counts[lastDay] = counts.GetValueOrDefault(lastDay) + run;
        }
    }

    /// <summary>The groups of days that are believed, or null where all are.</summary>
    private static List<(long From, long To)>? KeptSpans(SortedDictionary<long, long> days)
    {
        var groups = new List<(long From, long To, long Count)>();
        foreach (var (day, count) in days)
        {
            if (groups.Count > 0 && day - groups[^1].To <= FarDays) groups[^1] = (groups[^1].From, day, groups[^1].Count + count);
            else groups.Add((day, day, count));
        }

        if (groups.Count < 2) return null;
        var main = groups.MaxBy(g => g.Count);
        long total = groups.Sum(g => g.Count);
        var kept = groups.Where(g => g == main || (g.Count * 5 > total && !(g.From < FirstPlausibleDay && main.From >= FirstPlausibleDay)));
        List<(long From, long To)> spans = [.. kept.Select(g => (g.From, g.To))];
        return spans.Count == groups.Count ? null : spans;
    }
}
