using NodaTime;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>What is said of a pump's run or fill that does not end, where its switch alone is seen: the causes that remain, ranked by
/// what else the log shows.</summary>
internal static class PumpSwitchNotices
{
    public static Notice EndlessRun(LoopState state, CycleHabit habit, Instant since, double lasted, double? sumpPlace, bool blind)
    {
        double rainMm = KnownWater.RainMm(state, since - Duration.FromHours(8));
        bool toppedUp = KnownWater.TopUpOpenS(state, since - Duration.FromHours(1)) > 0;
        bool open = state.TopUp.IsOn == true;
        double stopped = 0.46, dry = 0.14, stuck = 0.14, topUp = open ? 0.3 : toppedUp ? 0.16 : 0.06, overfull = 0.1;
        if (rainMm >= 2) overfull += 0.25;
        if (toppedUp) overfull += 0.15;
        double lastFillS = (since - state.Cycles.Cycles[^1].RunEnd).TotalSeconds;
        if (lastFillS > 0 && 1 / lastFillS > 0.6 * habit.RatePerS) overfull += 0.3;
        if (state.Kit.PumpSensed) (stopped, dry, stuck) = (0.02, 0.4, 0.3);
        string level = "";
        if (sumpPlace < 0.02) (stopped, dry, overfull, stuck, level) = (0.02, 0.1, 0.01, 0.8, " The sump stands below its usual lowest level.");
        else if (sumpPlace > 1.05) (stuck, level) = (0.01, " The sump stands above its usual highest level.");
        string water = (rainMm >= 0.2, toppedUp) switch
        {
            (true, true) => Figures.Text($"{rainMm:0.#} mm of rain and a top-up came before it."),
            (true, false) => Figures.Text($"{rainMm:0.#} mm of rain came before it."),
            (false, true) => "A top-up came before it.",
            _ => "No rain and no top-up explains it.",
        };
        return new Notice
        {
            Causes = CauseSet.Of(
                (CauseNames.PumpStopped, stopped), (CauseNames.PumpDry, dry), (CauseNames.PumpStuckOn, stuck),
                (CauseNames.TopUpStuckOpen, topUp), (CauseNames.Overfull, overfull), (CauseNames.SensorSilent, blind ? 0.15 : 0)),
            Urgency = Urgency.ActNow,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = Figures.Text($"The pump has been switched on for {Figures.Span(lasted)}; its last runs took {Figures.Range(habit.RunS, habit.LongRunS)}.")
                + " " + water + level + (blind ? " Or the log has stopped: no other channel tells." : ""),
            FirstAct = overfull > stopped
                ? "Look whether the sump is brim-full and water runs from the pump's outlet: then let water out until the pump stops by itself. No water from the outlet: the pump stands; see that the air runs."
                : "Look whether water runs from the pump's outlet. If not, see that the air runs, then switch the pump off at the wall before you reach into the sump, and look at its inlet, its plug and its switch.",
        };
    }

    /// <summary>At first a question of time: a bed watered from the sump, or a separator emptied, delays a fill too.</summary>
    public static Notice EndlessFill(
        LoopState state, NoticeBook notices, CycleHabit habit, CycleHabit before, Instant since, double lasted, bool urgent, bool blind)
    {
        bool bled = KnownWater.BleedOpenS(state, since - Duration.FromMinutes(30)) > 0;
        var sixHours = since - Duration.FromHours(6);
        int shots = state.Pulses.Count(p => p.Of == "top-up" && p.Start > sixHours);
        double lately = CycleHabit.LatestFillS(state.Cycles.Cycles);
        bool longer = habit.FillS > 1.35 * before.FillS || lately > Math.Max(1.12 * before.FillS, before.LongFillS);
        var days = state.Now - Duration.FromDays(3);
        bool Told(string cause) => notices.Notices.Any(n => n.Cause == cause && n.Urgency != Urgency.Record && (n.Cleared is null || n.Cleared > days));
        double stopped = 0.6, leak = 0.12, overflow = 0.08, fouling = 0.08, drawn = urgent ? 0.03 : 0.1, noEffect = 0;
        double bleed = state.Kit.Bleed is null ? 0 : bled ? 0.3 : 0.05;

        // Fills that grew before it tell of water that went missing, and not of a switch.
        if (longer) (stopped, leak, fouling) = (0.2, 0.4, 0.12);
        if (longer && shots >= 2) noEffect = 0.35;
        if (Told(CauseNames.TopUpWithoutEffect)) (noEffect, stopped) = (0.8, 0.2);
        if (Told(CauseNames.Leak)) (leak, stopped) = (Math.Max(leak, 0.6), 0.2);
        if (Told(CauseNames.DrainFouling) || Told(CauseNames.TankOverflow)) (fouling, overflow, stopped) = (0.4, 0.3, 0.2);
        double flickers = notices.Stands(ShortCyclingWatch.Key) ? 1.2 * Math.Max(stopped, noEffect) : 0;
        return new Notice
        {
            Causes = CauseSet.Of(
                (CauseNames.PumpShortCycling, flickers), (CauseNames.PumpStopped, stopped), (CauseNames.Leak, leak), (CauseNames.TankOverflow, overflow), (CauseNames.DrainFouling, fouling),
                (CauseNames.TopUpWithoutEffect, noEffect), (CauseNames.BleedStuckOpen, bleed), (CauseNames.UnloggedDraw, drawn),
                (CauseNames.SensorSilent, blind ? 0.2 : 0)),
            Urgency = urgent ? Urgency.ActNow : Urgency.Soon,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = Figures.Text($"The pump has not started for {Figures.Span(lasted)}; its last fills took {Figures.Range(habit.FillS, habit.LongFillS)}.")
                + (longer ? Figures.Text($" Before, {Figures.Span(before.FillS)} was usual: the loop was running short of water.") : "")
                + (shots >= 2 ? Figures.Text($" {shots} top-ups in the six hours before did not help.") : "")
                + (bled ? " The bleed was open shortly before or during it." : ""),
            FirstAct = "Look into the sump. Full: the pump has no power or its switch hangs; see that the air runs, then switch the pump off at the wall before you reach in. Low: look whether water comes when the top-up opens, for water on the ground, and for a tank or trough that does not drain.",
        };
    }
}
