using Runnel.Twin.Solving;

namespace Runnel.Twin.Water;

/// <summary>What acts at a level.</summary>
internal enum SwitchKind
{
    /// <summary>A pump's switch goes on; whether the pump turns is told by <see cref="PumpTurns"/>.</summary>
    PumpStarts,
    PumpStops,
    LineFull,
    SiphonTrips,
    SiphonBreaks,
    RimReached,
    RimLeft,
    ValveOpens,
    ValveShuts,

    /// <summary>A pump begins to turn; not an event of its own, but told.</summary>
    PumpTurns,
    PumpStands,
}

/// <summary>Something happened.</summary>
/// <param name="TimeS">When, s from the beginning.</param>
/// <param name="Kind">What.</param>
/// <param name="Index">Of which vessel, pump or valve.</param>
internal readonly record struct SwitchEvent(double TimeS, SwitchKind Kind, int Index);

/// <summary>The switches, siphons and valves of a loop: at which levels they act, and how they stand.</summary>
internal sealed class WaterSwitches
{
    private const double LeastLineM3 = 1e-6;

    // A timer acts a microsecond late, so that a change from outside at the very time cannot hide it.
    private const double LateS = 1e-6;

    private readonly WaterLoop _loop;
    private readonly WaterLoop.Vessel[] _vessels;
    private readonly WaterLoop.Pump[] _pumps;
    private readonly WaterLoop.Valve[] _valves;
    private readonly List<(SwitchKind Kind, int Index)> _acts = [];
    private readonly bool[] _on, _turns, _lineFull, _siphons, _open, _ordered, _stuckOpen;
    private readonly double[] _nextS; // timers and rules: when they act next

    public WaterSwitches(WaterLoop loop, WaterLoop.Vessel[] vessels, WaterLoop.Pump[] pumps, WaterLoop.Valve[] valves)
    {
        (_loop, _vessels, _pumps, _valves) = (loop, vessels, pumps, valves);
        _on = new bool[pumps.Length];
        _turns = new bool[pumps.Length];
        _lineFull = new bool[pumps.Length];
        _siphons = new bool[vessels.Length];
        _open = new bool[valves.Length];
        _ordered = new bool[valves.Length];
        _stuckOpen = new bool[valves.Length];
        _nextS = [.. valves.Select(v => v.FillOf >= 0 ? double.PositiveInfinity : v.EveryS)];
        _acts.AddRange(Acts(vessels, pumps, valves));
    }

    /// <summary>Told of everything that happened; may be null.</summary>
    public Action<SwitchEvent>? Told { get; set; }

    /// <summary>Pumps that stand whatever their switch says: broken, or without power.</summary>
    public bool PumpsAreDead { get; private set; }

    public static int Count(WaterLoop.Vessel[] vessels, WaterLoop.Pump[] pumps, WaterLoop.Valve[] valves) => Acts(vessels, pumps, valves).Count();

    /// <summary>Whether a pump's switch calls for it.</summary>
    public bool IsOn(int pump) => _on[pump];

    /// <summary>Whether a pump turns.</summary>
    public bool Turns(int pump) => _turns[pump];

    public bool LineIsFull(int pump) => _lineFull[pump];

    public bool Siphons(int vessel) => _siphons[vessel];

    /// <summary>Whether a valve is called open.</summary>
    public bool IsOpen(int valve) => _open[valve] || _ordered[valve];

    /// <summary>Whether a valve stands open.</summary>
    public bool Passes(int valve) =>
        !_loop.Condition.Valves[valve].SticksShut && (_stuckOpen[valve] || (IsOpen(valve) && _loop.Condition.Valves[valve].HasPower));

    /// <summary>Sets all as the levels say.</summary>
    public void Begin(Span<double> state)
    {
        for (int i = 0; i < _pumps.Length; i++)
        {
            double level = _loop.LevelM(_pumps[i].From, state);
            _on[i] = !_pumps[i].IsSwitched || level >= _pumps[i].OnM;
            _turns[i] = _on[i] && _loop.Condition.Pumps[i].MayTurn;
            // A line that holds next to nothing is always full; so is one behind a check valve.
            _lineFull[i] = _pumps[i].Law.LineM3 <= LeastLineM3 || (_turns[i] && state[_loop.FirstLine + i] >= 0.999 * _pumps[i].Law.LineM3);
            if (!_lineFull[i] && _pumps[i].HasCheckValve)
            {
                _lineFull[i] = true;
                state[_loop.FirstLine + i] = _pumps[i].Law.LineM3;
            }
        }

        for (int i = 0; i < _vessels.Length; i++) _siphons[i] = _vessels[i].IsSiphon && _loop.LevelM(i, state) >= _vessels[i].TripM;
        for (int i = 0; i < _valves.Length; i++)
        {
            double level = _loop.LevelM(_valves[i].Of, state);
            _open[i] = ByLevel(i) && (Fills(i) ? level <= _valves[i].OpensM : level >= _valves[i].OpensM);
        }
    }

