using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>A pump on level switches whose power or current is measured: stopped, dry and stuck on are told apart.</summary>
/// <remarks>A centrifugal pump without water draws well below its duty power, a standing motor nothing, a blocked rotor more.</remarks>
internal sealed class PumpPowerWatch : IWatch
{
    private const double Nothing = 0.15;
    private const double Dry = 0.78;
    private const double Blocked = 1.35;
    private static readonly Duration Settled = Duration.FromMinutes(10);

    private readonly PowerHabit _power = new();
    private Instant _runSince;
    private bool? _ordered;
    private Instant _orderedSince;
    private Instant? _lowSince;
    private int _cyclesWhenRaised;

    public void Hear(LoopState state, in Reading reading)
    {
        if (reading.Channel == state.Kit.PumpPower)
        {
            if (state.Pump.IsOn == true && state.Pump.Since != _runSince) _runSince = state.Pump.Since;
            _power.Take(reading.Time, reading.Value, state.Pump.IsOn, state.Pump.Since);
        }
        else if (reading.Channel == state.Kit.PumpRunning)
        {
            bool on = reading.Value >= 0.5;
            if (_ordered != on) _orderedSince = reading.Time;
            _ordered = on;
        }
    }

    public void Look(LoopState state, NoticeBook notices)
    {
        if (state.Kit.PumpPower < 0 || state.Kit.BandL is null) return;
        if (state.Pump.IsOn == false && _runSince != default)
        {
            _power.LearnEqual();
            _power.EndRun(!notices.Stands(PumpSwitchWatch.Key));
            _runSince = default;
        }

        var cycles = state.Cycles.Cycles;
        if (notices.Stands(PumpSwitchWatch.Key))
        {
            if (_lowSince is not null || !CyclesAgain(cycles)) notices.GoesOn(PumpSwitchWatch.Key);
            else if (notices.MayEnd(PumpSwitchWatch.Key, state.Now)) notices.ClearAndRelease(state, PumpSwitchWatch.Key);
        }

        if (_power.Usual is not { } usual || CycleHabit.Of(cycles, cycles.Count, 12) is not { } habit) return;
        var trace = state.Channels[state.Kit.PumpPower];

        // A channel that speaks at intervals and has fallen silent says nothing of the pump.
        var seen = trace.Regular ? trace.LastTime : state.LastReading;
        double share = _power.Now(seen) / usual;
        bool low = share is > Nothing and < Dry && _power.IsSteady(seen);
        _lowSince = low ? _lowSince ?? state.Now : null;
        if (notices.Stands(PumpSwitchWatch.Key) || state.Working || state.Silent || state.Pump.IsOn is not { } on) return;

        var since = Instant.Max(state.Pump.Since, state.ObservedSince);
        double lasted = (seen - Instant.Max(since, state.WorkUntil)).TotalSeconds;
        if (notices.Stands(ShortCyclingWatch.Key)) lasted /= 3;
        var notice = on ? Running(state, habit, usual, share, since, lasted) : Resting(state, habit, usual, share, since, lasted, notices);
        if (notice is null) return;
        notices.RaiseAndHold(state, PumpSwitchWatch.Key, notice);
        _cyclesWhenRaised = cycles.Count;
    }

    /// <summary>Two cycles whose fill and run fit the band: the flicker of a pump that draws air does not.</summary>
    private bool CyclesAgain(IReadOnlyList<Cycles.Cycle> cycles)
    {
        if (cycles.Count < _cyclesWhenRaised + 3 || CycleHabit.Of(cycles, _cyclesWhenRaised, 50) is not { } habit) return false;
        for (int i = cycles.Count - 2; i < cycles.Count; i++)
        {
            double rate = ((1 / cycles[i].FillS) + (1 / cycles[i].RunS)) / habit.RatePerS;
            if (rate is < 0.6 or > 1.6) return false;
        }

        return true;
    }

