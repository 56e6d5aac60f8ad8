using Runnel.Twin.Solving;
using Runnel.Twin.Water;

namespace Runnel.Twin.Averaging;

/// <summary>Means over pump cycles against the water that a part holds: each point is a run of the detailed laws until they repeat themselves, made when it is first asked for.</summary>
internal sealed class CycleMeans
{
    private const double FirstSettleS = 2 * 3600, SettleS = 3600, WindowS = 3600, LongestWindowS = 12 * 3600;

    private readonly WaterLoop _loop;
    private readonly LoopPart _part;
    private readonly OdeSolver _solver;
    private readonly int _vesselCount, _pumpCount;
    private readonly double _stepM3;
    private readonly Dictionary<int, CycleMean> _points = [];
    private readonly Dictionary<int, double[]> _ends = [];
    private readonly double[] _first, _integral, _last;
    private readonly Watch _watch;
    private double _lastTime;

    /// <param name="loop">The detailed laws; no weather, no valves.</param>
    /// <param name="part">Which part.</param>
    /// <param name="start">State to begin from.</param>
    /// <param name="vesselCount">Vessels of the loop.</param>
    /// <param name="pumpCount">Its pumps.</param>
    public CycleMeans(WaterLoop loop, LoopPart part, double[] start, int vesselCount, int pumpCount)
    {
        (_loop, _part, _vesselCount, _pumpCount) = (loop, part, vesselCount, pumpCount);
        foreach (var vessel in loop.Condition.Vessels) (vessel.LossM3PerS, vessel.RainM3PerS) = (0, 0);
        foreach (var valve in loop.Condition.Valves) valve.SticksShut = true;
        _solver = new OdeSolver(loop, new SolverOptions { RelativeTolerance = 1e-5, AbsoluteTolerance = 1e-6, ChatterGap = 0.01 });
        _first = [.. start];
        _integral = new double[loop.FirstSpilled];
        _last = new double[loop.Count];
        _watch = new(loop, part, vesselCount, pumpCount);
        // Fine beside what lies between a pump that never starts and one that never stops.
        _stepM3 = Math.Max(0.002, StoreM3(start) / 400);
        loop.Switches.Told = e => _watch.Note(e, _solver, _integral);
    }

    /// <summary>Greatest store without spilling, as far as is known, m3.</summary>
    public double MostM3 { get; private set; } = double.PositiveInfinity;

    /// <summary>Why the laws could not be followed; null: they could.</summary>
    public StopReason? Failed { get; private set; }

    public double StoreM3(ReadOnlySpan<double> state)
    {
        double sum = 0;
        foreach (int i in _part.Vessels) sum += state[i];
        foreach (int p in _part.Pumps) sum += state[_loop.FirstLine + p];
        return sum;
    }

    /// <summary>Means at a store.</summary>
    public void At(double storeM3, CycleMean into)
    {
        int k = (int)Math.Floor(storeM3 / _stepM3);
        var low = Point(k);
        var high = Point(k + 1);
        // Beyond what it can hold there is nothing to go to.
        double span = high.StoreM3 - low.StoreM3, share = span > 1e-9 ? Math.Clamp((storeM3 - low.StoreM3) / span, 0, 1) : 0;
        CycleMean.Between(low, high, share, into);
        into.Spills = high.Spills;
        // Levels are means of short runs: what rounding leaves goes to the last vessel.
        double off = storeM3 - StoreM3(into.Mean);
        into.Mean[_part.Vessels[^1]] += off;
        into.StoreM3 = storeM3;
    }

    private CycleMean Point(int k)
    {
        if (!_points.TryGetValue(k, out var point)) _points[k] = point = Reckon(k);
        return point;
    }

    private CycleMean Reckon(int k)
    {
        int near = _ends.Count == 0 ? 0 : _ends.Keys.MinBy(other => Math.Abs(other - k));
        double[] state = _ends.Count == 0 ? [.. _first] : [.. _ends[near]];
        state.AsSpan(_loop.FirstSpilled).Clear();
        Fill(state, (k * _stepM3) - StoreM3(state));
        double settle = _ends.Count == 0 ? FirstSettleS : SettleS;
        _loop.Switches.Begin(state);
        _solver.Start(0, state);
        _watch.Begin(settle);
        _integral.AsSpan().Clear();
        _solver.State.CopyTo(_last);
        _lastTime = 0;
        var point = new CycleMean(_loop.Count, _vesselCount, _pumpCount);
        _solver.AdvanceTo(settle, AddUp);
        _watch.Settled(_solver, _integral);
        for (double until = settle + WindowS; until <= settle + LongestWindowS; until += WindowS)
        {
            var result = _solver.AdvanceTo(until, AddUp);
            if (result.Stop != StopReason.Reached)
            {
                Failed ??= result.Stop;
                break;
            }

            if (_watch.IsEnough(until)) break;
        }

        _watch.Told(_solver, _integral, point);
        _ends[k] = _solver.State.ToArray();
        double store = StoreM3(_solver.State);
        point.StoreM3 = store;
        if (store < (k * _stepM3) - (0.02 * _stepM3))
        {
            // Of those that spill the one that spills most; a spill to another vessel counts where that one spills on.
            point.Spills = _part.Vessels.MaxBy(i => _solver.State[_loop.FirstSpilled + i]);
            MostM3 = Math.Min(MostM3, store);
        }

        return point;
    }

