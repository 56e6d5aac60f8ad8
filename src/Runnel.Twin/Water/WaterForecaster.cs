using Runnel.Place;
using Runnel.Place.Water;
using Runnel.Twin.Solving;

namespace Runnel.Twin.Water;

/// <summary>Reckons what the water of a place will do, from event to event.</summary>
public sealed class WaterForecaster
{
    private const double LPerM3 = 1000;
    private readonly Hydraulics water;
    private readonly ForecastOptions options;
    private readonly WaterLoop loop;
    private readonly OdeSolver solver;
    private readonly double[] start;
    private readonly VesselRecord[] vessels;
    private readonly PumpRecord[] pumps;
    private readonly long[] openings;
    private bool dieNow;

    private WaterForecaster(PlaceDescription place, ForecastOptions options)
    {
        (water, this.options) = (place.Hydraulics!, options);
        var builder = LoopBuilder.For(place, options);
        loop = builder.Build();
        start = builder.Start(loop);
        vessels = [.. water.Vessels.Select((_, i) => new VesselRecord(loop.LevelM(i, start)))];
        pumps = [.. water.Pumps.Select((_, i) => new PumpRecord(loop.Switches.Runs(i)))];
        openings = new long[water.Valves.Count];
        loop.Switches.Told = Note;
        // A microlitre here or there is no matter; a millimetre in a small vessel is.
        solver = new OdeSolver(loop, new SolverOptions { RelativeTolerance = 1e-5, AbsoluteTolerance = 1e-6, ChatterGap = 0.01 });
    }

    /// <summary>Runs a forecast.</summary>
    /// <param name="place">A place that tells how its water moves.</param>
    /// <param name="options">How far, and what is assumed.</param>
    /// <returns>What will happen; where the reckoning stopped early, why and when.</returns>
    /// <exception cref="ArgumentException">The place does not tell how its water moves.</exception>
    public static WaterForecast Run(PlaceDescription place, ForecastOptions options)
    {
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(options);
        if (place.Hydraulics is null) throw new ArgumentException("the place does not tell how its water moves", nameof(place));
        return new WaterForecaster(place, options).Run();
    }

    private WaterForecast Run()
    {
        solver.Start(0, start);
        double end = options.Days * 86_400, previous = 0;
        double[] before = [.. start];
        List<WaterSample> samples = [Sample(before, 0)];
        Action<OdeSolver> watch = Watch;
        var result = new SolveResult(StopReason.Reached, 0, -1, false, default);
        for (int k = 1; previous < end && result.Stop == StopReason.Reached; k++)
        {
            double next = Math.Min(end, k * options.EveryS);
            result = Advance(next, watch);
            samples.Add(Sample(before, solver.Time - previous));
            solver.State.CopyTo(before);
            previous = next;
        }

        foreach (var vessel in vessels) vessel.Close(solver.Time);
        foreach (var pump in pumps) pump.Close(solver.Time);
        return Report(result, samples);
    }

    private SolveResult Advance(double to, Action<OdeSolver> watch)
    {
        bool mayDie = options.PumpsDieAtS is not null && !loop.Switches.PumpsAreDead;
        if (!mayDie || options.PumpsDieAtS > to) return solver.AdvanceTo(to, watch);
        var result = solver.AdvanceTo(Math.Max(solver.Time, options.PumpsDieAtS!.Value), watch);
        dieNow = !options.DieAtAStop;
        // By small leaps until a switch has stopped a pump, or for at most what is left of this stretch.
        while (!dieNow && result.Stop == StopReason.Reached && solver.Time < to) result = solver.AdvanceTo(Math.Min(to, solver.Time + 1), watch);
        if (result.Stop != StopReason.Reached || !dieNow) return result;
        loop.Switches.StopPumps();
        foreach (var pump in pumps) pump.Stop(solver.Time);
        solver.Change(solver.State.ToArray());
        return solver.AdvanceTo(to, watch);
    }

    private void Watch(OdeSolver at)
    {
        for (int i = 0; i < vessels.Length; i++) vessels[i].See(loop.LevelM(i, at.State), at.Time);
    }

    private void Note(SwitchEvent happened)
    {
        var (time, kind, i) = happened;
        switch (kind)
        {
            case SwitchKind.PumpStarts:
                pumps[i].Start(time);
                break;
            case SwitchKind.PumpStops:
                pumps[i].Stop(time);
                dieNow |= options.DieAtAStop && time > options.PumpsDieAtS;
                break;
            case SwitchKind.RimReached:
                vessels[i].Over(time);
                break;
            case SwitchKind.RimLeft:
                vessels[i].Close(time);
                break;
            case SwitchKind.ValveOpens:
                openings[i]++;
                break;
        }
    }

    private WaterSample Sample(double[] before, double lengthS)
    {
        double perMin = lengthS > 0 ? LPerM3 * 60 / lengthS : 0;
        var now = lengthS > 0 ? solver.State : start;
        double[] levels = new double[vessels.Length], outs = new double[vessels.Length], pumped = new double[pumps.Length];
        for (int i = 0; i < vessels.Length; i++)
        {
            levels[i] = loop.LevelM(i, now);
            outs[i] = (now[loop.FirstThrough + i] - before[loop.FirstThrough + i]) * perMin;
        }

        for (int i = 0; i < pumps.Length; i++) pumped[i] = (now[loop.FirstPumped + i] - before[loop.FirstPumped + i]) * perMin;
        return new(solver.Time, levels, outs, pumped);
    }

    private WaterForecast Report(SolveResult result, List<WaterSample> samples)
    {
        var state = solver.State;
        double time = Math.Max(solver.Time, 1e-9), stored = 0, all = 0;
        for (int i = 0; i < loop.FirstSpilled; i++)
        {
            stored += state[i] - start[i];
            all += state[i];
        }

        List<VesselForecast> told = [];
        for (int i = 0; i < vessels.Length; i++)
        {
            var (vessel, record) = (water.Vessels[i], vessels[i]);
            double spilled = state[loop.FirstSpilled + i] * LPerM3;
            told.Add(new(
                vessel.Id, vessel.RimM, record.StartM, loop.LevelM(i, state), record.LowM, record.HighM, record.HighAtS,
                state[loop.FirstThrough + i] * LPerM3 * 60 / time, state[i] * LPerM3, spilled, vessel.SpillsTo, record.FirstSpillS, record.SpillS));
        }

        List<PumpForecast> ofPumps = [];
        for (int i = 0; i < pumps.Length; i++)
        {
            double delivered = state[loop.FirstPumped + i] * LPerM3;
            ofPumps.Add(pumps[i].Told(water.Pumps[i].Id, delivered));
        }

        List<ValveForecast> ofValves = [];
        for (int i = 0; i < openings.Length; i++) ofValves.Add(new(water.Valves[i].Id, openings[i], state[loop.FirstLet + i] * LPerM3));
        double balance = loop.InvariantM3(state) - loop.InvariantM3(start);
        var totals = new WaterTotals(
            state[loop.Came] * LPerM3, state[loop.Rained] * LPerM3, state[loop.Lost] * LPerM3, state[loop.SpilledAway] * LPerM3, state[loop.Left] * LPerM3,
            stored * LPerM3, balance * LPerM3, all * LPerM3);
        return new(result.Stop, solver.Time, told, ofPumps, ofValves, totals, samples, result.Statistics);
    }
}
