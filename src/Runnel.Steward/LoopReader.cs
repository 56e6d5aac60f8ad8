using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;
using Runnel.Steward.Signals;

namespace Runnel.Steward;

/// <summary>The reading core: takes readings, daybook entries and clock steps in time order and keeps what they say of the loop.
/// Deterministic and causal: no clock, no I/O, no randomness; what stands after an event depends on that event and those before it.</summary>
internal sealed class LoopReader
{
    private static readonly Duration TickLength = Duration.FromMinutes(5);
    private static readonly Duration LongestOverlap = Duration.FromDays(5);
    private static readonly Duration LevelSettling = Duration.FromMinutes(40);

    /// <summary>Metered litres, as a share of the band, that make a cycle unfit for learning.</summary>
    private const double LeastDisturbing = 0.03;

    private readonly LoopState _state;
    private readonly NoticeBook _notices = new();
    private readonly IReadOnlyList<IWatch> _watches;
    private readonly PowerSwitch? _power;
    private readonly SwitchEdges _switch = new();
    private readonly MeteredWater? _topUpMeter;
    private readonly MeteredWater? _bleedMeter;
    private readonly MeteredWater? _rainMeter;
    private readonly (string Frozen, string Jumping)[] _doubts;
    private Instant? _nextTick;

    public LoopReader(PlaceDescription place, IReadOnlyList<IWatch> watches)
    {
        _state = new LoopState(place);
        _watches = watches;
        _doubts = [.. place.Channels.Select(c => (SensorKeys.Frozen(c.Id), SensorKeys.Jumping(c.Id)))];
        MeteredWater? Meter(int at) => at >= 0 ? new MeteredWater(place.Channels[at]) : null;
        _topUpMeter = Meter(_state.Kit.TopUpVolume);
        _bleedMeter = Meter(_state.Kit.BleedVolume);
        _rainMeter = Meter(_state.Kit.Rain);
        if (_state.Kit.PumpPower is >= 0 and var p) _power = new PowerSwitch(place.Channels[p].RunningAbove);
    }

    public LoopState State => _state;
    public NoticeBook Notices => _notices;

    public void Take(in Reading reading)
    {
        AdvanceTo(reading.Time);
        _state.Now = reading.Time;
        NoteSilence(reading.Time);
        if (reading.Time - _state.LastReading > _state.HoleLimit) _state.ObservedSince = reading.Time;
        _state.LastReading = reading.Time;
        _state.Channels[reading.Channel].Take(reading.Time, reading.Value);
        Dispatch(reading);
        foreach (var watch in _watches) watch.Hear(_state, reading);
    }

    public void Take(DaybookEntry entry)
    {
        AdvanceTo(entry.Time);
        _state.Now = entry.Time;
        _state.Daybook.Add(entry);
        DaybookIntake.Take(_state, entry);
    }

    public void Take(ClockStep step)
    {
        var (first, last) = step.Before < step.After ? (step.Before, step.After) : (step.After, step.Before);

        // A step of years is a clock that lost its date: its rows were not taken, and the rest is sound.
        if (last - first < LongestOverlap)
        {
            _state.ClockDoubtfulUntil = last + Duration.FromHours(1);
            _state.Holds.Add(first, _state.ClockDoubtfulUntil);
            _state.Cycles.Disturb(_state.ClockDoubtfulUntil);
        }

        _notices.Tell(ClockNotices.Of(_state, step));
    }

    /// <summary>Lets time pass without an event.</summary>
    public void AdvanceTo(Instant time)
    {
        if (_nextTick is null)
        {
            _state.Began = time;
            _state.LastReading = time;
            _state.ObservedSince = time;
            _nextTick = Instant.FromUnixTimeSeconds((time.ToUnixTimeSeconds() / 300 * 300) + 300);
        }

        while (_nextTick.Value <= time)
        {
            _state.Now = _nextTick.Value;
            if (_state.OnTheHour) _state.Balance.CloseHours();
            foreach (var watch in _watches) watch.Look(_state, _notices);
            _nextTick += TickLength;
        }
    }

    private void NoteSilence(Instant time)
    {
        if (time - _state.LastReading <= _state.GapLimit) return;
        _state.Gaps.Add(new Interval(_state.LastReading, time));
        _state.Pump.ForgetEdge();
        _state.TopUp.ForgetEdge();
        _state.Bleed.ForgetEdge();
        _state.Cycles.Break();
        _state.Cycles.Disturb(time);
    }

    /// <summary>When power shows a change, the switch knows to the second when it was.</summary>
    private Instant EdgeOf(bool on, Instant byPower, Instant now)
    {
        if (_state.Pump.IsOn == on) return byPower;
        double intervalS = Math.Max(10, _state.Channels[_state.Kit.PumpPower].UsualIntervalS ?? 0);
        return _switch.Last(on, now - Duration.FromSeconds(2 * intervalS)) ?? byPower;
    }

