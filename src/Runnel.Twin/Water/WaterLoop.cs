using Runnel.Place;
using Runnel.Place.Water;
using Runnel.Twin.Solving;

namespace Runnel.Twin.Water;

/// <summary>The water of a place as differential equations: how full each vessel and each pump's line is, and what passed where.</summary>
/// <remarks>
/// States, m3: each vessel, each pump's line; then sums: what each vessel spilled, what left each by its outlet, what each pump delivered and each valve let
/// through, what was lost to air and plants, what left to the world outside by spilling and else, what came from outside and as rain. Every litre that leaves
/// one of them enters another, so that the balance closes to rounding.
/// </remarks>
internal sealed class WaterLoop : OdeSystem
{
    /// <summary>Not a vessel: the world outside.</summary>
    public const int Outside = -1;

    // A rim spills like a broad crest all round.
    private const double RimCoefficient = 1.7;

    // A pump draws air, and a surface gives nothing more, within this depth (m).
    private const double DryWithinM = 0.02, WetWithinM = 0.005, SubmergedWithinM = 0.005;

    private readonly Vessel[] vessels;
    private readonly Pump[] pumps;
    private readonly Valve[] valves;
    private readonly double[] level, surface;

    public WaterLoop(Vessel[] vessels, Pump[] pumps, Valve[] valves)
        : base(
            (3 * vessels.Length) + (2 * pumps.Length) + valves.Length + 5,
            WaterSwitches.Count(vessels, pumps, valves), sums: (2 * vessels.Length) + pumps.Length + valves.Length + 5)
    {
        (this.vessels, this.pumps, this.valves) = (vessels, pumps, valves);
        level = new double[vessels.Length];
        surface = new double[vessels.Length];
        FirstLine = vessels.Length;
        FirstSpilled = FirstLine + pumps.Length;
        FirstThrough = FirstSpilled + vessels.Length;
        FirstPumped = FirstThrough + vessels.Length;
        FirstLet = FirstPumped + pumps.Length;
        Lost = FirstLet + valves.Length;
        (SpilledAway, Left, Came, Rained) = (Lost + 1, Lost + 2, Lost + 3, Lost + 4);
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

    /// <summary>What is on, open or running full.</summary>
    public WaterSwitches Switches { get; }

    /// <summary>Loss to air and plants of each vessel, m3/s, and rain on it.</summary>
    public sealed record Vessel(
        string Id, LevelVolume Shape, double FloorM, double RimM, int SpillsTo, double PerimeterM, OutletLaw? Outlet, int OutletTo, bool IsSiphon, double TripM,
        double BreakM, double LossM3PerS, double RainM3PerS);

    public sealed record Pump(
        string Id, int From, PumpLaw Law, int[] To, double[] EndM, double OnM, double OffM, bool IsSwitched, bool HasCheckValve, FlowTable? BackFlow, double RiseM);

    public sealed record Valve(string Id, int Of, int From, int To, double RateM3PerS, double OpensM, double ShutsM, double EveryS, double RunS);

    /// <summary>Level of a vessel above its floor, m.</summary>
    public double LevelM(int vessel, ReadOnlySpan<double> state) => vessels[vessel].Shape.LevelM(state[vessel]);

    /// <summary>What stays the same but for rounding: all water inside and gone, less what came, m3.</summary>
    public double InvariantM3(ReadOnlySpan<double> state)
    {
        double sum = state[Lost] + state[SpilledAway] + state[Left] - state[Came] - state[Rained];
        for (int i = 0; i < FirstSpilled; i++) sum += state[i];
        return sum;
    }

    public override void Rates(double time, ReadOnlySpan<double> state, Span<double> rates)
    {
        rates.Clear();
        for (int i = 0; i < vessels.Length; i++)
        {
            level[i] = vessels[i].Shape.LevelM(state[i]);
            surface[i] = vessels[i].FloorM + level[i];
        }

        for (int i = 0; i < vessels.Length; i++) OfVessel(i, rates);
        for (int i = 0; i < pumps.Length; i++) OfPump(i, state, rates);
        for (int i = 0; i < valves.Length; i++) OfValve(i, rates);
    }

    public override void EventValues(double time, ReadOnlySpan<double> state, Span<double> values) => Switches.Values(time, state, values);

    public override EventDirection DirectionOf(int index) => Switches.DirectionOf(index);

    public override EventOutcome Happened(double time, Span<double> state, ReadOnlySpan<int> events) => Switches.Act(time, events);

    private void OfVessel(int i, Span<double> rates)
    {
        var vessel = vessels[i];
        if (vessel.Outlet is { } outlet)
        {
            double below = vessel.OutletTo == Outside ? double.NaN : surface[vessel.OutletTo];
            double flow = outlet.FlowM3PerS(level[i], below, vessel.IsSiphon && Switches.Siphons(i));
            rates[i] -= flow;
            rates[FirstThrough + i] += flow;
            Give(vessel.OutletTo, flow, Left, rates);
        }

        double over = level[i] - vessel.RimM;
        if (over > 0)
        {
            double flow = RimCoefficient * vessel.PerimeterM * over * Math.Sqrt(over);
            rates[i] -= flow;
            rates[FirstSpilled + i] += flow;
            Give(vessel.SpillsTo, flow, SpilledAway, rates);
        }

        double loss = vessel.LossM3PerS * Math.Clamp(level[i] / WetWithinM, 0, 1);
        rates[i] += vessel.RainM3PerS - loss;
        rates[Lost] += loss;
        rates[Rained] += vessel.RainM3PerS;
    }

    private void OfPump(int i, ReadOnlySpan<double> state, Span<double> rates)
    {
        var pump = pumps[i];
        int from = pump.From, line = FirstLine + i;
        if (Switches.Runs(i))
        {
            double draws = Math.Clamp(level[from] / DryWithinM, 0, 1);
            for (int end = 0; end < pump.To.Length; end++)
            {
                int to = pump.To[end];
                double flow = draws * pump.Law.FlowM3PerS(end, surface[from], to == Outside ? double.NaN : surface[to]);
                rates[from] -= flow;
                if (!Switches.LineIsFull(i))
                {
                    rates[line] += flow;
                    continue;
                }

                rates[FirstPumped + i] += flow;
                Give(to, flow, Left, rates);
            }

            return;
        }

        if (pump.HasCheckValve || pump.BackFlow is not { } back) return;
        double drawnBack = 0;
        for (int end = 0; end < pump.To.Length; end++)
        {
            int to = pump.To[end];
            if (to == Outside || !(surface[to] > pump.EndM[end])) continue;
            double share = Math.Clamp((surface[to] - pump.EndM[end]) / SubmergedWithinM, 0, 1);
            double flow = share * back.At(surface[to] - surface[from]) / pump.To.Length;
            drawnBack = Math.Max(drawnBack, share);
            rates[to] -= flow;
            rates[from] += flow;
            rates[FirstPumped + i] -= flow;
        }

        double full = pump.Law.LineM3 > 0 ? Math.Clamp(state[line] / pump.Law.LineM3, 0, 1) : 0;
        if (full <= 0) return;
        // The line falls empty under its own height, unless water follows from above.
        double drains = (1 - drawnBack) * back.At(Math.Max(0.05, pump.RiseM)) * OutletLaw.Root(full * 0.25) * 2;
        rates[line] -= drains;
        rates[from] += drains;
    }

    private void OfValve(int i, Span<double> rates)
    {
        if (!Switches.IsOpen(i)) return;
        var valve = valves[i];
        double flow = valve.RateM3PerS;
        if (valve.From != Outside)
        {
            flow *= Math.Clamp(level[valve.From] / DryWithinM, 0, 1);
            rates[valve.From] -= flow;
        }
        else
        {
            rates[Came] += flow;
        }

        rates[FirstLet + i] += flow;
        Give(valve.To, flow, Left, rates);
    }

    private static void Give(int to, double flow, int away, Span<double> rates) => rates[to == Outside ? away : to] += flow;
}