    private Notice? Running(LoopState state, CycleHabit habit, double usual, double share, Instant since, double lasted)
    {
        if (_power.LooksFrozen) return null;
        string power = Figures.Text($"It draws {100 * share:0} % of its usual power.");
        string run = Figures.Text($"The pump has been on for {Figures.Span(lasted)}; its last runs took {Figures.Range(habit.RunS, habit.LongRunS)}.");
        double soon = Math.Max(1.3 * habit.LongRunS, 1200);
        if (share < Dry && share > Nothing && lasted > soon && _lowSince is { } low && state.Now - low >= Settled)
        {
            bool beganWell = _power.AtStart > 0.85 * usual && (low - since).TotalSeconds > 0.5 * habit.RunS;
            return Make(state, since, $"{run} {power}" + (beganWell ? " The run began at its usual power." : ""), DryAct,
                (CauseNames.PumpDry, beganWell ? 0.35 : 0.85), (CauseNames.PumpStuckOn, beganWell ? 0.6 : 0.08), (CauseNames.PumpStopped, 0.05));
        }

        if (share > Blocked && lasted > soon)
        {
            return Make(state, since, $"{run} {power} A blocked rotor draws more.", StoppedAct,
                (CauseNames.PumpStopped, 0.75), (CauseNames.PumpStuckOn, 0.15), (CauseNames.Overfull, 0.05));
        }

        double rainMm = KnownWater.RainMm(state, since - Duration.FromHours(8));
        bool topped = KnownWater.TopUpOpenS(state, since - Duration.FromHours(1)) > 0;
        double limit = Math.Max(1500, 2.3 * habit.LongRunS) * (rainMm >= 2 || topped ? 1.8 : 1);
        double lastFillS = (since - state.Cycles.Cycles[^1].RunEnd).TotalSeconds;
        bool full = lastFillS > 0 && 1 / lastFillS > 0.7 * habit.RatePerS;
        if (lasted < limit * (full ? 2 : 1)) return null;
        return Make(state, since, $"{run} {power}", StuckAct,
            (CauseNames.PumpStuckOn, 0.5), (CauseNames.Overfull, full || rainMm >= 2 || topped ? 0.6 : 0.25),
            (CauseNames.TopUpStuckOpen, state.TopUp.IsOn == true ? 0.4 : topped ? 0.2 : 0.08), (CauseNames.PumpDry, 0.08));
    }

    private Notice? Resting(LoopState state, CycleHabit habit, double usual, double share, Instant since, double lasted, NoticeBook notices)
    {
        if (_ordered == true && (state.LastReading - _orderedSince).TotalSeconds > 400 && share < Nothing)
        {
            return Make(state, _orderedSince, Figures.Text($"The pump has been switched on for {Figures.Span(state.Now - _orderedSince)} and draws {100 * share:0} % of its usual power."),
                StoppedAct, (CauseNames.PumpStopped, 0.95));
        }

        if (share is > Nothing and < Dry && _lowSince is { } low && state.Now - low >= Duration.FromMinutes(20))
        {
            return Make(state, since, Figures.Text($"For {Figures.Span(state.Now - low)} the pump has drawn {100 * share:0} % of its usual power, neither its rest nor its run."),
                DryAct, (CauseNames.PumpDry, 0.7), (CauseNames.PumpStopped, 0.25));
        }

        double bleedS = KnownWater.BleedOpenS(state, since - Duration.FromHours(1));
        double drawnL = KnownWater.DrawnL(state, since - Duration.FromHours(2));
        double limit = Math.Max(1500, 1.9 * habit.LongFillS);
        if (bleedS > 0 || drawnL > 0)
        {
            double outL = ((state.BleedLPerS ?? 0.2) * bleedS) + drawnL;
            limit += 1.5 * habit.LongFillS * outL / (state.Kit.BandL ?? 100);
        }

        if (lasted < limit) return null;
        var before = CycleHabit.Of(state.Cycles.Cycles, Math.Max(CycleHabit.Least, state.Cycles.Cycles.Count - 12), 100)!;
        var notice = PumpSwitchNotices.EndlessFill(state, notices, habit, before, since, lasted, urgent: true, blind: false);
        string unit = state.Place.Channels[state.Kit.PumpPower].Measures == Quantity.Current ? "A" : "W";
        return notice with { Evidence = notice.Evidence + Figures.Text($" It draws {Math.Max(0, share * usual):0.#} {unit} where a run draws {usual:0.#} {unit}.") };
    }

    private const string StoppedAct = "See that the air runs. Look into the sump: full means that the pump stands; look at its plug, breaker and switch. Switch it off at the wall before you reach in. Low: look for water on the ground or held up in a tank.";
    private const string DryAct = "Switch the pump off at the wall; it turns without water. Look at its inlet and strainer and at the sump's level, then let the air out of it.";
    private const string StuckAct = "Look into the sump. Low: the switch hangs; switch the pump off at the wall before you free it. Brim-full: let water out, and see that the top-up is shut.";

    private static Notice Make(LoopState state, Instant since, string evidence, string act, params ReadOnlySpan<(string, double)> causes) => new()
    {
        Causes = CauseSet.Of(causes),
        Urgency = Urgency.ActNow,
        Since = since,
        FirstNoticed = state.Now,
        Evidence = evidence,
        FirstAct = act,
    };
}
