using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>A pump on level switches, seen by its switch alone: a run, or a fill, that does not end.</summary>
/// <remarks>How long is too long follows the loop: a full one has long runs (run = band / (pump flow - inflow)), a short one long
/// fills, and a lost edge of the log joins two runs and a fill into one. So the limit stands on the longest of the last cycles, on the
/// fill just before, and on water known to have come in or gone out.</remarks>
internal sealed class PumpSwitchWatch : IWatch
{
    public const string Key = "pump";
    private static readonly Duration LeastLimit = Duration.FromMinutes(25);
    private static readonly Duration MostAfterWater = Duration.FromHours(6);

    private readonly SumpLevelHint _level = new();
    private readonly List<(Instant Time, double Seconds)> _longAfterWater = [];
    private int _judged;
    private int _cyclesWhenRaised;

    public void Hear(LoopState state, in Reading reading)
    {
        if (reading.Channel == state.Kit.SumpLevel) _level.Take(reading.Time, reading.Value, state.Cycles.Cycles.Count >= CycleHabit.Least);
    }

    public void Look(LoopState state, NoticeBook notices)
    {
        if (state.Kit.PumpRunning < 0 || state.Kit.PumpPower >= 0) return;
        LearnLongRuns(state, notices);
        if (notices.Stands(Key))
        {
            ClearWhenCyclingAgain(state, notices);
            return;
        }

        var cycles = state.Cycles.Cycles;
        if (state.Pump.IsOn is not { } on || CycleHabit.Of(cycles, cycles.Count, state.Kit.HasSiphon ? 24 : 12) is not { } habit) return;
        bool blind = !state.HasRegularChannel;
        if (state.Working || (state.Silent && !blind)) return;

        var since = Instant.Max(state.Pump.Since, state.ObservedSince);
        var from = Instant.Max(since, state.WorkUntil);
        double lasted = ((blind ? state.Now : state.LastReading) - from).TotalSeconds;
        double limit = (on ? RunLimitS(state, habit, since) : FillLimitS(state, habit, since)) * (blind ? 1.4 : 1);
        if (lasted < limit) return;
        notices.Raise(Key, on ? EndlessRun(state, habit, since, lasted, blind) : EndlessFill(state, habit, since, lasted, blind));
        _cyclesWhenRaised = cycles.Count;
    }

    private double RunLimitS(LoopState state, CycleHabit habit, Instant since)
    {
        double limit = Math.Max(LeastLimit.TotalSeconds, Math.Max(2.5 * habit.LongRunS, 1.2 * ((2 * habit.LongRunS) + habit.LongFillS)));
        var cycles = state.Cycles.Cycles;
        double lastFillS = (since - cycles[^1].RunEnd).TotalSeconds;

        // With inflow near what the pump lifts, no run would end: the fill before it tells.
        if (lastFillS > 0 && 1 / lastFillS > 0.75 * habit.RatePerS) limit *= 2;
        if (!WaterCame(state, since)) return limit;
        double learnt = _longAfterWater.Count == 0 ? 0 : 1.5 * _longAfterWater.Max(r => r.Seconds);
        double opened = 2 * KnownWater.TopUpOpenS(state, since - Duration.FromMinutes(30));
        return Math.Max((1.6 * limit) + opened, Math.Min(learnt, MostAfterWater.TotalSeconds));
    }

    private static double FillLimitS(LoopState state, CycleHabit habit, Instant since)
    {
        double limit = Math.Max(LeastLimit.TotalSeconds, Math.Max(2.5 * habit.LongFillS, 1.2 * ((2 * habit.LongFillS) + habit.LongRunS)));
        double outL = KnownWater.DrawnL(state, since - Duration.FromHours(1))
            + ((state.BleedLPerS ?? 0.2) * KnownWater.BleedOpenS(state, since - Duration.FromMinutes(30)));
        double band = state.Kit.BandL ?? 60;
        return outL <= 0 ? limit : limit + (1.5 * habit.LongFillS * (1 + (outL / band)));
    }

    /// <summary>Rain or a top-up that can have filled the loop.</summary>
    private static bool WaterCame(LoopState state, Instant since) =>
        KnownWater.RainMm(state, since - Duration.FromHours(8)) >= 2
        || KnownWater.TopUpOpenS(state, since - Duration.FromHours(1)) > 0;

    /// <summary>A long run that ended by itself shows how long a well filled loop may take here.</summary>
    private void LearnLongRuns(LoopState state, NoticeBook notices)
    {
        var cycles = state.Cycles.Cycles;
        for (; _judged < cycles.Count; _judged++)
        {
            var cycle = cycles[_judged];
            if (CycleHabit.Of(cycles, _judged, 12) is not { } habit || cycle.RunS < 3 * habit.LongRunS) continue;
            bool bled = KnownWater.BleedOpenS(state, cycle.RunStart) > 0;
            if (!bled && !state.Working && !notices.Stands(Key) && WaterCame(state, cycle.RunStart)) _longAfterWater.Add((cycle.RunEnd, cycle.RunS));
        }

        _longAfterWater.RemoveAll(r => r.Time < state.Now - Duration.FromDays(20));
    }

