namespace Runnel.Exchange.Logs;

/// <summary>
/// Finds where the logger's clock was wrong, from times that fall back in the order of writing. A file sorted by channel, late rows that
/// fill a hole, rows that came twice, and a file in no order at all are none of that.
/// </summary>
internal sealed class ClockFaults
{
    private const int FewRows = 2;
    private readonly RawReadings _raw;
    private readonly FileOrder _order;
    private readonly bool[]? _impossible;
    private readonly IReadOnlyList<long> _headerAgain;
    private readonly List<ClockFault> _found = [];

    private ClockFaults(RawReadings raw, FileOrder order, bool[]? impossible, IReadOnlyList<long> headerAgain)
    {
        _raw = raw;
        _order = order;
        _impossible = impossible;
        _headerAgain = headerAgain;
    }

    /// <summary>The faults in the order of writing.</summary>
    public static IReadOnlyList<ClockFault> Find(
        RawReadings raw, FileOrder order, bool[]? impossible, int channels, IReadOnlyList<long> headerAgain, CancellationToken cancel)
    {
        var faults = new ClockFaults(raw, order, impossible, headerAgain);
        var fallen = faults.CountFalls(channels);
        for (int channel = 0; channel < channels; channel++)
        {
            cancel.ThrowIfCancellationRequested();
            var (rows, falls) = fallen[channel];
            bool mixedUp = falls > 2 && falls * 20L > rows;
            if (falls > 0 && !mixedUp) faults.Examine(channel, rows);
        }

        return faults.Joined(channels);
    }

    private bool IsUsable(int index) => _raw.Form(index).Kind != TimeKind.None && !(_impossible?[index] ?? false);

    private (int Rows, int Falls)[] CountFalls(int channels)
    {
        var counts = new (int Rows, int Falls)[channels];
        var last = new long[channels];
        Array.Fill(last, long.MinValue);
        for (int k = 0; k < _order.Count; k++)
        {
            int i = _order.At(k);
            if (!IsUsable(i)) continue;
            int channel = _raw.Channel(i);
            long ticks = _raw.Ticks(i);
            counts[channel].Rows++;
            if (last[channel] != long.MinValue && ticks < last[channel] - WrittenRuns.Disorder) counts[channel].Falls++;
            last[channel] = ticks;
        }

        return counts;
    }

    private void Examine(int channel, int rows)
    {
        var positions = new int[rows];
        var ticks = new long[rows];
        int count = 0;
        for (int k = 0; k < _order.Count; k++)
        {
            int i = _order.At(k);
            if (_raw.Channel(i) != channel || !IsUsable(i)) continue;
            positions[count] = k;
            ticks[count++] = _raw.Ticks(i);
        }

        if (WrittenRuns.Of(positions, ticks) is not { } runs) return;
        foreach (var outside in runs.Outside())
        {
            if (Judge(runs, outside) is { } reason) _found.Add(FaultOf(runs, outside, reason));
        }
    }

    /// <summary>Why these rows are a clock's fault, or null where they are merely late, repeated or of another series.</summary>
    private string? Judge(WrittenRuns runs, in WrittenRuns.Run rows)
    {
        long chainFrom = runs.Chain[0].Least, chainTo = runs.Chain[^1].Greatest;
        if (BeginsBehindHeader(runs, rows)) return null;
        int covered = 0;
        foreach (var run in runs.Chain)
            covered += runs.PastTime(run, rows.Greatest) - runs.PastTime(run, rows.Least - 1);
        if (covered == 0) return rows.Greatest < chainFrom || rows.Least > chainTo ? JudgeApart(runs, rows, chainFrom, chainTo) : null;
        if (rows.Length < FewRows || (rows.Length == FewRows && !GoesOn(runs, rows)) || covered * 10 < rows.Length || (rows.Greatest - rows.Least) * 5 > (chainTo - chainFrom) * 4) return null;
        return MostlyRepeated(runs, rows) ? null : ClockFault.WentBack;
    }

    /// <summary>Behind late rows the log jumps back to where it was; behind a clock that was put back it goes on at its usual pace.</summary>
    private static bool GoesOn(WrittenRuns runs, in WrittenRuns.Run rows)
    {
        if (rows.From == 0 || rows.To >= runs.Count) return false;
        long fall = runs.TicksAt(rows.From - 1) - runs.TicksAt(rows.From);
        return (runs.TicksAt(rows.To) - runs.TicksAt(rows.To - 1)) * 4 < fall * 3;
    }

