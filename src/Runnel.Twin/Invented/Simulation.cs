using NodaTime;
using Runnel.Place;

namespace Runnel.Twin.Invented;

/// <summary>Lets one invented place live through its story, ten minutes of weather at a time.</summary>
internal sealed class Simulation
{
    private readonly LoopSpec _loop;
    private readonly KeeperSpec _habit;
    private readonly LoggerSpec _logging;
    private readonly IReadOnlyList<Happening> _story;
    private readonly StoryState _state;
    private readonly Plant _plant;
    private readonly Keeper _keeper;
    private readonly LogBook _book;
    private readonly Weather _weather;
    private readonly Seeded _noise;
    private readonly Seeded _people;
    private readonly Instant _start;
    private readonly int _blocks;
    private readonly int _leakVessel, _blockedTank, _fouledTrough, _separator;
    private readonly List<(long From, long To, int Vessel, double Litres, bool Logged)> _draws = [];
    private readonly int _pump, _topUp, _bleed, _level, _air, _rh, _sun, _wind, _rain;
    private readonly bool _deadMotorDrawsMore;

    private double _canopy, _waterC, _voltage = 1, _lastPowerW = -1;
    private long _topUpEnds = long.MaxValue, _bleedEnds = long.MaxValue, _offSince = -1, _onSince = -1;
    private bool _topUpOrdered, _bleedOrdered, _topUpStuck, _bleedStuck, _pausing;
    private long _powerRow = -1;

    public Simulation(LoopSpec loop, KeeperSpec habit, LoggerSpec logging, IReadOnlyList<Channel> channels, IReadOnlyList<Happening> story, int seed, int days)
    {
        _loop = loop;
        _habit = habit;
        _logging = logging;
        _story = story;
        _state = new StoryState(story);
        _start = loop.Zone.AtStartOfDay(loop.FirstDay).ToInstant();
        var end = loop.Zone.AtStartOfDay(loop.FirstDay.PlusDays(days)).ToInstant();
        _blocks = (int)((end - _start).TotalSeconds / Weather.StepS);
        _weather = Weather.Make(loop, _start, _blocks, story, seed);
        _plant = new Plant(loop, 2);
        _keeper = new Keeper(habit, loop);
        _book = new LogBook(logging, channels, _start, _state, seed);
        _noise = new Seeded(seed, "noise");
        _people = new Seeded(seed, "people");
        var where = new Seeded(seed, "where");
        var v = loop.Vessels;
        _leakVessel = where.Whole(0, v.Length - 1);
        _blockedTank = 0;
        int[] troughs = [.. Enumerable.Range(0, v.Length).Where(i => v[i].Kind == VesselKind.Trough)];
        _fouledTrough = troughs[where.Whole(0, troughs.Length - 1)];
        _separator = Array.FindIndex(v, x => x.Kind == VesselKind.SolidsSeparator);
        _deadMotorDrawsMore = where.Chance(0.4);
        _pump = _book.Channel(logging.PumpId);
        _topUp = _book.Channel(logging.TopUpId);
        _bleed = _book.Channel(logging.BleedId);
        _level = logging.LevelOf < 0 ? -1 : _book.Channel("sump-level") >= 0 ? _book.Channel("sump-level") : _book.Channel("tank-level");
        _air = _book.Channel("air-temperature");
        _rh = _book.Channel("relative-humidity");
        _sun = _book.Channel("solar-irradiance");
        _wind = _book.Channel("wind-speed");
        _rain = _book.Channel("rain");
        _canopy = loop.CanopyM2;
        _waterC = _weather.AirC.Take(144).Average();
        Ledger = new DayLedger(_blocks, _start, loop.Zone);
        PlanDraws(days);
    }

    public DayLedger Ledger { get; }
    public LogBook Book => _book;
    public List<DaybookEntry> Daybook { get; } = [];
    public Instant Start => _start;
    public Plant Plant => _plant;

