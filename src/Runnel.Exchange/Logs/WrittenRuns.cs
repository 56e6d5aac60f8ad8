namespace Runnel.Exchange.Logs;

/// <summary>
/// One channel's readings in the order of writing, cut into runs in which time goes on, and the chain of runs that holds most readings
/// while time never goes back. What stays outside the chain is late, repeated, or written by a wrong clock.
/// </summary>
internal sealed class WrittenRuns
{
    /// <summary>Rows may be out of order by this much without beginning a new run.</summary>
    public const long Disorder = 2 * WrittenTime.PerMinute;

    private const long LongGap = WrittenTime.PerDay;
    private const int MostRuns = 400;

    private readonly int[] _positions;
    private readonly long[] _ticks;
    private readonly List<Run> _runs = [];
    private readonly List<Run> _chain = [];

    /// <param name="From">First reading.</param>
    /// <param name="To">One past the last.</param>
    /// <param name="Least">Earliest time.</param>
    /// <param name="Greatest">Latest time.</param>
    internal readonly record struct Run(int From, int To, long Least, long Greatest)
    {
        public int Length => To - From;
    }

    private WrittenRuns(int[] positions, long[] ticks)
    {
        _positions = positions;
        _ticks = ticks;
    }

    public int Count => _ticks.Length;

    /// <summary>The chain; of a run that begins behind the end of the one before, only the part past that end.</summary>
    public IReadOnlyList<Run> Chain => _chain;

    public long TicksAt(int index) => _ticks[index];

    public int PositionAt(int index) => _positions[index];

    /// <summary>Null where the readings are too mixed up to speak of a clock.</summary>
    public static WrittenRuns? Of(int[] positions, long[] ticks)
    {
        var runs = new WrittenRuns(positions, ticks);
        if (!runs.Cut()) return null;
        runs.Link();
        return runs;
    }

    private bool Cut()
    {
        int from = 0;
        long least = _ticks[0], greatest = _ticks[0];
        for (int i = 1; i <= _ticks.Length; i++)
        {
            bool cut = i == _ticks.Length || _ticks[i] < greatest - Disorder || _ticks[i] > _ticks[i - 1] + LongGap;
            if (!cut)
            {
                least = Math.Min(least, _ticks[i]);
                greatest = Math.Max(greatest, _ticks[i]);
                continue;
            }

            _runs.Add(new Run(from, i, least, greatest));
            if (_runs.Count > MostRuns) return false;
            if (i < _ticks.Length) (from, least, greatest) = (i, _ticks[i], _ticks[i]);
        }

        return true;
    }

    /// <summary>Heaviest chain by dynamic programming over pairs of runs.</summary>
    private void Link()
    {
        int n = _runs.Count;
        var weight = new long[n];
        var before = new int[n];
        int best = 0;
        for (int j = 0; j < n; j++)
        {
            (weight[j], before[j]) = (_runs[j].Length, -1);
            for (int i = 0; i < j; i++)
            {
                if (_runs[i].Greatest >= _runs[j].Greatest) continue;
                long joined = weight[i] + _runs[j].To - PastTime(_runs[j], _runs[i].Greatest);
                if (joined > weight[j]) (weight[j], before[j]) = (joined, i);
            }

            if (weight[j] > weight[best]) best = j;
        }

        for (int j = best; j >= 0; j = before[j])
        {
            var run = _runs[j];
            if (before[j] >= 0 && run.Least <= _runs[before[j]].Greatest)
            {
                int from = PastTime(run, _runs[before[j]].Greatest);
                run = new Run(from, run.To, _runs[before[j]].Greatest, run.Greatest);
            }

            _chain.Add(run);
        }

        _chain.Reverse();
    }

    /// <summary>Readings outside the chain, in stretches that are together in the file.</summary>
    public IEnumerable<Run> Outside()
    {
        int at = 0;
        foreach (var run in _runs)
        {
            int chained = _chain.FindIndex(c => c.To == run.To);
            int end = chained < 0 ? run.To : _chain[chained].From;
            if (end > run.From) yield return RunOf(run.From, end);
            at = run.To;
        }
    }

    private Run RunOf(int from, int to)
    {
        long least = long.MaxValue, greatest = long.MinValue;
        for (int i = from; i < to; i++)
        {
            least = Math.Min(least, _ticks[i]);
            greatest = Math.Max(greatest, _ticks[i]);
        }

        return new Run(from, to, least, greatest);
    }

    /// <summary>Index of the first reading of a run that is past <paramref name="time"/>, its small disorder aside.</summary>
    public int PastTime(in Run run, long time)
    {
        int low = run.From, high = run.To;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_ticks[middle] <= time) low = middle + 1;
            else high = middle;
        }

        return low;
    }
}