    /// <summary>Looks at all switches anew after the loop's condition changed from outside. The solver must then be told of a change.</summary>
    public void Reconsider(double time, ReadOnlySpan<double> state)
    {
        for (int i = 0; i < _pumps.Length; i++)
        {
            var now = _loop.Condition.Pumps[i];
            double level = _loop.LevelM(_pumps[i].From, state);
            bool on = now.Switch switch
            {
                SwitchHold.On => true,
                SwitchHold.Off => false,
                _ when !_pumps[i].IsSwitched => true,
                _ => level >= OnM(i, time) || (_on[i] && level > OffM(i, time)),
            };
            if (on != _on[i]) SetOn(i, on, time);
            Settle(i, time, state);
        }

        for (int i = 0; i < _vessels.Length; i++)
        {
            if (!_vessels[i].IsSiphon) continue;
            double level = _loop.LevelM(i, state);
            var hold = _loop.Condition.Vessels[i].Siphon;
            _siphons[i] = hold != SiphonHold.NeverTrips && (level >= _vessels[i].TripM || (_siphons[i] && (level > _vessels[i].BreakM || hold == SiphonHold.NeverBreaks)));
        }

        for (int i = 0; i < _valves.Length; i++) _stuckOpen[i] = _loop.Condition.Valves[i].SticksOpen && (_stuckOpen[i] || IsOpen(i));
    }

    /// <summary>Opens or shuts a valve by hand or by an order from outside, whatever its own rule says.</summary>
    public void Order(int valve, bool open, double time)
    {
        bool was = IsOpen(valve);
        _ordered[valve] = open;
        if (!open) _open[valve] = false;
        _stuckOpen[valve] |= open && _loop.Condition.Valves[valve].SticksOpen;
        if (was != IsOpen(valve)) Told?.Invoke(new(time, open ? SwitchKind.ValveOpens : SwitchKind.ValveShuts, valve));
    }

    /// <summary>All pumps stand from now on.</summary>
    public void StopPumps(double time, ReadOnlySpan<double> state)
    {
        PumpsAreDead = true;
        for (int i = 0; i < _pumps.Length; i++)
        {
            _loop.Condition.Pumps[i].HasPower = false;
            Settle(i, time, state);
        }
    }

    public void Values(double time, ReadOnlySpan<double> state, Span<double> values)
    {
        for (int e = 0; e < values.Length; e++)
        {
            var (kind, i) = _acts[e];
            values[e] = kind switch
            {
                SwitchKind.PumpStarts => _loop.LevelM(_pumps[i].From, state) - OnM(i, time),
                SwitchKind.PumpStops => _loop.LevelM(_pumps[i].From, state) - OffM(i, time),
                // Held a little short of the brim, so that rounding cannot hold it there for ever.
                SwitchKind.LineFull => (state[_loop.FirstLine + i] / _pumps[i].Law.LineM3) - 0.999,
                SwitchKind.SiphonTrips => _loop.LevelM(i, state) - _vessels[i].TripM,
                SwitchKind.SiphonBreaks => _loop.LevelM(i, state) - _vessels[i].BreakM,
                SwitchKind.RimReached or SwitchKind.RimLeft => _loop.LevelM(i, state) - _vessels[i].RimM - (kind == SwitchKind.RimReached ? 0.0005 : 0.0001),
                SwitchKind.ValveOpens or SwitchKind.ValveShuts when !ByLevel(i) =>
                    (kind == SwitchKind.ValveShuts) == _open[i] && double.IsFinite(_nextS[i]) ? time - _nextS[i] - LateS : -1,
                SwitchKind.ValveOpens => _loop.LevelM(_valves[i].Of, state) - _valves[i].OpensM,
                _ => _loop.LevelM(_valves[i].Of, state) - _valves[i].ShutsM,
            };
        }
    }

    public EventDirection DirectionOf(int e) => _acts[e].Kind switch
    {
        SwitchKind.PumpStops or SwitchKind.SiphonBreaks or SwitchKind.RimLeft => EventDirection.Falling,
        SwitchKind.ValveOpens or SwitchKind.ValveShuts when !ByLevel(_acts[e].Index) => EventDirection.Rising,
        SwitchKind.ValveOpens => Fills(_acts[e].Index) ? EventDirection.Falling : EventDirection.Rising,
        SwitchKind.ValveShuts => Fills(_acts[e].Index) ? EventDirection.Rising : EventDirection.Falling,
        _ => EventDirection.Rising,
    };

    public EventOutcome Act(double time, ReadOnlySpan<double> state, ReadOnlySpan<int> events)
    {
        bool changed = false;
        foreach (int e in events)
        {
            var (kind, i) = _acts[e];
            if (!Change(kind, i, time, state, out bool law)) continue;
            changed |= law;
            if (kind is not (SwitchKind.PumpStarts or SwitchKind.PumpStops)) Told?.Invoke(new(time, kind, i));
        }

        return changed ? EventOutcome.Changed : EventOutcome.Continue;
    }

