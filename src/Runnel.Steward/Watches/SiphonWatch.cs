using NodaTime;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>The beat of a siphon bed in the fills: each flush makes one fill short. A siphon that dribbles or never breaks flushes no
/// more, and fills become even from then on.</summary>
/// <remarks>The beat is read as the robust spread of ln(fill) about the median of its neighbours, over a stretch of cycles, against the
/// same in schooling. Slow changes of the loop's water leave it alone.</remarks>
internal sealed class SiphonWatch : IWatch
{
    public const string Key = "siphon";
    private const int Side = 4;
    private const int Stretch = 36;
    private const int LearnLeast = 20;
    private const double Gone = 0.5;
    private const double Weaker = 0.8;
    private static readonly Duration StepKnown = Duration.FromDays(4);

    /// <summary>A beat that is lost and comes back by itself within this time was in step with the sump's cycle for a while.</summary>
    private static readonly Duration Passing = Duration.FromDays(3);

    private readonly List<(Instant Time, double LogFill)> _fills = [];
    private readonly List<double> _beats = [];
    private readonly List<double> _usualFills = [];
    private readonly Queue<(Instant Time, double Beat, double LogFill)> _waiting = new();
    private readonly List<(Instant Time, double Beat)> _recent = [];
    private int _taken;
    private int _sinceSample;
    private int _even;
    private Instant _evenSince;
    private Instant _toldStep = Instant.MinValue;
    private readonly List<double> _evenBeats = [];

    public void Look(LoopState state, NoticeBook notices)
    {
        if (!state.Kit.HasSiphon) return;
        var cycles = state.Cycles.Cycles;
        for (; _taken < cycles.Count; _taken++)
        {
            if (CycleHabit.Of(cycles, _taken, 60) is not { } habit) continue;
            var c = cycles[_taken];
            double rate = ((1 / c.FillS) + (1 / c.RunS)) / habit.RatePerS;
            if (c.Disturbed || rate is < 0.6 or > 1.7) continue;
            _fills.Add((c.RunStart, Math.Log(c.FillS)));
            if (++_sinceSample < Stretch / 3 || _fills.Count < Stretch + (2 * Side)) continue;
            _sinceSample = 0;
            Judge(state, notices);
        }

        if (_fills.Count > 400) _fills.RemoveRange(0, 200);
    }

    private void Judge(LoopState state, NoticeBook notices)
    {
        double beat = Beat();
        while (_waiting.Count > 0 && _waiting.Peek().Time < state.Now - Duration.FromHours(36))
        {
            var old = _waiting.Dequeue();
            if (notices.Stands(Key) || state.LearningHeld(old.Time - Duration.FromHours(1), old.Time)) continue;
            _beats.Add(old.Beat);
            _usualFills.Add(old.LogFill);
        }

        if (_beats.Count > 240)
        {
            _beats.RemoveRange(0, 40);
            _usualFills.RemoveRange(0, 40);
        }

        _waiting.Enqueue((state.Now, beat, Robust.Median([.. _fills.TakeLast(Stretch).Select(f => f.LogFill)])));
        _recent.Add((state.Now, beat));
        if (_recent.Count > 80) _recent.RemoveRange(0, 20);
        if (_beats.Count < LearnLeast) return;
        double usual = Robust.Median(_beats);
        LookAfterStep(state, notices, usual);
        // A loop that is nearly empty or over-full beats otherwise.
        double fill = Robust.Median([.. _fills.TakeLast(Stretch).Select(f => f.LogFill)]);
        if (_usualFills.Count > 0 && Math.Abs(fill - Robust.Median(_usualFills)) > 0.45)
        {
            _even = 0;
            return;
        }

        bool even = beat < Gone * usual && beat < 0.8 * Robust.Quantile(_beats, 0.02);
        if (!even)
        {
            _even = 0;
            if (notices.Find(Key) is { } notice && beat > 0.8 * usual)
            {
                if (state.Now - notice.Since < Passing) _beats.AddRange(_evenBeats);
                notices.ClearAndRelease(state, Key);
            }

            if (!notices.Stands(Key)) _evenBeats.Clear();
            return;
        }

        _evenBeats.Add(beat);

        if (_even++ == 0) _evenSince = _fills[^(Stretch + Side)].Time;

        // Samples overlap by two thirds: four in a row are two stretches of their own.
        if (_even < 4 || state.Working || notices.Stands(PumpSwitchWatch.Key) || notices.Stands(ShortCyclingWatch.Key)) return;
        notices.RaiseAndHold(state, Key, Stuck(state, _evenSince, 0.85, Figures.Text($"The fills have lost the siphon's beat: they scatter by {100 * beat:0.0} % where {100 * usual:0.0} % is usual.")));
    }

    /// <summary>The loop stepped and its beat is weaker since: a bed that stays full, or stays empty, does both.</summary>
    private void LookAfterStep(LoopState state, NoticeBook notices, double usual)
    {
        if (notices.Stands(Key)) return;
        Notice? step = null;
        foreach (var notice in notices.Notices)
        {
            if (notice.Cause == CauseNames.LoopChanged && notice.FirstNoticed > state.Now - StepKnown && notice.Since > _toldStep) step = notice;
        }

        if (step is null || _recent.Count(r => r.Time > step.Since + Duration.FromHours(8)) < 6) return;
        double since = Robust.Median([.. _recent.Where(r => r.Time > step.Since + Duration.FromHours(8)).Select(r => r.Beat)]);
        if (since > Weaker * usual || since > Robust.Quantile(_beats, 0.15)) return;
        _toldStep = step.Since;
        notices.Tell(Stuck(state, step.Since, 0.45, Figures.Text($"The loop changed at once near {Figures.Clock(state, step.Since)}, and since then the fills scatter by {100 * since:0.0} % where {100 * usual:0.0} % is usual: the siphon's beat is weaker.")));
    }

    private static Notice Stuck(LoopState state, Instant since, double sure, string evidence) => new()
    {
        Causes = CauseSet.Of((CauseNames.SiphonStuck, sure), (CauseNames.LoopChanged, 0.97 - sure)),

        // After a change that people may have made it is a question first.
        Urgency = sure > 0.5 ? Urgency.Soon : Urgency.Record,
        Since = since,
        FirstNoticed = state.Now,
        Evidence = evidence,
        FirstAct = "Watch the media bed for one turn. Water dribbling over the standpipe: the siphon does not trip, clean its bell. Water running without end: it does not break, free its air tube.",
    };

    private double Beat()
    {
        var off = new List<double>(Stretch);
        var near = new List<double>((2 * Side) + 1);
        for (int i = _fills.Count - Stretch - Side; i < _fills.Count - Side; i++)
        {
            near.Clear();
            for (int j = i - Side; j <= i + Side; j++) near.Add(_fills[j].LogFill);
            off.Add(Math.Abs(_fills[i].LogFill - Robust.Median(near)));
        }

        return off.Average();
    }
}
