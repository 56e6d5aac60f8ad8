using NodaTime;
using Runnel.Place;
using Runnel.Twin.Faults;
using Runnel.Twin.Invented;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;

namespace Runnel.Twin.Playing;

/// <summary>A place as a world that goes on in time: its water moves, its switches and timers act, weather passes, and its kit gives readings.</summary>
/// <remarks>
/// Invented: the readings are nobody's. The same place, start and seed give the same world on one machine; how far each call goes changes readings by no more
/// than the solver's tolerance. One world is for one thread.
/// </remarks>
public sealed class PlayedPlace
{
    // It has long been running when the first reading is taken.
    private const double WarmUpS = 12 * 3600;

    private readonly PlaceDescription _place;
    private readonly KitQuality _quality;
    private readonly WaterLoop _loop;
    private readonly OdeSolver _solver;
    private readonly StandingFaults _faults;
    private readonly TrueValues _true;
    private readonly Kit _kit;
    private readonly PlayedWeather _weather;
    private readonly WaterLosses _losses;
    private readonly Seeded _chance;
    private readonly Instant _zero;
    private readonly double[] _begin, _now;
    private readonly List<(double AtS, int Valve)> _orderEnds = [];
    private readonly Action<OdeSolver> _afterStep;
    private bool _isWatched;
    private double _nextWeatherS, _stepBeganS, _rainBeforeMm;

    /// <summary>Makes a world that has been running for half a day.</summary>
    /// <param name="place">A place that tells how its water moves, and what kit it has.</param>
    /// <param name="start">When it begins.</param>
    /// <param name="seed">Another seed, other weather and other chance.</param>
    /// <param name="quality">How good its kit is; null: as usual.</param>
    /// <exception cref="ArgumentException">The place does not tell how its water moves.</exception>
    public PlayedPlace(PlaceDescription place, Instant start, int seed, KitQuality? quality = null)
    {
        ArgumentNullException.ThrowIfNull(place);
        if (place.Hydraulics is null) throw new ArgumentException("the place does not tell how its water moves", nameof(place));
        (_place, _quality) = (place, quality ?? new KitQuality());
        _zero = start - Duration.FromSeconds(WarmUpS);
        _chance = new Seeded(seed, "world");
        var builder = LoopBuilder.For(place, new ForecastOptions { EvaporationMmPerDay = 0 });
        _loop = builder.Build();
        _now = builder.Start(_loop);
        _solver = new OdeSolver(_loop, new SolverOptions { RelativeTolerance = 1e-5, AbsoluteTolerance = 1e-6, ChatterGap = 0.01 });
        _faults = new StandingFaults(place, _loop.Condition, s => InstantOf(s).InZone(place.Zone).TimeOfDay);
        _true = new TrueValues(place, _loop, _faults, _now, seed);
        _kit = new Kit(place, _quality, _true, _faults, InstantOf, _loop.Count, seed);
        _weather = new PlayedWeather(place, _zero, seed);
        _losses = new WaterLosses(place, Enumerable.Range(0, 144).Average(i => _weather.At(i * 600).AirTempC));
        _loop.Switches.Told = Note;
        _afterStep = AfterStep;
        _begin = [.. _now];
        _solver.Start(0, _now);
        var warm = Go(WarmUpS);
        if (warm != StopReason.Reached) throw new ArgumentException($"the water of this place cannot be reckoned ({warm})", nameof(place));
        _solver.State.CopyTo(_begin);
    }

    /// <summary>The time now.</summary>
    public Instant Now => InstantOf(_solver.Time);

    /// <summary>Channels that this world cannot play: what they measure is not reckoned here. They stay silent.</summary>
    public IReadOnlyList<string> SilentChannels => [.. _place.Channels.Where((_, c) => !_true.Knows(c)).Select(c => c.Id)];