    private static IEnumerable<(SwitchKind Kind, int Index)> Acts(WaterLoop.Vessel[] vessels, WaterLoop.Pump[] pumps, WaterLoop.Valve[] valves)
    {
        for (int i = 0; i < pumps.Length; i++)
        {
            if (pumps[i].IsSwitched)
            {
                yield return (SwitchKind.PumpStops, i);
                yield return (SwitchKind.PumpStarts, i);
            }

            if (pumps[i].Law.LineM3 > LeastLineM3) yield return (SwitchKind.LineFull, i);
        }

        for (int i = 0; i < vessels.Length; i++)
        {
            if (vessels[i].IsSiphon)
            {
                yield return (SwitchKind.SiphonTrips, i);
                yield return (SwitchKind.SiphonBreaks, i);
            }

            if (!double.IsFinite(vessels[i].RimM)) continue;
            yield return (SwitchKind.RimReached, i);
            yield return (SwitchKind.RimLeft, i);
        }

        for (int i = 0; i < valves.Length; i++)
        {
            yield return (SwitchKind.ValveOpens, i);
            yield return (SwitchKind.ValveShuts, i);
        }
    }

    private bool Fills(int valve) => _valves[valve].ShutsM > _valves[valve].OpensM;

    private bool ByLevel(int valve) => _valves[valve].EveryS == 0 && _valves[valve].FillOf < 0;

    private double OnM(int pump, double time)
    {
        var now = _loop.Condition.Pumps[pump];
        return _pumps[pump].OnM + now.OnShiftM.At(time) + now.OnJitterM;
    }

    private double OffM(int pump, double time)
    {
        var now = _loop.Condition.Pumps[pump];
        return _pumps[pump].OffM + now.OffShiftM.At(time) + now.OffJitterM;
    }

    // Whether it was news, and whether the flows follow another law from here on.
    private bool Change(SwitchKind kind, int i, double time, ReadOnlySpan<double> state, out bool law)
    {
        law = true;
        switch (kind)
        {
            case SwitchKind.PumpStarts when !_on[i] && _loop.Condition.Pumps[i].Switch == SwitchHold.Free:
            case SwitchKind.PumpStops when _on[i] && _loop.Condition.Pumps[i].Switch == SwitchHold.Free:
                SetOn(i, kind == SwitchKind.PumpStarts, time);
                Settle(i, time, state);
                return true;
            case SwitchKind.LineFull when _turns[i] && !_lineFull[i]:
                return _lineFull[i] = true;
            case SwitchKind.SiphonTrips when !_siphons[i] && _loop.Condition.Vessels[i].Siphon != SiphonHold.NeverTrips:
                return _siphons[i] = true;
            case SwitchKind.SiphonBreaks when _siphons[i] && _loop.Condition.Vessels[i].Siphon != SiphonHold.NeverBreaks:
                _siphons[i] = false;
                return true;
            case SwitchKind.ValveOpens when !_open[i]:
                _nextS[i] += _valves[i].RunS;
                _stuckOpen[i] |= _loop.Condition.Valves[i].SticksOpen;
                return _open[i] = true;
            case SwitchKind.ValveShuts when _open[i]:
                _open[i] = false;
                // By its rule a valve opens again when the fill has gone on for as long once more.
                _nextS[i] = _valves[i].FillOf is >= 0 and var pump ? (_on[pump] ? double.PositiveInfinity : time + _valves[i].AfterFillS)
                    : _nextS[i] + _valves[i].EveryS - _valves[i].RunS;
                return true;
            case SwitchKind.RimReached or SwitchKind.RimLeft:
                law = false;
                return true;
            default:
                law = false;
                return false;
        }
    }

    private void SetOn(int pump, bool on, double time)
    {
        _on[pump] = on;
        Told?.Invoke(new(time, on ? SwitchKind.PumpStarts : SwitchKind.PumpStops, pump));
        for (int i = 0; i < _valves.Length; i++)
        {
            if (_valves[i].FillOf == pump && !_open[i]) _nextS[i] = on ? double.PositiveInfinity : time + _valves[i].AfterFillS;
        }
    }

    // Whether a pump turns follows from its switch and from what ails it.
    private void Settle(int pump, double time, ReadOnlySpan<double> state)
    {
        bool turns = _on[pump] && _loop.Condition.Pumps[pump].MayTurn;
        if (turns == _turns[pump]) return;
        _turns[pump] = turns;
        bool keeps = _pumps[pump].HasCheckValve && _loop.Condition.Pumps[pump].CheckLeak == 0;
        double line = _pumps[pump].Law.LineM3;
        if (line > LeastLineM3 && (turns || !keeps)) _lineFull[pump] = turns && state[_loop.FirstLine + pump] >= 0.999 * line;
        Told?.Invoke(new(time, turns ? SwitchKind.PumpTurns : SwitchKind.PumpStands, pump));
    }
}
