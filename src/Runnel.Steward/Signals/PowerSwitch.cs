using NodaTime;

namespace Runnel.Steward.Signals;

/// <summary>Infers running from electric power or current: learns the standby and the running level, and switches between them with
/// hysteresis, so that start-up surge and noise make no false edges.</summary>
/// <remarks>The threshold between the two levels is Otsu's (1979, IEEE Trans. SMC 9:62-66) on the values seen so far: the split with the
/// greatest variance between the classes.</remarks>
internal sealed class PowerSwitch(double? toldThreshold)
{
    private const int SchoolingValues = 240;
    private readonly List<double> _schooling = [];
    private double _standby;
    private double _running;
    private bool _learnt;
    private bool? _on;
    private Instant _lastTime;

    /// <summary>Smoothed power while running, or null before the first run.</summary>
    public double? RunningLevel => _learnt || toldThreshold is not null ? _running : null;

    /// <summary>Takes one value; gives the state and the time of the edge when it changes.</summary>
    public (bool On, Instant EdgeTime)? Take(Instant time, double value)
    {
        var before = _lastTime;
        bool first = _lastTime == default;
        _lastTime = time;
        if (toldThreshold is { } told)
        {
            bool on = value >= told;
            if (on) Follow(ref _running, value);
            return Edge(on, first ? time : Middle(before, time), time);
        }

        if (!_learnt)
        {
            _schooling.Add(value);
            if (_schooling.Count < SchoolingValues || _schooling.Count % 60 != 0) return null;
            _learnt = Learn();
            if (!_learnt) return null;
        }

        double swing = _running - _standby;
        double low = _standby + (0.35 * swing), high = _standby + (0.5 * swing);
        bool nowOn = _on == true ? value > low : value > high;

        // A start-up surge stands far above the running level: it says "on" but teaches nothing.
        if (nowOn && value < _running + (0.5 * swing)) Follow(ref _running, value);
        if (!nowOn) Follow(ref _standby, value);
        return Edge(nowOn, first ? time : Middle(before, time), time);
    }

    private (bool, Instant)? Edge(bool on, Instant edge, Instant time)
    {
        if (_on == on) return (on, time);
        _on = on;
        return (on, edge);
    }

    private bool Learn()
    {
        double[] sorted = [.. _schooling];
        Array.Sort(sorted);
        int n = sorted.Length;
        double total = sorted.Sum(), sumBelow = 0, best = 0;
        int split = -1;
        for (int i = 0; i < n - 1; i++)
        {
            sumBelow += sorted[i];
            double meanBelow = sumBelow / (i + 1), meanAbove = (total - sumBelow) / (n - i - 1);
            double between = (double)(i + 1) * (n - i - 1) * (meanAbove - meanBelow) * (meanAbove - meanBelow);
            if (between > best) (best, split) = (between, i);
        }

        if (split < 0 || split + 1 < n / 100) return false;
        double low = sorted[split / 2], high = sorted[(split + 1 + n) / 2];

        // One level only (always on, or not yet started): the two halves then differ by no more than their noise.
        if (high - low < 0.3 * high || high < 1e-9) return false;
        (_standby, _running) = (low, high);
        _schooling.Clear();
        return true;
    }

    private static Instant Middle(Instant a, Instant b) => a + ((b - a) / 2);

    private static void Follow(ref double level, double value) => level = level == 0 ? value : level + (0.01 * (value - level));
}
