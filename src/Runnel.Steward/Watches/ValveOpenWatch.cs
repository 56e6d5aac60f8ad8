using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;
using Runnel.Steward.Signals;

namespace Runnel.Steward.Watches;

/// <summary>A top-up or bleed valve that stands open far beyond its habit.</summary>
internal sealed class ValveOpenWatch(bool topUp) : IWatch
{
    private const int HabitFrom = 4;

    /// <summary>Before there is a habit, an hour: longer than any household's single dose of either.</summary>
    private const double UnlearntS = 3600;

    /// <summary>Someone may hold a valve open by hand for a while; a sump with switches bears that longer than one without.</summary>
    private const double LeastS = 900, LeastWithSwitchesS = 2700;
    private readonly List<double> _lengths = [];
    private int _taken;

    private readonly LevelNow _level = new();

    public void Hear(LoopState state, in Reading reading)
    {
        if (reading.Channel == state.Kit.SumpLevel && state.Kit.BandL is null) _level.Take(reading.Time, reading.Value);
    }

    private string Key => topUp ? "top-up-open" : "bleed-open";

    public void Look(LoopState state, NoticeBook notices)
    {
        var valve = topUp ? state.TopUp : state.Bleed;
        if ((topUp ? state.Kit.TopUpRunning : state.Kit.BleedRunning) < 0) return;
        Learn(state, valve, notices);
        if (notices.Stands(Key))
        {
            if (valve.IsOn == false) notices.ClearAndRelease(state, Key);
            return;
        }

        if (valve.IsOn != true || state.Working) return;
        bool blind = !state.HasRegularChannel;
        if (state.Silent && !blind) return;
        var since = Instant.Max(valve.Since, state.ObservedSince);
        double lasted = ((blind ? state.Now : state.LastReading) - since).TotalSeconds;
        if (lasted < LimitS(state) || !Shows(state, since, lasted)) return;
        notices.RaiseAndHold(state, Key, Open(state, since, lasted));
    }

    /// <summary>The loop shows that the valve is open: a lost row of the log leaves it open on paper only. Where the loop cannot show it, the
    /// log is believed.</summary>
    private bool Shows(LoopState state, Instant since, double lasted)
    {
        double litres = (topUp ? state.TopUpLPerS ?? 0.1 : state.BleedLPerS ?? 0.1) * lasted;
        if (state.Kit.BandL is null)
        {
            var (now, n) = _level.Between(state.LastReading - Duration.FromMinutes(6), state.LastReading);
            var (before, m) = _level.Between(since - Duration.FromMinutes(15), since);
            if (n == 0 || m == 0) return true;
            double mmPerL = 1 / (state.Kit.Sump?.FootprintM2 ?? 1.2);
            return (topUp ? now - before : before - now) > 0.25 * litres * mmPerL;
        }

        var cycles = state.Cycles.Cycles;
        int first = cycles.Count;
        while (first > 0 && cycles[first - 1].FillStart > since) first--;
        if (cycles.Count - first < 2 || CycleHabit.Of(cycles, first, 24) is not { } habit) return true;

        // Water straight into the sump shortens the very fills in which it runs; water out of it lengthens them.
        double fill = Robust.Median([.. cycles.Skip(first).Select(c => c.FillS)]);
        return topUp ? fill < 0.85 * habit.FillS : fill > 1.15 * habit.FillS;
    }

    /// <summary>Twice the longest so far, but not under ten minutes more than it: a rule with a longer dose is not yet a stuck valve.</summary>
    private double LimitS(LoopState state)
    {
        if (_lengths.Count < HabitFrom) return UnlearntS;
        double longest = Robust.Quantile(_lengths, 0.98);
        double least = state.Kit.BandL is null ? LeastS : LeastWithSwitchesS;
        return Math.Clamp(Math.Max(2 * longest, longest + 600), least, Math.Max(UnlearntS, 1.3 * longest));
    }

    private void Learn(LoopState state, RunTrace valve, NoticeBook notices)
    {
        for (; _taken < valve.Runs.Count; _taken++)
        {
            double length = valve.Runs[_taken].Seconds;

            // What the watch spoke of is no habit; nor are the seconds of a chattering contact.
            if (length < 5 || notices.Stands(Key) || (_lengths.Count >= HabitFrom && length > LimitS(state))) continue;
            _lengths.Add(length);
            if (_lengths.Count > 60) _lengths.RemoveAt(0);
        }
    }

    private Notice Open(LoopState state, Instant since, double lasted)
    {
        double? litres = (topUp ? state.TopUpLPerS : state.BleedLPerS) * lasted;
        string amount = litres is { } l ? Figures.Text($", about {l:0} L at its told rate") : "";
        string habit = _lengths.Count >= HabitFrom
            ? Figures.Text($"; it usually shuts after {Figures.Span(Robust.Median(_lengths))}")
            : "; no household dose takes that long";
        string name = topUp ? "top-up" : "bleed";
        return new Notice
        {
            Causes = topUp
                ? CauseSet.Of((CauseNames.TopUpStuckOpen, 0.93), (CauseNames.Overfull, 0.07))
                : CauseSet.Of((CauseNames.BleedStuckOpen, 0.95), (CauseNames.Overfull, 0.05)),
            Urgency = Urgency.ActNow,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = Figures.Text($"The {name} has been open for {Figures.Span(lasted)}{amount}{habit}."),
            FirstAct = topUp
                ? "Shut the hand valve before the top-up. Then see whether the valve is ordered open (a timer, a rule, a stuck relay) or does not close."
                : "Shut the hand valve behind the bleed, and see that the sump still holds water for the pump. Then look at what orders the bleed.",
        };
    }
}
