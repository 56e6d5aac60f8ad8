using NodaTime;
using Runnel.Place;
using Runnel.Place.Water;
using Runnel.Twin.Averaging;
using Runnel.Twin.Faults;
using Runnel.Twin.Heat;
using Runnel.Twin.Solving;

namespace Runnel.Twin.Water;

/// <summary>Reckons what the water of a place will do, from event to event.</summary>
public sealed class WaterForecaster
{
    private const double LPerM3 = 1000;
    private readonly Hydraulics _water;
    private readonly ForecastOptions _options;
    private readonly WaterLoop _loop;
    private readonly OdeSolver _solver;
    private readonly double[] _start;
    private readonly VesselRecord[] _vessels;
    private readonly PumpRecord[] _pumps;
    private readonly long[] _openings;
    private readonly LoopHeat? _heat;
    private readonly TempRecord[] _temps = [];
    private readonly StandingFaults _faults;
    private bool _dieNow;

    private WaterForecaster(PlaceDescription place, ForecastOptions options)
    {
        (_water, _options) = (place.Hydraulics!, options);
        var builder = LoopBuilder.For(place, options);
        _loop = builder.Build();
        _start = builder.Start(_loop);
        _vessels = [.. _water.Vessels.Select((_, i) => new VesselRecord(_loop.LevelM(i, _start)))];
        _pumps = [.. _water.Pumps.Select((_, i) => new PumpRecord(_loop.Switches.Turns(i)))];
        _openings = new long[_water.Valves.Count];
        _loop.Switches.Told = Note;
        if (options.Weather is not null)
        {
            _heat = new(place, _loop, _start, options);
            _temps = [.. _water.Vessels.Select((_, i) => new TempRecord(_heat.TempsC[i]))];
        }

        _faults = new(place, _loop.Condition, s => options.BeginsAt.PlusTicks((long)(s * NodaConstants.TicksPerSecond)));
        foreach (var fault in options.Faults) _faults.Add(fault);
        // A microlitre here or there is no matter; a millimetre in a small vessel is.
        _solver = new OdeSolver(_loop, new SolverOptions { RelativeTolerance = 1e-5, AbsoluteTolerance = 1e-6, ChatterGap = 0.01 });
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
        string? whyNot = null;
        if (options.Averaged ?? options.Days > ForecastOptions.AverageFromDays)
        {
            whyNot = options.PumpsDieAtS is not null || options.Faults.Count > 0 ? "something fails on the way" : null;
            if (whyNot is null)
            {
                (var averaged, whyNot) = AveragedForecaster.TryRun(place, options);
                if (averaged is not null) return averaged;
            }
        }

        return new WaterForecaster(place, options).Run() with { WhyNotAveraged = whyNot };
    }

    private WaterForecast Run()
    {
        _solver.Start(0, _start);
        double end = _options.Days * 86_400, previous = 0;
        double[] before = [.. _start], ran = new double[_pumps.Length], ranBefore = new double[_pumps.Length];
        List<WaterSample> samples = [Sample(before, 0)];
        Action<OdeSolver> watch = Watch;
        var result = new SolveResult(StopReason.Reached, 0, -1, false, default);
        for (int k = 1; previous < end && result.Stop == StopReason.Reached; k++)
        {
            double next = Math.Min(end, k * _options.EveryS);
            if (_heat is not null)
            {
                _heat.SetWeather(previous, next - previous);
                // What the air takes changes at once.
                _solver.Change(before);
                for (int i = 0; i < _pumps.Length; i++) ranBefore[i] = _pumps[i].RanS(_solver.Time);
            }

            result = Advance(next, watch);
            if (_heat is not null)
            {
                for (int i = 0; i < _pumps.Length; i++) ran[i] = _pumps[i].RanS(_solver.Time) - ranBefore[i];
                _heat.Follow(previous, _solver.Time - previous, before, _solver.State, ran);
                for (int i = 0; i < _temps.Length; i++) _temps[i].See(_heat.TempsC[i]);
            }

            samples.Add(Sample(before, _solver.Time - previous));
            _solver.State.CopyTo(before);
            previous = next;
        }

        foreach (var vessel in _vessels) vessel.Close(_solver.Time);
        foreach (var pump in _pumps) pump.Close(_solver.Time);
        return Report(result, samples);
    }

    private SolveResult Advance(double to, Action<OdeSolver> watch)
    {
        // What is wrong from the beginning has no time before it.
        if (_solver.Time == 0) Refresh();
        while (true)
        {
            double change = _faults.NextChangeS(_solver.Time);
            var result = Calmly(Math.Min(to, change), watch);
            if (result.Stop != StopReason.Reached || change > to) return result;
            Refresh();
        }
    }

    private void Refresh()
    {
        _faults.Apply(_solver.Time);
        _loop.Switches.Reconsider(_solver.Time, _solver.State);
        _solver.Change(_solver.State.ToArray());
    }