    public void Run()
    {
        bool steady = _loop.Kind == LoopKind.AlwaysOn;
        SettleIn.Run(_plant, _loop);
        _plant.OnEdge = Edge;
        _plant.Manual = steady;
        if (steady) _plant.SwitchOn = true;
        long t0 = _plant.Clock;
        Offset = t0;
        _markM = _plant.Level(0);
        _fullL = _plant.TotalL();
        Ledger.Begin(_plant.TotalL(), _plant);
        _book.Edge(PumpSwitchChannel(), 0, _plant.SwitchOn);
        _book.Edge(_topUp, 0, false);
        _book.Edge(_bleed, 0, false);
        long nextCheck = _habit.CheckEveryS, nextLevel = 0, nextPower = 0, nextWeather = 137 % _logging.WeatherEveryS;
        for (int block = 0; block < _blocks; block++)
        {
            long from = (long)block * Weather.StepS, to = from + Weather.StepS;
            double day = from / 86400.0;
            double hour = LocalHour(from);
            SlowFactors(block, day, hour);
            foreach (double timer in _habit.TimerHours)
            {
                if (timer >= hour - 1e-6 && timer < hour + (1 / 6.0) - 1e-6) OpenTopUp(from, _keeper.TimerSeconds());
            }

            if (_habit.TimerHours.Length > 0 && block % (144 * _habit.TimerReviewDays) == 100) _keeper.ReviewTimer(_plant.Level(0) - _markM);
            long now = from;
            while (now < to)
            {
                long next = Math.Min(to, Math.Min(Math.Min(_topUpEnds, _bleedEnds), nextCheck));
                if (_level >= 0) next = Math.Min(next, nextLevel);
                if (_logging.PowerEveryS > 0) next = Math.Min(next, nextPower);
                next = Math.Min(next, NextDrawChange(now));
                if (next > now)
                {
                    _plant.RunUntil(Offset + next);
                    now = _plant.Clock - Offset;
                }

                if (now >= _topUpEnds) CloseTopUp(now);
                if (now >= _bleedEnds) CloseBleed(now);
                if (now >= nextCheck)
                {
                    nextCheck += _habit.CheckEveryS;
                    var (order, seconds) = _keeper.Check(now, hour, _plant.SumpLevel + (0.001 * _noise.Normal()), _plant.SwitchOn ? -1 : _offSince);
                    if (order == Keeper.Order.TopUp) OpenTopUp(now, seconds);
                    if (order == Keeper.Order.Bleed) OpenBleed(now, seconds);
                    Repeats(now);
                }

                if (_level >= 0 && now >= nextLevel)
                {
                    nextLevel = now + _logging.LevelEveryS;
                    _book.Measure(_level, now, (1000 * _plant.Level(_logging.LevelOf)) + (_logging.LevelNoiseMm * _noise.Normal()), 1);
                }

                if (_logging.PowerEveryS > 0 && now >= nextPower)
                {
                    nextPower = now + _logging.PowerEveryS;
                    Power(now, false);
                }

                SetDraw(now);
            }

            while (nextWeather < to)
            {
                WriteWeather(block, nextWeather);
                nextWeather += _logging.WeatherEveryS;
            }

            Ledger.Close(block, _plant, _canopy, _topUpOrdered, _bleedOrdered, _drawAt < _draws.Count && _plant.DrawFrom >= 0 && _draws[_drawAt].Logged);
        }
    }

    private long Offset { get; set; }
    private double _markM, _fullL;

    /// <summary>Top-ups ordered, and how many of them met a loop that lacked less than a quarter of them.</summary>
    public int TopUps { get; private set; }
    public int NotNeeded { get; private set; }

    private int PumpSwitchChannel() => _logging.PowerEveryS > 0 ? -1 : _pump;

    private double LocalHour(long at)
    {
        var local = _start.Plus(Duration.FromSeconds(at)).InZone(_loop.Zone).TimeOfDay;
        return local.TickOfDay / (double)NodaConstants.TicksPerHour;
    }

    private (double Low, double High) Edge(long clock, bool on)
    {
        // The plant steps by two seconds; the logger's stamp falls on either.
        long at = clock - Offset - _noise.Whole(0, 1);
        double day = at / 86400.0;
        if (on)
        {
            if (_offSince >= 0) _keeper.Filled(at, at - _offSince);
            _onSince = at;
        }
        else
        {
            _offSince = at;
        }

        if (_logging.PowerEveryS > 0)
        {
            if (_logging.PowerOnChange) Power(at, true);
        }
        else
        {
            _book.Edge(_pump, at, on);
            if (_state.At(HappeningKind.RelayChatter, day) is { } chatter)
            {
                long t = at;
                int pairs = (int)_noise.Exponential(chatter.Size) + 1;
                for (int i = 0; i < pairs; i++)
                {
                    t += _noise.Whole(1, 5);
                    _book.Edge(_pump, t, !on);
                    t += _noise.Whole(1, 5);
                    _book.Edge(_pump, t, on);
                }
            }
        }

        double band = _loop.SwitchHighM - _loop.SwitchLowM;
        double high = _loop.SwitchLowM + (band * (1 + _state.Size(HappeningKind.SwitchShifted, day)));
        if (_state.At(HappeningKind.BandCollapsed, day) is { } collapsed) high = _loop.SwitchLowM + (band * collapsed.Size);
        double low = _loop.SwitchLowM + (_loop.SwitchJitter * band * _noise.Normal() * 0.7);
        high += _loop.SwitchJitter * (high - _loop.SwitchLowM) * _noise.Normal() * 0.7;
        return (low, Math.Max(high, low + 0.004));
    }

