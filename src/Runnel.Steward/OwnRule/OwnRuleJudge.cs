using NodaTime;
using Runnel.Place.Findings;
using Runnel.Steward.Ledger;

namespace Runnel.Steward.OwnRule;

/// <summary>Judges the keeper's present top-up rule from the log: what it poured against what the loop was short of.</summary>
internal static class OwnRuleJudge
{
    private static readonly Duration JoinsWithin = Duration.FromMinutes(10);
    private static readonly Duration LetOutWithin = Duration.FromHours(18);

    /// <summary>A top-up for less than this share of its litres was not needed.</summary>
    private const double Needed = 0.35;

    /// <summary>A loop that has lost this share of its return flow was topped up late.</summary>
    private const double LateFlow = 0.6;

    private enum Verdict { NotKnown, Needed, NotNeeded, Late, NoEffect }

    private sealed record Judged(WaterPulse Pulse, Verdict Verdict, Notice? MisledBy, double TooMuchL, double LetOutL);

    /// <summary>The finding, or null where no top-up is logged.</summary>
    public static OwnRuleFinding? Of(
        LoopState state, IReadOnlyList<Notice> notices, LedgerDoubts doubts, IReadOnlyList<TimeBand> litresShort)
    {
        if (state.Kit.TopUpRunning < 0 && state.Kit.TopUpVolume < 0) return null;
        var topUps = Join([.. state.Pulses.Where(p => p.Of == "top-up")]);
        var judged = new List<Judged>();
        double fullest = 0;
        foreach (var pulse in topUps) judged.Add(Judge(state, doubts, litresShort, pulse, ref fullest));
        return new OwnRuleFinding(
            judged.Count,
            judged.Sum(j => j.Pulse.Litres),
            judged.Count(j => j.Verdict == Verdict.NotNeeded),
            judged.Count(j => j.Verdict == Verdict.Late),
            Math.Round(judged.Sum(j => j.TooMuchL), 1),
            Why(state, notices, judged));
    }

    /// <summary>Pulses that follow one another at once are one top-up: litre meters write many rows for one.</summary>
    private static List<WaterPulse> Join(List<WaterPulse> pulses)
    {
        var joined = new List<WaterPulse>();
        foreach (var pulse in pulses)
        {
            if (joined.Count > 0 && pulse.Start - (joined[^1].Start + joined[^1].Length) < JoinsWithin)
            {
                var first = joined[^1];
                joined[^1] = first with { Length = pulse.Start + pulse.Length - first.Start, Litres = first.Litres + pulse.Litres };
                continue;
            }

            joined.Add(pulse);
        }

        return joined;
    }

    /// <param name="fullest">By how much the loop has been overfilled since it was last short, L: litres on top of that are too much, and
    /// those that only make up for what was used meanwhile are not counted twice.</param>
    private static Judged Judge(
        LoopState state, LedgerDoubts doubts, IReadOnlyList<TimeBand> litresShort, WaterPulse pulse, ref double fullest)
    {
        var at = pulse.Start;
        if (doubts.TopUpsEmptyAt(at)) return new Judged(pulse, Verdict.NoEffect, null, 0, 0);
        var misledBy = doubts.MisledAt(at);
        double letOut = LetOut(state, pulse);
        if (pulse.Litres <= 0 || Before(litresShort, at) is not { } before) return new Judged(pulse, Verdict.NotKnown, misledBy, letOut, letOut);
        if (before.High > 0) fullest = 0;
        double over = Math.Max(0, pulse.Litres - before.High);
        double tooMuch = Math.Max(letOut, over - fullest);
        fullest = Math.Max(fullest, over);
        if (before.High < Needed * pulse.Litres) return new Judged(pulse, Verdict.NotNeeded, misledBy, tooMuch, letOut);

        // Half the band below is still full of doubt; only a loop clearly short, with its return flow down, was kept waiting.
        var (g, n) = state.Store.Between(at - Duration.FromMinutes(60), at);
        bool slow = state.Kit.BandL is not null && n > 0 && g < LateFlow;
        bool late = misledBy is null && before.Low > 1.5 * pulse.Litres && (slow || state.Kit.BandL is null);
        return new Judged(pulse, late ? Verdict.Late : Verdict.Needed, misledBy, tooMuch, letOut);
    }

