using NodaTime;
using Runnel.Place;

namespace Runnel.Steward.Watches;

/// <summary>What falls when water is let into the loop: minus the logarithm of the pump's share of running time, or minus the sump's
/// level in mm where the pump always runs. Kept cycle by cycle, or as medians of five minutes.</summary>
/// <remarks>Over whole cycles the water pumped is the inflow but for the sump's level at both ends, so running time over all time is
/// inflow over pump flow, and the scatter of the switch levels falls with the number of cycles instead of its root.</remarks>
internal sealed class WaterGauge
{
    private static readonly Duration Kept = Duration.FromDays(2);
    private readonly List<(Instant Begin, Instant End, double Value, double OffS)> _points = [];
    private readonly List<double> _minutes = [];
    private Instant _slot;
    private int _taken;

    public bool ByLevel { get; private set; }

    public void TakeLevel(LoopState state, in Reading reading)
    {
        ByLevel = state.Kit.BandL is null;
        if (!ByLevel) return;
        var slot = Instant.FromUnixTimeSeconds(reading.Time.ToUnixTimeSeconds() / 300 * 300);
        if (slot != _slot && _minutes.Count > 0)
        {
            _points.Add((_slot, _slot + Duration.FromMinutes(5), -Robust.Median(_minutes), 0));
            _minutes.Clear();
        }

        _slot = slot;
        _minutes.Add(reading.Value);
    }

    public void TakeCycles(LoopState state)
    {
        if (ByLevel)
        {
            Forget(state.Now);
            return;
        }

        var cycles = state.Cycles.Cycles;
        for (; _taken < cycles.Count; _taken++)
        {
            if (CycleHabit.Of(cycles, _taken, 50) is not { } habit) continue;
            var c = cycles[_taken];
            double rate = ((1 / c.FillS) + (1 / c.RunS)) / habit.RatePerS;

            // A lost edge joins cycles, chatter splits them: neither is a fill.
            if (rate is > 0.6 and < 1.6) _points.Add((c.FillStart, c.RunEnd, c.RunS, c.FillS));
        }

        Forget(state.Now);
    }

    /// <summary>The gauge over what began at or after <paramref name="from"/> and ended by <paramref name="to"/>, and how many that were.</summary>
    public (double Value, int Count) Between(Instant from, Instant to)
    {
        double sum = 0, off = 0;
        int n = 0;
        for (int i = _points.Count - 1; i >= 0 && _points[i].Begin >= from; i--)
        {
            if (_points[i].End > to) continue;
            sum += _points[i].Value;
            off += _points[i].OffS;
            n++;
        }

        if (n == 0) return (double.NaN, 0);
        return (ByLevel ? sum / n : -Math.Log(sum / (sum + off)), n);
    }

    private void Forget(Instant now)
    {
        if (_points.Count > 2000 || (_points.Count > 0 && _points[0].End < now - Kept - Kept)) _points.RemoveAll(p => p.End < now - Kept);
    }
}
