using NodaTime;
using Runnel.Steward.Signals;

namespace Runnel.Steward.Cycles;

/// <summary>Makes cycles of the pump's edges, and sets aside those that known water, work or a gap touched.</summary>
internal sealed class CycleTracker
{
    /// <summary>Water let in or out settles through the troughs for about this long; measured fills lie off the curve meanwhile.</summary>
    private static readonly Duration Settling = Duration.FromMinutes(20);

    private const double LongS = 1500;

    private readonly List<Cycle> _cycles = [];
    private Instant? _fillStart;
    private Instant? _runStart;
    private Instant _disturbedUntil = Instant.MinValue;

    /// <summary>Finished cycles, oldest first.</summary>
    public IReadOnlyList<Cycle> Cycles => _cycles;

    /// <summary>Settling time after known water: a good part of a cycle where cycles are long.</summary>
    public Duration SettlingTime => _cycles.Count < 20 ? Settling : Duration.Max(Settling, Duration.FromSeconds(1.5 * TypicalS));

    /// <summary>Typical length of a fill and a run together, s (mean of the last twenty).</summary>
    public double TypicalS { get; private set; }

    /// <summary>Cycles so long that an hour holds only a few.</summary>
    public bool AreLong => TypicalS > LongS;

    /// <summary>Takes an edge of the pump; gives the cycle that it ended, if any.</summary>
    public Cycle? TakeEdge(Instant time, bool on)
    {
        if (on)
        {
            _runStart = time;
            return null;
        }

        Cycle? cycle = null;
        if (_fillStart is { } fill && _runStart is { } run && run > fill && time > run)
        {
            cycle = new Cycle(fill, run, time, (run - fill).TotalSeconds, (time - run).TotalSeconds, _disturbedUntil > fill);
            _cycles.Add(cycle);
            int n = Math.Min(20, _cycles.Count);
            TypicalS = _cycles.Skip(_cycles.Count - n).Average(c => c.FillS + c.RunS);
        }

        _fillStart = time;
        _runStart = null;
        return cycle;
    }

    /// <summary>Known water, work or the like went on until <paramref name="end"/>.</summary>
    public void Disturb(Instant end)
    {
        var settled = end + SettlingTime;
        if (settled > _disturbedUntil) _disturbedUntil = settled;
    }

    /// <summary>Readings were missing: the fill or run in hand has no known length.</summary>
    public void Break()
    {
        _fillStart = null;
        _runStart = null;
    }
}