    /// <summary>Everything that changes slowly against the pump's cycle: weather, leaves, wear, leaks, mains.</summary>
    private void SlowFactors(int block, double day, double hour)
    {
        var v = _loop.Vessels;
        double air = _weather.AirC[block], rh = _weather.RhPercent[block], sun = _weather.SunWPerM2[block], wind = _weather.WindMPerS[block];
        double total = _plant.TotalL();

        if (_loop.CanopyGrowthPerDay > 0 && hour is > 7 and < 18)
            _canopy += _canopy * _loop.CanopyGrowthPerDay * (1 - (_canopy / _loop.CanopyMostM2)) / 66;
        foreach (var h in _state.All(HappeningKind.Harvest))
        {
            if ((int)(h.OnsetDay * 144) == block) _canopy *= 1 - h.Size;
        }

        double open = _state.Step(HappeningKind.CoverOn, day);
        double evaporationMmS = WaterLoss.OpenWaterMmPerS(_waterC, air, rh, wind) * _loop.EvaporationFactor;
        double leafMmS = WaterLoss.LeafMmPerS(air, rh, sun, wind, _loop.StomataSPerM);
        _waterC += Weather.StepS * (((air - _waterC) / 90000) + (0.45 * sun * _loop.OpenWaterM2 * open / (total * 4186))
            - (evaporationMmS * _loop.OpenWaterM2 * open * 2.45e6 / (total * 4186)));

        double splash = _loop.SplashLPerDay / 86400;
        double leak = _state.Size(HappeningKind.Leak, day) / 3600;
        if (_state.At(HappeningKind.NightLeak, day) is { } night && hour is >= 20 or < 6) leak += night.Size / 3600;
        double rainLPerS = _weather.RainMm[block] * _loop.RainCatchM2 / Weather.StepS;
        double evaporated = 0;
        for (int i = 0; i < v.Length; i++)
        {
            double lost = evaporationMmS * v[i].OpenM2 * open;
            evaporated += lost;
            _plant.External[i] = -lost - (leafMmS * _canopy * v[i].CanopyShare);
        }

        _plant.External[0] += (rainLPerS / 2) - splash;
        _plant.External[_loop.Sump] += rainLPerS / 2;
        _plant.External[_leakVessel] -= leak;
        Ledger.Rates(evaporated, leafMmS * _canopy, rainLPerS, splash, leak);

        Drains(day, v);
        _voltage += (0.05 * (1 - _voltage)) + (_loop.VoltageWander * 0.3 * _noise.Normal());
        _plant.Speed = _voltage;
        double night2 = _state.At(HappeningKind.NightVoltage, day) is { } slow && hour is >= 20 or < 6 ? 1 - slow.Size : 1;
        _plant.PumpFactor = _state.Decay(HappeningKind.PumpWeakening, day, 0.3) * _state.Step(HappeningKind.NewPump, day) * night2
            * (1 - (_loop.AgeingPerDay * 0.5 * day)) * (1 + (0.0012 * (_waterC - 20)));
        bool cut = false;
        foreach (var h in _state.All(HappeningKind.PowerCut)) cut |= day >= h.OnsetDay && day < h.OnsetDay + (h.Size / 24);
        foreach (var h in _state.All(HappeningKind.CleaningWork)) cut |= day >= h.OnsetDay && day < h.OnsetDay + WorkDays;
        _plant.NoFlow = cut || _state.On(HappeningKind.PumpStopped, day) || _state.On(HappeningKind.PumpDry, day);
        _plant.Welded = _state.On(HappeningKind.PumpStuckOn, day);
        _plant.RunsBack = _state.Size(HappeningKind.CheckValveLeaking, day);
        _plant.SiphonStuck = _state.On(HappeningKind.SiphonStuck, day);
        foreach (var h in _story.Where(h => h.Kind is HappeningKind.MovedValve or HappeningKind.MovedValveLogged))
        {
            if ((int)(h.OnsetDay * 144) == block) _plant.TurnSplit(h.Size);
        }

        if (_state.On(HappeningKind.TopUpStuckOpen, day) && !_topUpStuck && _topUpOrdered) _topUpStuck = true;
        if (_state.On(HappeningKind.BleedStuckOpen, day) && !_bleedStuck && _bleedOrdered) _bleedStuck = true;
        if (_state.On(HappeningKind.BleedStuckOpen, day) && !_state.On(HappeningKind.BleedStuckOpen, day - (1 / 144.0))) OpenBleed((long)block * Weather.StepS, _habit.BleedS);
        Valves(day);
        if (_loop.Kind == LoopKind.AlwaysOn && _habit.PauseMinutes > 0) Pause(block, hour);
    }