    /// <summary>Litres short just before a time; null where they cannot be told.</summary>
    private static TimeBand? Before(IReadOnlyList<TimeBand> litresShort, Instant time)
    {
        for (int i = litresShort.Count - 1; i >= 0; i--)
        {
            if (litresShort[i].Time <= time) return litresShort[i].Time > time - Duration.FromHours(3) ? litresShort[i] : null;
        }

        return null;
    }

    /// <summary>Litres that the bleed let out again soon after, without rain between to blame.</summary>
    private static double LetOut(LoopState state, WaterPulse pulse)
    {
        var end = pulse.Start + pulse.Length;
        double rainMm = 0, bled = 0;
        foreach (var hour in state.Hours.Hours)
        {
            if (hour.Start > pulse.Start - Duration.FromHours(2) && hour.Start < end + LetOutWithin) rainMm += hour.RainMm;
        }

        if (rainMm > 1) return 0;
        foreach (var other in state.Pulses)
        {
            if (other.Of == "bleed" && other.Start > end && other.Start < end + LetOutWithin) bled -= other.Litres;
        }

        return Math.Min(bled, pulse.Litres);
    }

    private static List<string> Why(LoopState state, IReadOnlyList<Notice> notices, List<Judged> judged)
    {
        var why = new List<string>();
        if (judged.Count == 0) return why;
        if (RuleHabit.Of(state, [.. judged.Select(j => j.Pulse)]) is { } habit) why.Add(habit.Sentence());
        var notNeeded = judged.Where(j => j.Verdict == Verdict.NotNeeded).ToList();
        foreach (var group in notNeeded.GroupBy(j => j.MisledBy))
        {
            int n = group.Count();
            string of = Words.Text($"{n} of {judged.Count} top-ups {(n == 1 ? "was" : "were")} not needed");
            why.Add(group.Key is { } notice ? $"{of}: {Because(state, notice)}." : $"{of}: the loop was near full when they began.");
        }

        int late = judged.Count(j => j.Verdict == Verdict.Late);
        if (late > 0) why.Add(Words.Text($"{Words.Count(late, "top-up", "top-ups")} came late: by then the return flow was down to less than {100 * LateFlow:0} % of the usual."));
        double letOut = judged.Sum(j => j.LetOutL);
        if (letOut >= 5) why.Add(Words.Text($"{letOut:0} L were let out again by the bleed within {LetOutWithin.TotalHours:0} h, with no rain between: the dose is larger than the room there is."));
        foreach (var notice in notices.Where(n => n.Cause == CauseNames.TopUpWithoutEffect))
        {
            int n = judged.Count(j => j.Verdict == Verdict.NoEffect && notice.StandsAt(j.Pulse.Start));
            if (n > 0) why.Add(Words.Text($"{Words.Count(n, "top-up", "top-ups")} from {Words.Day(state, notice.Since)} on left no mark: the supply seems to have been empty or shut."));
        }

        int unknown = judged.Count(j => j.Verdict == Verdict.NotKnown);
        if (unknown > 0 && 2 * unknown > judged.Count)
        {
            why.Add(Words.Text($"{unknown} of {judged.Count} top-ups could not be judged: what the loop was short of could not be read then."));
        }

        return why;
    }

    private static string Because(LoopState state, Notice notice)
    {
        string day = Words.Day(state, notice.Since);
        return notice.Cause switch
        {
            CauseNames.DrainFouling => $"from {day} the drains were fouling: they held back water that seemed to be missing",
            CauseNames.TankOverflow => $"from {day} a tank held water back and spilled",
            CauseNames.PumpWeakening => $"from {day} the pump was weakening, which more water does not mend",
            CauseNames.SiphonStuck => $"from {day} a siphon bed held its water",
            _ => $"from {day} the loop ran otherwise than before",
        };
    }
}