    /// <summary>Rows before or after everything else: a wrong clock where it came back, or where the rest is far away.</summary>
    private static string? JudgeApart(WrittenRuns runs, in WrittenRuns.Run rows, long chainFrom, long chainTo)
    {
        const long Near = 6 * WrittenTime.PerHour;
        const long Far = 45 * WrittenTime.PerDay;
        long gap = rows.Greatest < chainFrom ? chainFrom - rows.Greatest : rows.Least - chainTo;
        bool cameBack = rows.From > 0 && rows.To < runs.Count;
        if (cameBack && gap > Near && gap > rows.Greatest - rows.Least) return ClockFault.FarOff;
        if (gap > Far && rows.Length * 100L < runs.Count * 35L) return ClockFault.FarOff;
        return rows.From > 0 && IsWholeYears(runs.TicksAt(rows.From - 1) - runs.TicksAt(rows.From)) ? ClockFault.FarOff : null;
    }

    /// <summary>A clock that forgot its year falls back by whole years, within two days.</summary>
    private static bool IsWholeYears(long ticks)
    {
        double years = Math.Abs(ticks) / (365.25 * WrittenTime.PerDay);
        return years > 0.9 && Math.Abs(years - Math.Round(years)) * 365.25 < 2;
    }

    /// <summary>A header in the middle shows that files were put one behind the other.</summary>
    private bool BeginsBehindHeader(WrittenRuns runs, in WrittenRuns.Run rows)
    {
        if (_headerAgain.Count == 0 || rows.From == 0) return false;
        long before = _raw.Line(_order.At(runs.PositionAt(rows.From - 1))), after = _raw.Line(_order.At(runs.PositionAt(rows.From)));
        return _headerAgain.Any(line => line > before && line < after);
    }

    private bool MostlyRepeated(WrittenRuns runs, in WrittenRuns.Run rows)
    {
        var known = new HashSet<(long, double)>();
        foreach (var run in runs.Chain)
        {
            int to = runs.PastTime(run, rows.Greatest);
            for (int i = runs.PastTime(run, rows.Least - 1); i < to; i++) known.Add((runs.TicksAt(i), ValueAt(runs, i)));
        }

        int repeated = 0;
        for (int i = rows.From; i < rows.To; i++)
        {
            if (known.Contains((runs.TicksAt(i), ValueAt(runs, i)))) repeated++;
        }

        return repeated * 2 >= rows.Length;
    }

    private double ValueAt(WrittenRuns runs, int index) => _raw.Value(_order.At(runs.PositionAt(index)));

    private static ClockFault FaultOf(WrittenRuns runs, in WrittenRuns.Run rows, string reason)
    {
        long before = rows.From > 0 ? runs.TicksAt(rows.From - 1) : runs.Chain[0].Least;
        return new(runs.PositionAt(rows.From), runs.PositionAt(rows.To - 1), before, runs.TicksAt(rows.From), rows.Least, rows.Greatest, reason);
    }

    /// <summary>The faults of all channels, those of one stretch of the file joined, widened to the neighbours of channels that write seldom.</summary>
    private List<ClockFault> Joined(int channels)
    {
        var joined = new List<ClockFault>();
        foreach (var fault in _found.OrderBy(f => f.First))
        {
            if (joined.Count > 0 && fault.First <= joined[^1].Last + (8 * channels) && fault.Reason == joined[^1].Reason)
            {
                var last = joined[^1];
                joined[^1] = last with
                {
                    Last = Math.Max(last.Last, fault.Last),
                    Before = Math.Max(last.Before, fault.Before),
                    Least = Math.Min(last.Least, fault.Least),
                    Greatest = Math.Max(last.Greatest, fault.Greatest),
                };
            }
            else
            {
                joined.Add(fault);
            }
        }

        return [.. joined.Select(Widened)];
    }

    private ClockFault Widened(ClockFault fault)
    {
        const int Most = 1000;
        int first = fault.First, last = fault.Last;
        long after = fault.After, least = fault.Least;
        while (first > 0 && fault.First - first < Most && IsUsable(_order.At(first - 1)) && _raw.Ticks(_order.At(first - 1)) is var t &&
            t < fault.Before - WrittenRuns.Disorder && t <= fault.After + WrittenRuns.Disorder && t >= fault.After - WrittenTime.PerHour)
        {
            first--;
            after = t;
            least = Math.Min(least, t);
        }

        while (last + 1 < _order.Count && last - fault.Last < Most && IsUsable(_order.At(last + 1)) &&
            _raw.Ticks(_order.At(last + 1)) is var t && t <= fault.Greatest && t >= fault.Least)
        {
            last++;
        }

        return fault with { First = first, Last = last, After = after, Least = least };
    }
}