    private void ClearWhenCyclingAgain(LoopState state, NoticeBook notices)
    {
        var cycles = state.Cycles.Cycles;

        // The long stretch itself ends one cycle; two more of ordinary length show that the pump lifts again.
        if (cycles.Count < _cyclesWhenRaised + 3 || CycleHabit.Of(cycles, _cyclesWhenRaised, 50) is not { } habit) return;
        for (int i = cycles.Count - 2; i < cycles.Count; i++)
        {
            if (cycles[i].RunS > 4 * habit.LongRunS || cycles[i].RunS < 0.2 * habit.RunS) return;
        }

        notices.Clear(Key, state.Now);
    }

    private Notice EndlessRun(LoopState state, CycleHabit habit, Instant since, double lasted, bool blind)
    {
        double rainMm = KnownWater.RainMm(state, since - Duration.FromHours(8));
        bool toppedUp = KnownWater.TopUpOpenS(state, since - Duration.FromHours(1)) > 0;
        bool open = state.TopUp.IsOn == true;
        double stopped = 0.46, dry = 0.14, stuck = 0.14, topUp = open ? 0.3 : toppedUp ? 0.16 : 0.06, overfull = 0.1;
        if (rainMm >= 2) overfull += 0.25;
        if (toppedUp) overfull += 0.15;
        var cycles = state.Cycles.Cycles;
        double lastFillS = (since - cycles[^1].RunEnd).TotalSeconds;
        if (lastFillS > 0 && 1 / lastFillS > 0.6 * habit.RatePerS) overfull += 0.3;
        if (state.Kit.PumpSensed) (stopped, dry, stuck) = (0.02, 0.4, 0.3);
        string level = "";
        if (_level.Place() is { } place)
        {
            if (place < 0.02) (stopped, dry, overfull, stuck, level) = (0.02, 0.1, 0.01, 0.8, " The sump stands below its usual lowest level.");
            else if (place > 1.05) (stuck, level) = (0.01, " The sump stands above its usual highest level.");
        }

        string water = (rainMm >= 0.2, toppedUp) switch
        {
            (true, true) => Wording.Text($"{rainMm:0.#} mm of rain and a top-up came before it."),
            (true, false) => Wording.Text($"{rainMm:0.#} mm of rain came before it."),
            (false, true) => "A top-up came before it.",
            _ => "No rain and no top-up explains it.",
        };
        bool full = overfull > stopped;
        return new Notice
        {
            Causes = CauseSet.Of(
                (CauseNames.PumpStopped, stopped), (CauseNames.PumpDry, dry), (CauseNames.PumpStuckOn, stuck),
                (CauseNames.TopUpStuckOpen, topUp), (CauseNames.Overfull, overfull), (CauseNames.SensorSilent, blind ? 0.15 : 0)),
            Urgency = Urgency.ActNow,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = Wording.Text($"The pump has been switched on for {Wording.Span(lasted)}; its last runs took {Wording.Span(habit.RunS)} to {Wording.Span(habit.LongRunS)}.")
                + " " + water + level + (blind ? " Or the log has stopped: no other channel tells." : ""),
            FirstAct = full
                ? "Look whether the sump is brim-full and water runs from the pump's outlet: then let water out until the pump stops by itself. No water from the outlet: the pump stands; see that the air runs."
                : "Look whether water runs from the pump's outlet. If not, see that the air runs, then switch the pump off at the wall before you reach into the sump, and look at its inlet, its plug and its switch.",
        };
    }

    private static Notice EndlessFill(LoopState state, CycleHabit habit, Instant since, double lasted, bool blind)
    {
        bool bleed = KnownWater.BleedOpenS(state, since - Duration.FromMinutes(30)) > 0;
        return new Notice
        {
            Causes = CauseSet.Of(
                (CauseNames.PumpStopped, 0.6), (CauseNames.Leak, 0.14), (CauseNames.TankOverflow, 0.1), (CauseNames.DrainFouling, 0.1),
                (CauseNames.BleedStuckOpen, bleed ? 0.3 : 0), (CauseNames.SensorSilent, blind ? 0.2 : 0)),
            Urgency = Urgency.ActNow,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = Wording.Text($"The pump has not started for {Wording.Span(lasted)}; its last fills took {Wording.Span(habit.FillS)} to {Wording.Span(habit.LongFillS)}.")
                + (bleed ? " The bleed was open shortly before or during it." : " The log goes on."),
            FirstAct = "Look into the sump. Full: the pump has no power or its switch hangs; see that the air runs, then switch the pump off at the wall before you reach in. Low: look for water on the ground and for a tank or trough that does not drain.",
        };
    }
}
