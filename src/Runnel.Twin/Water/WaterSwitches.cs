using Runnel.Twin.Solving;

namespace Runnel.Twin.Water;

/// <summary>What acts at a level.</summary>
internal enum SwitchKind
{
    PumpStarts,
    PumpStops,
    LineFull,
    SiphonTrips,
    SiphonBreaks,
    RimReached,
    RimLeft,
    ValveOpens,
    ValveShuts,
}

/// <summary>Something happened.</summary>
/// <param name="TimeS">When, s from the beginning.</param>
/// <param name="Kind">What.</param>
/// <param name="Index">Of which vessel, pump or valve.</param>
internal readonly record struct SwitchEvent(double TimeS, SwitchKind Kind, int Index);

/// <summary>The switches, siphons and valves of a loop: at which levels they act, and how they stand.</summary>
internal sealed class WaterSwitches
{
    private readonly WaterLoop loop;
    private readonly WaterLoop.Vessel[] vessels;
    private readonly WaterLoop.Pump[] pumps;
    private readonly WaterLoop.Valve[] valves;
    private readonly List<(SwitchKind Kind, int Index)> acts = [];
    private readonly bool[] runs, lineFull, siphons, open;
    private readonly double[] nextS; // timers: when they act next

    public WaterSwitches(WaterLoop loop, WaterLoop.Vessel[] vessels, WaterLoop.Pump[] pumps, WaterLoop.Valve[] valves)
    {
        (this.loop, this.vessels, this.pumps, this.valves) = (loop, vessels, pumps, valves);
        runs = new bool[pumps.Length];
        lineFull = new bool[pumps.Length];
        siphons = new bool[vessels.Length];
        open = new bool[valves.Length];
        nextS = [.. valves.Select(v => v.EveryS)];
        acts.AddRange(Acts(vessels, pumps, valves));
    }

    /// <summary>Told of everything that happened; may be null.</summary>
    public Action<SwitchEvent>? Told { get; set; }

    /// <summary>Pumps that stand whatever their switch says: broken, or without power.</summary>
    public bool PumpsAreDead { get; private set; }

    public static int Count(WaterLoop.Vessel[] vessels, WaterLoop.Pump[] pumps, WaterLoop.Valve[] valves) => Acts(vessels, pumps, valves).Count();

    public bool Runs(int pump) => runs[pump];

    public bool LineIsFull(int pump) => lineFull[pump];

    public bool Siphons(int vessel) => siphons[vessel];

    public bool IsOpen(int valve) => open[valve];

    /// <summary>Sets all as the levels say.</summary>
    public void Begin(Span<double> state)
    {
        for (int i = 0; i < pumps.Length; i++)
        {
            double level = loop.LevelM(pumps[i].From, state);
            runs[i] = !pumps[i].IsSwitched || level >= pumps[i].OnM;
            // A line that holds next to nothing is always full; so is one behind a check valve.
            lineFull[i] = pumps[i].Law.LineM3 <= 1e-6;
            if (!lineFull[i] && pumps[i].HasCheckValve)
            {
                lineFull[i] = true;
                state[loop.FirstLine + i] = pumps[i].Law.LineM3;
            }
        }

        for (int i = 0; i < vessels.Length; i++) siphons[i] = vessels[i].IsSiphon && loop.LevelM(i, state) >= vessels[i].TripM;
        for (int i = 0; i < valves.Length; i++)
        {
            double level = loop.LevelM(valves[i].Of, state);
            open[i] = valves[i].EveryS == 0 && (Fills(i) ? level <= valves[i].OpensM : level >= valves[i].OpensM);
        }
    }

    /// <summary>All pumps stand from now on.</summary>
    public void StopPumps()
    {
        PumpsAreDead = true;
        for (int i = 0; i < pumps.Length; i++) Stop(i);
    }

