using Runnel.Place.Water;
using Runnel.Twin.Solving;

namespace Runnel.Twin.Water;

/// <summary>The water of a place as differential equations: how full each vessel and each pump's line is, and what passed where.</summary>
/// <remarks>
/// States, m3: each vessel, each pump's line; then sums: what each vessel spilled, what left each by its outlet, what each pump delivered and each valve let
/// through, what was lost to air and plants, what left to the world outside by spilling and else, what came from outside and as rain, what leaked and what
/// people took; then what each vessel lost to air and plants, and what came out at each end of each pump. Every litre that leaves one of them enters another, so that the balance closes to rounding.
/// </remarks>
internal sealed class WaterLoop : OdeSystem
{
    /// <summary>Not a vessel: the world outside.</summary>
    public const int Outside = -1;

    private const int Wholes = 7;

    // A rim spills like a broad crest all round.
    private const double RimCoefficient = 1.7;

    // A pump draws air, and a surface gives nothing more, within this depth (m).
    private const double DryWithinM = 0.02, WetWithinM = 0.005, SubmergedWithinM = 0.005;

    private readonly Vessel[] _vessels;
    private readonly Pump[] _pumps;
    private readonly Valve[] _valves;
    private readonly double[] _level, _surface;
    private readonly int[] _firstEnd;

    public WaterLoop(Vessel[] vessels, Pump[] pumps, Valve[] valves)
        : base(
            (4 * vessels.Length) + (2 * pumps.Length) + valves.Length + Wholes + pumps.Sum(p => p.To.Length),
            WaterSwitches.Count(vessels, pumps, valves), sums: (3 * vessels.Length) + pumps.Length + valves.Length + Wholes + pumps.Sum(p => p.To.Length))
    {
        (_vessels, _pumps, _valves) = (vessels, pumps, valves);
        _level = new double[vessels.Length];
        _surface = new double[vessels.Length];
        FirstLine = vessels.Length;
        FirstSpilled = FirstLine + pumps.Length;
        FirstThrough = FirstSpilled + vessels.Length;
        FirstPumped = FirstThrough + vessels.Length;
        FirstLet = FirstPumped + pumps.Length;
        Lost = FirstLet + valves.Length;
        (SpilledAway, Left, Came, Rained, Leaked, Drawn) = (Lost + 1, Lost + 2, Lost + 3, Lost + 4, Lost + 5, Lost + 6);
        FirstLost = Lost + Wholes;
        _firstEnd = new int[pumps.Length];
        for (int i = 0, at = FirstLost + vessels.Length; i < pumps.Length; at += pumps[i++].To.Length) _firstEnd[i] = at;
        Condition = new LoopCondition(vessels, pumps, valves.Length);
        Switches = new WaterSwitches(this, vessels, pumps, valves);
    }

    public int FirstLine { get; }

    public int FirstSpilled { get; }

    public int FirstThrough { get; }

    public int FirstPumped { get; }

    public int FirstLet { get; }

    public int Lost { get; }

    public int SpilledAway { get; }

    public int Left { get; }

    public int Came { get; }

    public int Rained { get; }

    public int Leaked { get; }

    public int Drawn { get; }

    /// <summary>What each vessel lost to air and plants.</summary>
    public int FirstLost { get; }

    /// <summary>What is worn, fouled, held or cut off.</summary>
    public LoopCondition Condition { get; }

    /// <summary>What is on, open or running full.</summary>
    public WaterSwitches Switches { get; }

    /// <summary>Loss to air and plants of each vessel, m3/s, and rain on it, where nothing else is told later.</summary>
    public sealed record Vessel(
        string Id, LevelVolume Shape, double FloorM, double RimM, int SpillsTo, double PerimeterM, OutletLaw? Outlet, int OutletTo, bool IsSiphon, double TripM,
        double BreakM, double LossM3PerS, double RainM3PerS);

    public sealed record Pump(
        string Id, int From, PumpLaw Law, int[] To, double[] EndM, double OnM, double OffM, bool IsSwitched, bool HasCheckValve, FlowTable? BackFlow, double RiseM);

    /// <summary>A valve by level, by timer, or by the fills of a pump (-1: none): one that lasts longer than so many seconds opens it.</summary>
    public sealed record Valve(
        string Id, int Of, int From, int To, double RateM3PerS, double OpensM, double ShutsM, double EveryS, double RunS, int FillOf = -1, double AfterFillS = 0,
        double RateAtM = 0);

