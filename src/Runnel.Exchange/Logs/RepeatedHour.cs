namespace Runnel.Exchange.Logs;

/// <summary>Tells the two passes of an hour that occurs twice by the order of writing.</summary>
internal sealed class RepeatedHour(int channels)
{
    /// <summary>Rows may be out of order by this much without meaning that the clock was put back.</summary>
    private const long Disorder = 2 * WrittenTime.PerMinute;

    /// <summary>The same time again after at least this long a step is the second pass, not a repeated row.</summary>
    private const long CoarseStep = 10 * WrittenTime.PerMinute;

    private readonly long[] _last = Filled(channels);
    private readonly long[] _step = new long[channels];
    private readonly Dictionary<long, Tally> _tallies = [];
    private long _from;
    private long _to;
    private bool _inWindow;
    private bool _second;

    private sealed class Tally
    {
        public long To;
        public int First;
        public int Second;
    }

    /// <summary>Every such hour that was met, with the readings given to each pass.</summary>
    public IEnumerable<(long From, long To, int First, int Second)> Hours =>
        _tallies.OrderBy(t => t.Key).Select(t => (t.Key, t.Value.To, t.Value.First, t.Value.Second));

    /// <summary>Takes note of a row's local time, in whatever hour.</summary>
    public void See(int channel, long local)
    {
        // Another channel's column of the file may begin here, from before the hour.
        if (_inWindow && local < _from) _inWindow = false;
        ref long last = ref _last[channel];
        if (last != long.MinValue && local != last) _step[channel] = local - last;
        last = local;
    }

    /// <summary>Whether a row within the hour belongs to its second pass. To be asked before <see cref="See"/>.</summary>
    public bool IsSecond(int channel, long local, long from, long to)
    {
        if (!_inWindow || from != _from)
        {
            (_from, _to, _inWindow, _second) = (from, to, true, false);
        }

        long last = _last[channel];
        if (last >= _from && last < _to && (local < last - Disorder || (local == last && _step[channel] >= CoarseStep))) _second = true;
        if (!_tallies.TryGetValue(from, out var tally)) _tallies[from] = tally = new Tally { To = to };
        if (_second) tally.Second++;
        else tally.First++;
        return _second;
    }

    private static long[] Filled(int count)
    {
        var all = new long[count];
        Array.Fill(all, long.MinValue);
        return all;
    }
}