    private void Dispatch(in Reading reading)
    {
        var kit = _state.Kit;
        int channel = reading.Channel;
        var hour = _state.Hours.At(reading.Time);
        if (channel == kit.PumpRunning)
        {
            if (_power is null) PumpIs(reading.Time, reading.Value >= 0.5);
            else _switch.Take(reading.Time, reading.Value >= 0.5);
        }
        else if (channel == kit.PumpPower)
        {
            if (_power!.Take(reading.Time, reading.Value) is { } seen) PumpIs(EdgeOf(seen.On, seen.EdgeTime, reading.Time), seen.On);
            _state.PumpPowerLevel = _power.RunningLevel;
        }
        else if (channel == kit.TopUpRunning)
        {
            ValveIs(_state.TopUp, reading, _state.TopUpLPerS, +1, _topUpMeter is not null);
        }
        else if (channel == kit.BleedRunning)
        {
            ValveIs(_state.Bleed, reading, _state.BleedLPerS, -1, _bleedMeter is not null);
        }
        else if (channel == kit.TopUpVolume)
        {
            MeterTells(_topUpMeter!.Take(reading.Time, reading.Value), reading.Time, +1);
        }
        else if (channel == kit.BleedVolume)
        {
            MeterTells(_bleedMeter!.Take(reading.Time, reading.Value), reading.Time, -1);
        }
        else if (channel == kit.SumpLevel && kit.BandL is null)
        {
            if (LevelIsSteady(reading.Time) && !Doubted(channel)) _state.Store.TakeLevel(reading.Time, reading.Value);
        }
        else if (Doubted(channel))
        {
            // The weather of days before stands in for a sensor that is known to be wrong.
        }
        else if (channel == kit.AirTemperature)
        {
            hour.AirTempC.Add(reading.Value);
        }
        else if (channel == kit.Humidity)
        {
            hour.RelHumidityPercent.Add(reading.Value);
        }
        else if (channel == kit.Sun)
        {
            hour.IrradianceWPerM2.Add(Math.Max(0, reading.Value));
        }
        else if (channel == kit.Wind)
        {
            hour.WindMPerS.Add(Math.Max(0, reading.Value));
        }
        else if (channel == kit.WaterTemperature)
        {
            hour.WaterTempC.Add(reading.Value);
        }
        else if (channel == kit.Rain)
        {
            hour.RainMm += _rainMeter!.Take(reading.Time, reading.Value);
            hour.RainSeen = true;
        }
    }

    private bool Doubted(int channel) => _notices.Stands(_doubts[channel].Frozen) || _notices.Stands(_doubts[channel].Jumping);

    /// <summary>The sump's level tells the store only while the pump has long been running and no valve moves it.</summary>
    private bool LevelIsSteady(Instant time) =>
        (!_state.Kit.HasPump || (_state.Pump.IsOn == true && time - _state.Pump.Since > LevelSettling))
        && _state.TopUp.IsOn != true && _state.Bleed.IsOn != true;

    private void PumpIs(Instant time, bool on)
    {
        if (!_state.Pump.Take(time, on) || !_state.Pump.SinceSeen) return;
        if (_state.Cycles.TakeEdge(time, on) is { } cycle) _state.Store.Take(cycle);
    }

    private void MeterTells(double litres, Instant time, int sign)
    {
        if (litres <= 0) return;
        var hour = _state.Hours.At(time);
        if (sign > 0) hour.TopUpL += litres;
        else hour.BleedL += litres;
        _state.Pulses.Add(new WaterPulse(time, Duration.Zero, sign * litres, sign > 0 ? "top-up" : "bleed"));
        // A trickle through a float valve touches every cycle: it is part of how the loop runs.
        if (litres > LeastDisturbing * (_state.Kit.BandL ?? double.PositiveInfinity)) _state.Cycles.Disturb(time);
    }

    private void ValveIs(RunTrace valve, in Reading reading, double? litresPerS, int sign, bool metered)
    {
        int runs = valve.Runs.Count;
        valve.Take(reading.Time, reading.Value >= 0.5);
        if (valve.IsOn == true) _state.Cycles.Disturb(reading.Time);
        if (valve.Runs.Count == runs) return;
        var run = valve.Runs[^1];
        _state.Cycles.Disturb(run.End);
        // What a meter counts is not worked out a second time from the valve's times.
        if (metered) return;
        double litres = (litresPerS ?? 0) * run.Seconds;
        _state.Pulses.Add(new WaterPulse(run.Start, run.End - run.Start, sign * litres, sign > 0 ? "top-up" : "bleed"));
        for (var at = run.Start; at < run.End;)
        {
            var next = Instant.Min(run.End, Ledger.HourBook.Floor(at) + Duration.FromHours(1));
            double part = litres * (next - at).TotalSeconds / run.Seconds;
            var hour = _state.Hours.At(at);
            if (sign > 0) hour.TopUpL += part;
            else hour.BleedL += part;
            at = next;
        }
    }
}