    /// <summary>Level of a vessel above its floor, m.</summary>
    public double LevelM(int vessel, ReadOnlySpan<double> state) => _vessels[vessel].Shape.LevelM(state[vessel]);

    /// <summary>The same laws with switches and condition of their own.</summary>
    public WaterLoop Again() => new(_vessels, _pumps, _valves);

    /// <summary>What came out at each end of a pump.</summary>
    public int FirstEnd(int pump) => _firstEnd[pump];

    /// <summary>What stays the same but for rounding: all water inside and gone, less what came, m3.</summary>
    public double InvariantM3(ReadOnlySpan<double> state)
    {
        double sum = state[Lost] + state[SpilledAway] + state[Left] + state[Leaked] + state[Drawn] - state[Came] - state[Rained];
        for (int i = 0; i < FirstSpilled; i++) sum += state[i];
        return sum;
    }

    /// <summary>What a pump moves at a state, m3/s.</summary>
    public double PumpFlowM3PerS(int pump, double time, ReadOnlySpan<double> state)
    {
        SetLevels(state);
        double sum = 0;
        for (int end = 0; end < _pumps[pump].To.Length; end++) sum += Switches.Turns(pump) ? EndFlow(pump, end, time) : 0;
        return sum;
    }

    /// <summary>What a pump moves when it is well and its line is full, m3/s.</summary>
    public double LawFlowM3PerS(int pump, ReadOnlySpan<double> state)
    {
        SetLevels(state);
        var one = _pumps[pump];
        double sum = 0;
        for (int end = 0; end < one.To.Length; end++)
        {
            sum += one.Law.FlowM3PerS(end, one.IsSwitched ? _vessels[one.From].FloorM + ((one.OnM + one.OffM) / 2) : _surface[one.From], double.NaN);
        }

        return sum;
    }

    /// <summary>What a valve lets through at a state, m3/s.</summary>
    public double ValveFlowM3PerS(int valve, double time, ReadOnlySpan<double> state)
    {
        SetLevels(state);
        return LetThrough(valve, time);
    }

    public override void Rates(double time, ReadOnlySpan<double> state, Span<double> rates)
    {
        rates.Clear();
        SetLevels(state);
        for (int i = 0; i < _vessels.Length; i++) OfVessel(i, time, rates);
        for (int i = 0; i < _pumps.Length; i++) OfPump(i, time, state, rates);
        for (int i = 0; i < _valves.Length; i++) OfValve(i, time, rates);
    }

    public override void EventValues(double time, ReadOnlySpan<double> state, Span<double> values) => Switches.Values(time, state, values);

    public override EventDirection DirectionOf(int index) => Switches.DirectionOf(index);

    public override EventOutcome Happened(double time, Span<double> state, ReadOnlySpan<int> events) => Switches.Act(time, state, events);

    private void SetLevels(ReadOnlySpan<double> state)
    {
        for (int i = 0; i < _vessels.Length; i++)
        {
            _level[i] = _vessels[i].Shape.LevelM(state[i]);
            _surface[i] = _vessels[i].FloorM + _level[i];
        }
    }

    private void OfVessel(int i, double time, Span<double> rates)
    {
        var vessel = _vessels[i];
        var now = Condition.Vessels[i];
        if (vessel.Outlet is { } outlet)
        {
            double below = vessel.OutletTo == Outside ? double.NaN : _surface[vessel.OutletTo];
            bool siphons = vessel.IsSiphon && Switches.Siphons(i);
            double flow = outlet.FlowM3PerS(_level[i], below, siphons) * now.OutletOpen.At(time);
            if (!siphons && now.SeepShare > 0) flow += now.SeepShare * outlet.FlowM3PerS(_level[i], below, siphons: true);
            rates[i] -= flow;
            rates[FirstThrough + i] += flow;
            Give(vessel.OutletTo, flow, Left, rates);
        }

        double over = _level[i] - vessel.RimM;
        if (over > 0)
        {
            double flow = RimCoefficient * vessel.PerimeterM * over * Math.Sqrt(over);
            rates[i] -= flow;
            rates[FirstSpilled + i] += flow;
            Give(vessel.SpillsTo, flow, SpilledAway, rates);
        }

        double loss = now.LossM3PerS * Math.Clamp(_level[i] / WetWithinM, 0, 1);
        rates[i] += now.RainM3PerS - loss;
        rates[Lost] += loss;
        rates[FirstLost + i] += loss;
        rates[Rained] += now.RainM3PerS;
        foreach (var hole in now.Holes)
        {
            double leak = hole.PerRootM * OutletLaw.Root(_level[i] - hole.HeightM);
            rates[i] -= leak;
            rates[Leaked] += leak;
        }

        if (now.DrawnM3PerS == 0 && now.HoseM3PerS == 0) return;
        double drawn = now.DrawnM3PerS * Math.Clamp(_level[i] / DryWithinM, 0, 1);
        rates[i] += now.HoseM3PerS - drawn;
        rates[Drawn] += drawn;
        rates[Came] += now.HoseM3PerS;
    }