    private SolveResult Calmly(double to, Action<OdeSolver> watch)
    {
        bool mayDie = _options.PumpsDieAtS is not null && !_loop.Switches.PumpsAreDead;
        if (!mayDie || _options.PumpsDieAtS > to) return _solver.AdvanceTo(to, watch);
        var result = _solver.AdvanceTo(Math.Max(_solver.Time, _options.PumpsDieAtS!.Value), watch);
        _dieNow = !_options.DieAtAStop;
        // By small leaps until a switch has stopped a pump, or for at most what is left of this stretch.
        while (!_dieNow && result.Stop == StopReason.Reached && _solver.Time < to) result = _solver.AdvanceTo(Math.Min(to, _solver.Time + 1), watch);
        if (result.Stop != StopReason.Reached || !_dieNow) return result;
        _loop.Switches.StopPumps(_solver.Time, _solver.State);
        _solver.Change(_solver.State.ToArray());
        return _solver.AdvanceTo(to, watch);
    }

    private void Watch(OdeSolver at)
    {
        for (int i = 0; i < _vessels.Length; i++) _vessels[i].See(_loop.LevelM(i, at.State), at.Time);
    }

    private void Note(SwitchEvent happened)
    {
        var (time, kind, i) = happened;
        switch (kind)
        {
            case SwitchKind.PumpTurns:
                _pumps[i].Start(time);
                break;
            case SwitchKind.PumpStands:
                _pumps[i].Stop(time);
                break;
            case SwitchKind.PumpStops:
                _dieNow |= _options.DieAtAStop && time > _options.PumpsDieAtS;
                break;
            case SwitchKind.RimReached:
                _vessels[i].Over(time);
                break;
            case SwitchKind.RimLeft:
                _vessels[i].Close(time);
                break;
            case SwitchKind.ValveOpens:
                _openings[i]++;
                break;
        }
    }

    private WaterSample Sample(double[] before, double lengthS)
    {
        double perMin = lengthS > 0 ? LPerM3 * 60 / lengthS : 0;
        var now = lengthS > 0 ? _solver.State : _start;
        double[] levels = new double[_vessels.Length], outs = new double[_vessels.Length], pumped = new double[_pumps.Length];
        for (int i = 0; i < _vessels.Length; i++)
        {
            levels[i] = _loop.LevelM(i, now);
            outs[i] = (now[_loop.FirstThrough + i] - before[_loop.FirstThrough + i]) * perMin;
        }

        for (int i = 0; i < _pumps.Length; i++) pumped[i] = (now[_loop.FirstPumped + i] - before[_loop.FirstPumped + i]) * perMin;
        return new(_solver.Time, levels, outs, pumped) { TempC = _heat is null ? [] : [.. _heat.TempsC[..levels.Length]] };
    }

    private WaterForecast Report(SolveResult result, List<WaterSample> samples)
    {
        var state = _solver.State;
        double time = Math.Max(_solver.Time, 1e-9), stored = 0, all = 0;
        for (int i = 0; i < _loop.FirstSpilled; i++)
        {
            stored += state[i] - _start[i];
            all += state[i];
        }

        List<VesselForecast> told = [];
        for (int i = 0; i < _vessels.Length; i++)
        {
            var (vessel, record) = (_water.Vessels[i], _vessels[i]);
            double spilled = state[_loop.FirstSpilled + i] * LPerM3;
            told.Add(new(
                vessel.Id, vessel.RimM, record.StartM, _loop.LevelM(i, state), record.LowM, record.HighM, record.HighAtS,
                state[_loop.FirstThrough + i] * LPerM3 * 60 / time, state[i] * LPerM3, spilled, vessel.SpillsTo, record.FirstSpillS, record.SpillS)
            {
                Temperatures = _heat is null ? null : _temps[i].Told(),
            });
        }

        List<PumpForecast> ofPumps = [];
        for (int i = 0; i < _pumps.Length; i++)
        {
            double delivered = state[_loop.FirstPumped + i] * LPerM3;
            ofPumps.Add(_pumps[i].Told(_water.Pumps[i].Id, delivered));
        }

        List<ValveForecast> ofValves = [];
        for (int i = 0; i < _openings.Length; i++) ofValves.Add(new(_water.Valves[i].Id, _openings[i], state[_loop.FirstLet + i] * LPerM3));
        double balance = _loop.InvariantM3(state) - _loop.InvariantM3(_start);
        var totals = new WaterTotals(
            state[_loop.Came] * LPerM3, state[_loop.Rained] * LPerM3, state[_loop.Lost] * LPerM3, state[_loop.SpilledAway] * LPerM3, state[_loop.Left] * LPerM3,
            stored * LPerM3, balance * LPerM3, all * LPerM3)
        { LeakedL = state[_loop.Leaked] * LPerM3, DrawnL = state[_loop.Drawn] * LPerM3 };
        return new(result.Stop, _solver.Time, told, ofPumps, ofValves, totals, samples, result.Statistics) { Heat = _heat?.Totals };
    }
}