    private void Drains(double day, VesselSpec[] v)
    {
        double all = _state.Decay(HappeningKind.DrainFouling, day, 0.25);
        double age = 1 - (_loop.AgeingPerDay * day);
        double before = 1;
        foreach (var h in _story.Where(h => h.Kind is HappeningKind.ScreensCleaned or HappeningKind.CleaningWork)) before *= day < h.OnsetDay ? h.Size : 1;
        double one = _state.Decay(HappeningKind.OneDrainFouling, day, 0.15);
        double blocked = _state.Decay(HappeningKind.ScreenBlocking, day, 0.02);
        double warm = 1 + (0.0015 * (_waterC - 20));
        for (int i = 0; i < v.Length - 1; i++)
        {
            double w = v[i].FoulWeight;
            double f = Math.Pow(all, w) * Math.Pow(before, w) * Math.Pow(age, w) * warm;
            if (i == _fouledTrough) f *= one;
            if (i == _blockedTank) f *= blocked;
            _plant.Foul[i] = f;
        }
    }

    private void Pause(int block, double hour)
    {
        // The pause is taken in whole ten-minute steps of the log's week; its minutes are kept inside the block.
        double hourOfWeek = (block / 6.0) % 168;
        bool begins = Math.Abs(hourOfWeek - _habit.PauseHourOfWeek) < 1e-6 && block > 144;
        _ = hour;
        if (!begins) return;
        _pausing = true;
        _plant.SwitchOn = false;
        _pauseEnds = ((long)block * Weather.StepS) + (_habit.PauseMinutes * 60L);
        _book.Edge(_pump, (long)block * Weather.StepS, false);
    }

    private long _pauseEnds;

    private void Valves(double day)
    {
        bool dry = _state.On(HappeningKind.TopUpWithoutEffect, day);
        double weep = _state.Size(HappeningKind.TopUpWeeping, day) / 3600;
        if (!_state.On(HappeningKind.TopUpStuckOpen, day)) _topUpStuck = false;
        if (!_state.On(HappeningKind.BleedStuckOpen, day)) _bleedStuck = false;
        _plant.TopUpRate = _topUpOrdered ? (dry ? 0 : _loop.TopUpLPerS) : _topUpStuck ? _loop.TopUpLPerS : weep;
        _plant.BleedRate = _bleedOrdered || _bleedStuck ? _loop.BleedLPerS : 0;
    }

    private void OpenTopUp(long now, int seconds)
    {
        if (seconds <= 0 || _topUpOrdered) return;
        Ledger.Settle(_plant, _topUpOrdered, _bleedOrdered);
        TopUps++;
        if (_habit.TimerHours.Length == 0 && _fullL - _plant.TotalL() < 0.25 * seconds * _loop.TopUpLPerS) NotNeeded++;
        _topUpOrdered = true;
        _topUpEnds = now + seconds;
        _book.Edge(_topUp, now, true);
        if (_state.On(HappeningKind.TopUpStuckOpen, now / 86400.0)) _topUpStuck = true;
        Valves(now / 86400.0);
    }

    private void CloseTopUp(long now)
    {
        Ledger.Settle(_plant, _topUpOrdered, _bleedOrdered);
        if (_topUpStuck) TakesEffect(HappeningKind.TopUpStuckOpen, now);
        if (_state.On(HappeningKind.TopUpWithoutEffect, now / 86400.0)) TakesEffect(HappeningKind.TopUpWithoutEffect, now);
        _topUpOrdered = false;
        _topUpEnds = long.MaxValue;
        _book.Edge(_topUp, now, false);
        Valves(now / 86400.0);
    }