    /// <summary>Faults that stand, and those that are still to come, with their times.</summary>
    public IReadOnlyList<(Fault Fault, Instant Since)> Faults => [.. _faults.List.Select(f => (f.Fault, InstantOf(f.AtS)))];

    /// <summary>How everything truly stands now.</summary>
    public PlayedTruth Truth => TruthNow();

    /// <summary>Lets the world go on.</summary>
    /// <param name="to">Until when; not before <see cref="Now"/>.</param>
    /// <param name="sink">Takes each reading of the kit, in order of time.</param>
    /// <returns>Reached, or why it stopped on the way; it may be asked to go on.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The time lies before <see cref="Now"/>.</exception>
    public StopReason AdvanceTo(Instant to, Action<Reading> sink)
    {
        ArgumentNullException.ThrowIfNull(sink);
        if (SecondsOf(to) < _solver.Time - 1e-3) throw new ArgumentOutOfRangeException(nameof(to), to, $"lies before the present, {Now}");
        _kit.Sink = sink;
        try
        {
            if (!_isWatched) _kit.Begin(_solver.Time, _solver.State);
            _isWatched = true;
            return Go(SecondsOf(to));
        }
        finally
        {
            _kit.Sink = null;
        }
    }

    /// <summary>Breaks something, or lets people do something.</summary>
    /// <param name="fault">What; of something that it fits.</param>
    /// <param name="at">When; null or past: now.</param>
    /// <exception cref="ArgumentException">There is no such fault, or it does not fit what it names.</exception>
    public void Inject(Fault fault, Instant? at = null)
    {
        ArgumentNullException.ThrowIfNull(fault);
        var kind = FaultCatalogue.Find(fault.Name) ?? throw new ArgumentException($"there is no fault {fault.Name}", nameof(fault));
        var fits = kind.Fits(_place);
        if (fits.Count == 0 || (fault.Of is { } of && !fits.Contains(of))) throw new ArgumentException($"{fault.Name} does not fit {fault.Of ?? "this place"}", nameof(fault));
        double atS = at is { } time ? Math.Max(SecondsOf(time), _solver.Time) : _solver.Time;
        _faults.Add(new(fault, atS));
        Refresh();
    }

    /// <summary>Mends a fault, or takes back one that is still to come.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="of">Of what; null: wherever it stands.</param>
    /// <returns>Whether there was one.</returns>
    public bool Mend(string name, string? of = null)
    {
        bool was = _faults.Remove(name, of);
        Refresh();
        return was;
    }

    /// <summary>Opens a valve for a while, as people or an order from outside do, beside its own rule; or shuts it.</summary>
    /// <param name="valve">Its id.</param>
    /// <param name="seconds">For how long; 0: shut it now.</param>
    /// <exception cref="ArgumentException">There is no such valve.</exception>
    public void Order(string valve, double seconds)
    {
        int i = _place.Hydraulics!.Valves.ToList().FindIndex(v => v.Id == valve);
        if (i < 0) throw new ArgumentException($"there is no valve {valve}", nameof(valve));
        _orderEnds.RemoveAll(o => o.Valve == i);
        _loop.Switches.Order(i, seconds > 0, _solver.Time);
        if (seconds > 0) _orderEnds.Add((_solver.Time + seconds, i));
        Refresh();
    }

    private StopReason Go(double end)
    {
        while (_solver.Time < end)
        {
            if (_solver.Time >= _nextWeatherS) PassWeather();
            double next = Math.Min(end, _nextWeatherS), change = NextChangeS();
            next = Math.Min(next, change);
            var result = _solver.AdvanceTo(Math.Max(next, _solver.Time), _afterStep);
            if (result.Stop != StopReason.Reached) return result.Stop;
            if (next < change) continue;
            foreach (var (_, valve) in _orderEnds.Where(o => o.AtS <= next).ToList())
            {
                _orderEnds.RemoveAll(o => o.Valve == valve);
                _loop.Switches.Order(valve, false, _solver.Time);
            }

            Refresh();
        }

        return StopReason.Reached;
    }

