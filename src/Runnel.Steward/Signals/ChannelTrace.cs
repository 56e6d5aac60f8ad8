using NodaTime;

namespace Runnel.Steward.Signals;

/// <summary>The last word of one channel and how often it usually speaks.</summary>
internal sealed class ChannelTrace
{
    private readonly double[] _intervals = new double[64];
    private int _intervalCount;

    public bool Any { get; private set; }
    public Instant LastTime { get; private set; }
    public double LastValue { get; private set; }

    /// <summary>When the value last differed from the one before it.</summary>
    public Instant LastChange { get; private set; }

    public long Count { get; private set; }

    /// <summary>Usual time between readings, s (median of the last 64), or null before ten of them.</summary>
    public double? UsualIntervalS { get; private set; }

    /// <summary>Speaks at a steady interval: eight in ten of its last intervals lie within half of the usual one. A channel that
    /// speaks only when something changes does not.</summary>
    public bool Regular { get; private set; }

    public void Take(Instant time, double value)
    {
        if (Any)
        {
            double interval = (time - LastTime).TotalSeconds;
            if (interval > 0)
            {
                _intervals[_intervalCount++ % _intervals.Length] = interval;
                if (_intervalCount >= 10 && _intervalCount % 16 is 0 or 10) LearnInterval();
            }
        }

        if (!Any || value != LastValue) LastChange = time;
        Any = true;
        LastTime = time;
        LastValue = value;
        Count++;
    }

    private void LearnInterval()
    {
        var sorted = _intervals.AsSpan(0, Math.Min(_intervalCount, _intervals.Length)).ToArray();
        Array.Sort(sorted);
        double usual = sorted[sorted.Length / 2];
        UsualIntervalS = usual;
        Regular = sorted[sorted.Length / 10] >= 0.5 * usual && sorted[sorted.Length * 9 / 10] <= 1.5 * usual;
    }
}