    private void OpenBleed(long now, int seconds)
    {
        if (_bleedOrdered) return;
        Ledger.Settle(_plant, _topUpOrdered, _bleedOrdered);
        _bleedOrdered = true;
        _bleedEnds = now + seconds;
        _book.Edge(_bleed, now, true);
        if (_state.On(HappeningKind.BleedStuckOpen, now / 86400.0)) _bleedStuck = true;
        Valves(now / 86400.0);
    }

    private void CloseBleed(long now)
    {
        Ledger.Settle(_plant, _topUpOrdered, _bleedOrdered);
        if (_bleedStuck) TakesEffect(HappeningKind.BleedStuckOpen, now);
        _bleedOrdered = false;
        _bleedEnds = long.MaxValue;
        _book.Edge(_bleed, now, false);
        Valves(now / 86400.0);
    }

    /// <summary>When a fault that waits for an order first showed in the world.</summary>
    public Dictionary<HappeningKind, Instant> Effective { get; } = [];

    private void TakesEffect(HappeningKind kind, long now) => Effective.TryAdd(kind, _start.Plus(Duration.FromSeconds(now)));

    private void Repeats(long now)
    {
        _book.Repeat(PumpSwitchChannel(), now);
        _book.Repeat(_topUp, now);
        _book.Repeat(_bleed, now);
    }

    private void Power(long at, bool edge)
    {
        double day = at / 86400.0;
        bool cut = false;
        foreach (var h in _state.All(HappeningKind.PowerCut)) cut |= day >= h.OnsetDay && day < h.OnsetDay + (h.Size / 24);
        double watts = _loop.StandbyWatts;
        if (_plant.SwitchOn && !cut)
        {
            double load = 0.72 + (0.28 * Math.Min(1.2, _plant.PumpFactor * Math.Pow(_plant.Speed, 2)));
            watts = _loop.RunWatts * load * _voltage;
            if (_state.On(HappeningKind.PumpDry, day)) watts = _loop.RunWatts * 0.5;
            if (_state.On(HappeningKind.PumpStopped, day)) watts = _deadMotorDrawsMore ? _loop.RunWatts * 1.7 : _loop.StandbyWatts;
            if (_plant.SumpLevel < _loop.InletM + 0.003) watts *= 0.75 + (0.15 * _noise.Normal());
            if (at - _onSince <= 2) watts *= _noise.Between(1.5, 3);
        }

        watts = Math.Max(0, watts * (1 + (_logging.PowerNoise * _noise.Normal())));
        if (_logging.PowerOnChange && !edge && at - _powerRow < 600 && Math.Abs(watts - _lastPowerW) < 0.1 * (_lastPowerW + 5)) return;
        _lastPowerW = watts;
        _powerRow = at;
        _book.Measure(_pump, at, watts, 1);
    }

    private void WriteWeather(int block, long at)
    {
        _book.Measure(_air, at, _weather.AirC[block] + (0.15 * _noise.Normal()), 1);
        _book.Measure(_rh, at, Math.Clamp(_weather.RhPercent[block] + (1.2 * _noise.Normal()), 5, 100), 1);
        _book.Measure(_sun, at, Math.Max(0, _weather.SunWPerM2[block] * (1 + (0.02 * _noise.Normal()))), 0);
        _book.Measure(_wind, at, Math.Max(0, _weather.WindMPerS[block] * (1 + (0.08 * _noise.Normal()))), 1);
        if (_rain < 0) return;
        _rainGaugeMm += RainSince(at);
        double tips = Math.Floor(_rainGaugeMm / 0.2) * 0.2;
        _rainGaugeMm -= tips;
        _book.Measure(_rain, at, tips, 1);
    }

    private double _rainGaugeMm;
    private long _rainTo;

    private double RainSince(long at)
    {
        double mm = 0;
        while (_rainTo < at)
        {
            int block = (int)(_rainTo / Weather.StepS);
            long end = Math.Min(at, (block + 1L) * Weather.StepS);
            mm += _weather.RainMm[Math.Min(block, _blocks - 1)] * (end - _rainTo) / Weather.StepS;
            _rainTo = end;
        }

        return mm;
    }