    private double NextChangeS()
    {
        double next = _faults.NextChangeS(_solver.Time);
        foreach (var (at, _) in _orderEnds) next = Math.Min(next, at);
        return next;
    }

    private void PassWeather()
    {
        _rainBeforeMm += _true.Weather.RainMm;
        _stepBeganS = _nextWeatherS;
        _nextWeatherS += PlayedWeather.StepS;
        _true.Weather = _weather.At(_stepBeganS + 1);
        _losses.Set(_true.Weather, PlayedWeather.StepS, _loop.Condition);
        _true.WaterC = _losses.WaterC;
        foreach (var pump in _loop.Condition.Pumps)
        {
            // Mains voltage and warm or cold water, over hours.
            const double memory = 0.97;
            double shock = Math.Sqrt(1 - (memory * memory)) * _quality.PumpWander * _chance.Normal();
            pump.Wander = 1 + (memory * (pump.Wander - 1)) + shock;
        }
    }

    // After the condition changed from outside.
    private void Refresh()
    {
        _faults.Apply(_solver.Time);
        _loop.Switches.Reconsider(_solver.Time, _solver.State);
        _solver.State.CopyTo(_now);
        _solver.Change(_now);
        _kit.LookAtSwitches(_solver.Time);
    }

    private void AfterStep(OdeSolver solver)
    {
        _true.RainMm = _rainBeforeMm + (_true.Weather.RainMm * Math.Clamp((solver.Time - _stepBeganS) / PlayedWeather.StepS, 0, 1));
        _kit.Sample(solver);
    }

    private void Note(SwitchEvent happened)
    {
        var (time, kind, i) = happened;
        if (kind is SwitchKind.PumpStarts or SwitchKind.PumpStops)
        {
            var (pump, told) = (_loop.Condition.Pumps[i], _place.Hydraulics!.Pumps[i]);
            double slip = _quality.SwitchJitter * ((told.OnM ?? 0) - (told.OffM ?? 0)) * _chance.Normal();
            if (kind == SwitchKind.PumpStops) pump.OnJitterM = slip;
            else pump.OffJitterM = slip;
        }

        _kit.LookAtSwitches(time);
    }

    private PlayedTruth TruthNow()
    {
        var water = _place.Hydraulics!;
        double[] state = [.. _solver.State];
        double time = _solver.Time, all = 0;
        for (int i = 0; i < _loop.FirstSpilled; i++) all += state[i];
        double Since(int sum) => (state[sum] - _begin[sum]) * 1000;
        return new(
            Now,
            [.. water.Vessels.Select((v, i) => new TrueVessel(v.Id, _loop.LevelM(i, state), state[i] * 1000, Since(_loop.FirstSpilled + i)))],
            [
                .. water.Pumps.Select((p, i) => new TruePump(
                    p.Id, _loop.Switches.IsOn(i), _loop.Switches.Turns(i), _loop.PumpFlowM3PerS(i, time, state) * 60_000, Since(_loop.FirstPumped + i))),
            ],
            [
                .. water.Valves.Select((v, i) => new TrueValve(
                    v.Id, _loop.Switches.IsOpen(i), _loop.ValveFlowM3PerS(i, time, state) * 60_000, Since(_loop.FirstLet + i))),
            ],
            _true.Weather, _true.WaterC,
            new(
                Since(_loop.Came), Since(_loop.Rained), Since(_loop.Lost), Since(_loop.SpilledAway), Since(_loop.Left), Since(_loop.Leaked), Since(_loop.Drawn),
                all * 1000, (_loop.InvariantM3(state) - _loop.InvariantM3(_begin)) * 1000));
    }

    private Instant InstantOf(double timeS) => _zero + Duration.FromMilliseconds(Math.Round(timeS * 1000));

    private double SecondsOf(Instant time) => (time - _zero).TotalSeconds;
}