    public void Values(double time, ReadOnlySpan<double> state, Span<double> values)
    {
        for (int e = 0; e < values.Length; e++)
        {
            var (kind, i) = acts[e];
            values[e] = kind switch
            {
                SwitchKind.PumpStarts => loop.LevelM(pumps[i].From, state) - pumps[i].OnM,
                SwitchKind.PumpStops => loop.LevelM(pumps[i].From, state) - pumps[i].OffM,
                // Held a little short of the brim, so that rounding cannot hold it there for ever.
                SwitchKind.LineFull => (state[loop.FirstLine + i] / pumps[i].Law.LineM3) - 0.999,
                SwitchKind.SiphonTrips => loop.LevelM(i, state) - vessels[i].TripM,
                SwitchKind.SiphonBreaks => loop.LevelM(i, state) - vessels[i].BreakM,
                SwitchKind.RimReached or SwitchKind.RimLeft => loop.LevelM(i, state) - vessels[i].RimM - (kind == SwitchKind.RimReached ? 0.0005 : 0.0001),
                SwitchKind.ValveOpens or SwitchKind.ValveShuts when valves[i].EveryS > 0 => (kind == SwitchKind.ValveShuts) == open[i] ? time - nextS[i] : -1,
                SwitchKind.ValveOpens => loop.LevelM(valves[i].Of, state) - valves[i].OpensM,
                _ => loop.LevelM(valves[i].Of, state) - valves[i].ShutsM,
            };
        }
    }

    public EventDirection DirectionOf(int e) => acts[e].Kind switch
    {
        SwitchKind.PumpStops or SwitchKind.SiphonBreaks or SwitchKind.RimLeft => EventDirection.Falling,
        SwitchKind.ValveOpens or SwitchKind.ValveShuts when valves[acts[e].Index].EveryS > 0 => EventDirection.Rising,
        SwitchKind.ValveOpens => Fills(acts[e].Index) ? EventDirection.Falling : EventDirection.Rising,
        SwitchKind.ValveShuts => Fills(acts[e].Index) ? EventDirection.Rising : EventDirection.Falling,
        _ => EventDirection.Rising,
    };

    public EventOutcome Act(double time, ReadOnlySpan<int> events)
    {
        bool changed = false;
        foreach (int e in events)
        {
            var (kind, i) = acts[e];
            if (!Change(kind, i, out bool law)) continue;
            changed |= law;
            Told?.Invoke(new(time, kind, i));
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

            if (pumps[i].Law.LineM3 > 1e-6 && !pumps[i].HasCheckValve) yield return (SwitchKind.LineFull, i);
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

    private bool Fills(int valve) => valves[valve].ShutsM > valves[valve].OpensM;

    // Whether it was news, and whether the flows follow another law from here on.
    private bool Change(SwitchKind kind, int i, out bool law)
    {
        law = true;
        switch (kind)
        {
            case SwitchKind.PumpStarts when !runs[i] && !PumpsAreDead:
                runs[i] = true;
                return true;
            case SwitchKind.PumpStops when runs[i]:
                Stop(i);
                return true;
            case SwitchKind.LineFull when runs[i] && !lineFull[i]:
                return lineFull[i] = true;
            case SwitchKind.SiphonTrips when !siphons[i]:
                return siphons[i] = true;
            case SwitchKind.SiphonBreaks when siphons[i]:
                siphons[i] = false;
                return true;
            case SwitchKind.ValveOpens when !open[i]:
                nextS[i] += valves[i].RunS;
                return open[i] = true;
            case SwitchKind.ValveShuts when open[i]:
                open[i] = false;
                nextS[i] += valves[i].EveryS - valves[i].RunS;
                return true;
            case SwitchKind.RimReached or SwitchKind.RimLeft:
                law = false;
                return true;
            default:
                law = false;
                return false;
        }
    }

    private void Stop(int pump)
    {
        runs[pump] = false;
        if (!pumps[pump].HasCheckValve && pumps[pump].Law.LineM3 > 1e-6) lineFull[pump] = false;
    }
}