    private double EndFlow(int i, int end, double time)
    {
        var (pump, now) = (_pumps[i], Condition.Pumps[i]);
        if (now.IsDry) return 0;
        int to = pump.To[end];
        double draws = Math.Clamp(_level[pump.From] / DryWithinM, 0, 1) * now.Strength.At(time) * now.Wander * now.EndShare[end];
        return draws * pump.Law.FlowM3PerS(end, _surface[pump.From], to == Outside ? double.NaN : _surface[to]);
    }

    private void OfPump(int i, double time, ReadOnlySpan<double> state, Span<double> rates)
    {
        var pump = _pumps[i];
        int from = pump.From, line = FirstLine + i;
        if (Switches.Turns(i))
        {
            for (int end = 0; end < pump.To.Length; end++)
            {
                double flow = EndFlow(i, end, time);
                rates[from] -= flow;
                if (!Switches.LineIsFull(i))
                {
                    rates[line] += flow;
                    continue;
                }

                rates[FirstPumped + i] += flow;
                rates[_firstEnd[i] + end] += flow;
                Give(pump.To[end], flow, Left, rates);
            }

            return;
        }

        double open = pump.HasCheckValve ? Condition.Pumps[i].CheckLeak : 1;
        if (open <= 0 || pump.BackFlow is not { } back) return;
        double drawnBack = 0;
        for (int end = 0; end < pump.To.Length; end++)
        {
            int to = pump.To[end];
            if (to == Outside || !(_surface[to] > pump.EndM[end])) continue;
            double share = Math.Clamp((_surface[to] - pump.EndM[end]) / SubmergedWithinM, 0, 1);
            double flow = open * share * back.At(_surface[to] - _surface[from]) / pump.To.Length;
            drawnBack = Math.Max(drawnBack, share);
            rates[to] -= flow;
            rates[from] += flow;
            rates[FirstPumped + i] -= flow;
            rates[_firstEnd[i] + end] -= flow;
        }

        double full = pump.Law.LineM3 > 0 ? Math.Clamp(state[line] / pump.Law.LineM3, 0, 1) : 0;
        if (full <= 0) return;
        // The line falls empty under its own height, unless water follows from above.
        double drains = open * (1 - drawnBack) * back.At(Math.Max(0.05, pump.RiseM)) * OutletLaw.Root(full * 0.25) * 2;
        rates[line] -= drains;
        rates[from] += drains;
    }

    private double LetThrough(int i, double time)
    {
        var (valve, now) = (_valves[i], Condition.Valves[i]);
        double flow = now.SupplyIsEmpty ? 0 : Switches.Passes(i) ? valve.RateM3PerS * now.Rate.At(time) : now.WeepM3PerS;
        if (flow > 0 && valve.From != Outside && valve.RateAtM > 0) flow *= OutletLaw.Root(_level[valve.From]) / Math.Sqrt(valve.RateAtM);
        return flow > 0 && valve.From != Outside ? flow * Math.Clamp(_level[valve.From] / DryWithinM, 0, 1) : flow;
    }

    private void OfValve(int i, double time, Span<double> rates)
    {
        double flow = LetThrough(i, time);
        if (flow == 0) return;
        var valve = _valves[i];
        if (valve.From != Outside) rates[valve.From] -= flow;
        else rates[Came] += flow;
        rates[FirstLet + i] += flow;
        Give(valve.To, flow, Left, rates);
    }

    private static void Give(int to, double flow, int away, Span<double> rates) => rates[to == Outside ? away : to] += flow;
}