    private void AddUp(OdeSolver solver)
    {
        double step = solver.Time - _lastTime;
        var state = solver.State;
        for (int i = 0; i < _integral.Length; i++) _integral[i] += step * (state[i] + _last[i]) / 2;
        state.CopyTo(_last);
        _lastTime = solver.Time;
        _watch.See(state, solver.Time);
    }

    // Into the last vessel, or out of it and then of the others.
    private void Fill(double[] state, double m3)
    {
        for (int i = _part.Vessels.Count - 1; i >= 0; i--)
        {
            int vessel = _part.Vessels[i];
            double change = Math.Max(m3, -state[vessel]);
            state[vessel] += change;
            m3 -= change;
            if (m3 == 0) return;
        }
    }

    /// <summary>Keeps levels, and states at the starts of the pump, so that means are over whole cycles.</summary>
    private sealed class Watch(WaterLoop loop, LoopPart part, int vesselCount, int pumpCount)
    {
        private readonly double[] _low = new double[vesselCount], _high = new double[vesselCount], _ranS = new double[pumpCount], _since = new double[pumpCount];
        private readonly List<(double Time, double[] State, double[] Integral, double[] RanS, int[] Starts)> _marks = [];
        private readonly int[] _starts = new int[pumpCount];
        private (double Time, double[] State, double[] Integral, double[] RanS, int[] Starts) _settled;
        private double _settleS;

        public void Begin(double settleS)
        {
            _settleS = settleS;
            _marks.Clear();
            Array.Fill(_low, double.PositiveInfinity);
            Array.Fill(_high, double.NegativeInfinity);
            Array.Clear(_ranS);
            Array.Clear(_starts);
            for (int p = 0; p < pumpCount; p++) _since[p] = loop.Switches.Turns(p) ? 0 : double.NaN;
        }

        public void See(ReadOnlySpan<double> state, double time)
        {
            if (time < _settleS) return;
            foreach (int i in part.Vessels)
            {
                double level = loop.LevelM(i, state);
                (_low[i], _high[i]) = (Math.Min(_low[i], level), Math.Max(_high[i], level));
            }
        }

        public void Note(SwitchEvent happened, OdeSolver solver, double[] integral)
        {
            int p = happened.Index;
            if (happened.Kind == SwitchKind.PumpStands && !double.IsNaN(_since[p]))
            {
                _ranS[p] += happened.TimeS - _since[p];
                _since[p] = double.NaN;
            }

            if (happened.Kind != SwitchKind.PumpTurns) return;
            _since[p] = happened.TimeS;
            _starts[p]++;
            if (part.Pumps.Count > 0 && p == part.Pumps[0] && happened.TimeS >= _settleS) Mark(solver, integral);
        }

        // Cycles enough; or none, so that the pump either runs on or stands.
        public bool IsEnough(double time) => _marks.Count >= 3 || (_marks.Count == 0 && time >= _settleS + (2 * WindowS));

        public void Told(OdeSolver solver, double[] integral, CycleMean into)
        {
            if (_marks.Count < 2)
            {
                // No cycles: from where it had settled to the end.
                _marks.Clear();
                _marks.Add(_settled);
                Mark(solver, integral);
            }

            for (int i = 0; i < loop.Count; i++)
            {
                into.Mean[i] = i < loop.FirstSpilled ? (_marks[^1].Integral[i] - _marks[0].Integral[i]) / (_marks[^1].Time - _marks[0].Time)
                    : (_marks[^1].State[i] - _marks[0].State[i]) / (_marks[^1].Time - _marks[0].Time);
            }

            double span = _marks[^1].Time - _marks[0].Time;
            foreach (int p in part.Pumps)
            {
                into.StartsPerS[p] = (_marks[^1].Starts[p] - _marks[0].Starts[p]) / span;
                into.RunShare[p] = (_marks[^1].RanS[p] - _marks[0].RanS[p]) / span;
            }

            foreach (int i in part.Vessels) (into.LowM[i], into.HighM[i]) = (_low[i], _high[i]);
        }

        public void Settled(OdeSolver solver, double[] integral)
        {
            Mark(solver, integral);
            _settled = _marks[^1];
            _marks.RemoveAt(_marks.Count - 1);
        }

        private void Mark(OdeSolver solver, double[] integral)
        {
            double[] ran = [.. _ranS];
            for (int p = 0; p < pumpCount; p++)
            {
                if (!double.IsNaN(_since[p])) ran[p] += solver.Time - _since[p];
            }

            _marks.Add((solver.Time, solver.State.ToArray(), [.. integral], ran, [.. _starts]));
        }
    }
}