    private void PlanDraws(int days)
    {
        foreach (var h in _story)
        {
            long at = (long)(h.OnsetDay * 86400);
            switch (h.Kind)
            {
                case HappeningKind.SludgeDrainedUnlogged:
                    _draws.Add((at, at + _people.Whole(3, 10) * 60, _separator, h.Size, false));
                    break;
                case HappeningKind.SludgeDrainedLogged:
                    PlanLogged(at, h.Size);
                    break;
                case HappeningKind.BedWatered:
                    _draws.Add((at, at + _people.Whole(10, 45) * 60, _loop.Sump, h.Size, false));
                    break;
                case HappeningKind.FilledByHand:
                    _draws.Add((at, at + _people.Whole(4, 12) * 60, _loop.Sump, -h.Size, true));
                    Write(at, "filled-by-hand", null, Math.Round(h.Size));
                    break;
                case HappeningKind.MovedValveLogged:
                    Write(at + (_people.Whole(0, 3) * 300), "moved-valve", null, null);
                    break;
                case HappeningKind.CleaningWork:
                    double litres = _people.Between(15, 25);
                    Write(at - 120, "work-began", null, null);
                    _draws.Add((at + 300, at + 600, _separator, litres, true));
                    Write(at + 600, "drained", "separator", Math.Round(litres));
                    Write(at + 900, "cleaned", null, null);
                    Write(at + (long)(WorkDays * 86400) + 300, "work-ended", null, null);
                    break;
                default:
                    break;
            }
        }

        if (_habit.SludgeEveryDays > 0)
        {
            for (double d = _people.Between(1, _habit.SludgeEveryDays); d < days - 0.5; d += _habit.SludgeEveryDays * _people.Between(0.8, 1.2))
                PlanLogged((long)((Math.Floor(d) + _people.Between(0.34, 0.75)) * 86400), _habit.SludgeL * _people.Between(0.8, 1.2));
        }

        for (double d = _people.Unit() * 3; d < days; d += 3.5)
            _draws.Add(((long)((Math.Floor(d) + _people.Between(0.35, 0.8)) * 86400), 0, 0, _habit.JarsLPerWeek / 2 * _people.Between(0.5, 1.5), false));
        for (int i = 0; i < _draws.Count; i++)
        {
            if (_draws[i].To == 0) _draws[i] = _draws[i] with { To = _draws[i].From + 60 };
        }

        _draws.Sort((a, b) => a.From.CompareTo(b.From));
        // One draw at a time: people have two hands.
        for (int i = 1; i < _draws.Count; i++)
        {
            long shift = Math.Max(0, _draws[i - 1].To + 120 - _draws[i].From);
            _draws[i] = _draws[i] with { From = _draws[i].From + shift, To = _draws[i].To + shift };
        }
    }

    private const double WorkDays = 30.0 / 1440;

    private void Write(long at, string entry, string? of, double? litres) =>
        Daybook.Add(new DaybookEntry(_start.Plus(Duration.FromSeconds(at / 60 * 60)), entry, of, litres, "keeper", null));

    private void PlanLogged(long at, double litres)
    {
        at = at / 60 * 60;
        _draws.Add((at, at + _people.Whole(3, 9) * 60, _separator, litres, true));
        // Written down afterwards, to the nearest five minutes and the nearest litre, and not quite right.
        long written = (at + _people.Whole(0, 8) * 60) / 300 * 300;
        Daybook.Add(new DaybookEntry(_start.Plus(Duration.FromSeconds(written)), "drained", "separator",
            Math.Round(litres * (1 + (0.04 * _people.Normal()))), "keeper", null));
    }

    private int _drawAt;

    private long NextDrawChange(long now)
    {
        long next = long.MaxValue;
        if (_pausing) next = Math.Max(now, _pauseEnds);
        if (_drawAt >= _draws.Count) return next;
        var d = _draws[_drawAt];
        return Math.Min(next, now < d.From ? d.From : d.To);
    }

    private void SetDraw(long now)
    {
        if (_pausing && now >= _pauseEnds)
        {
            _pausing = false;
            _plant.SwitchOn = true;
            _book.Edge(_pump, now, true);
        }

        if (_drawAt >= _draws.Count) return;
        var d = _draws[_drawAt];
        if (now >= d.To)
        {
            Ledger.Drawn(_plant, d.Logged);
            _plant.DrawFrom = -1;
            _drawAt++;
        }
        else if (now >= d.From && _plant.DrawFrom < 0)
        {
            Ledger.Drawn(_plant, false);
            _plant.DrawFrom = d.Vessel;
            _plant.DrawRate = d.Litres / (d.To - d.From);
        }
    }

    /// <summary>True when the loop's water went over a rim above the sump, and when.</summary>
    public Instant? SpillAt() => _plant.FirstSpill < 0 ? null : _start.Plus(Duration.FromSeconds(_plant.FirstSpillAt - Offset));
}
