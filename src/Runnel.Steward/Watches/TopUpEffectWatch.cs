using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>Top-ups that leave no mark on the loop: the supply is empty, or a hand valve is shut.</summary>
/// <remarks>Each shot is judged by its own before and after against what earlier shots did here. The evidence of shots in a row is
/// added up as a log-likelihood ratio of "no water came" over "it came as usual" (the CUSUM of Page, 1954, with its sum held above
/// zero); one shot alone never speaks.</remarks>
internal sealed class TopUpEffectWatch : IWatch
{
    public const string Key = "top-up-effect";
    public const string TooMuchKey = "top-up-too-much";
    private const double SpeakAt = 5;
    private const double MostPerShot = 4;
    private static readonly Duration LongestStreak = Duration.FromDays(6);

    private readonly WaterGauge _gauge = new();
    private readonly List<double> _still = [];
    private readonly List<double> _levels = [];
    private readonly ShotHabit _habit = new();
    private readonly List<(Instant Start, double Litres, double Change, double Expected)> _streak = [];
    private Shot? _shot;
    private int _taken;
    private double _evidence;
    private Instant _nextStill;

    /// <summary>One shot: pulses that follow one another closely.</summary>
    private sealed record Shot(Instant Start, Instant End, double Litres);

    public void Hear(LoopState state, in Reading reading)
    {
        if (reading.Channel == state.Kit.SumpLevel) _gauge.TakeLevel(state, reading);
    }

    public void Look(LoopState state, NoticeBook notices)
    {
        if (state.Kit.TopUpRunning < 0 && state.Kit.TopUpVolume < 0) return;
        _gauge.TakeCycles(state);
        LearnStill(state);
        var (before, after) = Windows(state);
        if (notices.Stands(TooMuchKey) && _gauge.Between(state.Now - after, state.Now) is { Count: > 2, Value: var now }
            && now > Robust.Quantile(_levels, 0.03)) notices.ClearAndRelease(state, TooMuchKey);
        var joins = Duration.FromMinutes(_gauge.ByLevel ? 10 : 14);
        for (; _taken < state.Pulses.Count; _taken++)
        {
            var pulse = state.Pulses[_taken];
            if (pulse.Of != "top-up") continue;
            double litres = pulse.Litres > 0 ? pulse.Litres : pulse.Length.TotalSeconds / 10;
            var end = pulse.Start + pulse.Length;
            if (_shot is { } open && pulse.Start - open.End < joins)
            {
                _shot = open with { End = end, Litres = open.Litres + litres };
                continue;
            }

            if (_shot is { } done) Judge(state, notices, done, before, pulse.Start);
            _shot = new Shot(pulse.Start, end, litres);
        }

        if (_shot is { } last && state.TopUp.IsOn != true && state.Now >= last.End + after)
        {
            Judge(state, notices, last, before, last.End + after);
            _shot = null;
        }
    }

    /// <summary>How far to look before and after: long enough for a few fills, and past the beat of a siphon.</summary>
    private (Duration Before, Duration After) Windows(LoopState state)
    {
        if (_gauge.ByLevel) return (Duration.FromMinutes(25), Duration.FromMinutes(35));
        double least = state.Kit.HasSiphon ? 9000 : 3600;
        var length = Duration.FromSeconds(Math.Max(least, 3.5 * state.Cycles.TypicalS));
        return (length, length);
    }

    /// <summary>Times without known water show how far the gauge wanders by itself between such windows.</summary>
    private void LearnStill(LoopState state)
    {
        if (state.Now < _nextStill || state.Silent || state.Working) return;
        _nextStill = state.Now + Duration.FromMinutes(30);
        var (before, after) = Windows(state);
        var middle = state.Now - after;
        var from = middle - before;
        if (_gauge.Between(middle, state.Now) is { Count: > 1, Value: var level } && !state.LearningHeld(from, state.Now))
        {
            _levels.Add(level);
            if (_levels.Count > 600) _levels.RemoveRange(0, 100);
        }

        if (from < state.ObservedSince || Touched(state, from, state.Now) || KnownWater.TopUpOpenS(state, from) > 0) return;
        if (Contrast(middle, middle, before, state.Now) is { } change)
        {
            _still.Add(change);
            if (_still.Count > 150) _still.RemoveAt(0);
        }
    }

    private static bool Touched(LoopState state, Instant from, Instant to) =>
        KnownWater.BleedOpenS(state, from) > 0 || KnownWater.RainMm(state, from) > 1 || KnownWater.DrawnL(state, from) != 0
        || state.Gaps.Any(g => g.End > from && g.Start < to) || (state.WorkUntil > from && state.WorkUntil < to + Duration.FromHours(2));

    private double? Contrast(Instant start, Instant end, Duration before, Instant until)
    {
        var (was, n) = _gauge.Between(start - before, start);
        var (now, m) = _gauge.Between(end + Duration.FromMinutes(4), until);
        return n < 2 || m < 2 ? null : was - now;
    }

    private void Judge(LoopState state, NoticeBook notices, Shot shot, Duration before, Instant until)
    {
        if (shot.Litres < 1 || Touched(state, shot.Start - before, until)) return;
        if (Contrast(shot.Start, shot.End, before, until) is not { } change) return;
        var learnt = _habit.Of(shot.Start - Duration.FromDays(_gauge.ByLevel || state.Cycles.TypicalS < 1500 ? 1.5 : 5));
        if (learnt is not { } habit || _still.Count < 12)
        {
            _habit.Add(shot.Start, change / shot.Litres);
            return;
        }

        double still = Math.Max(_gauge.ByLevel ? 1.5 : 0.006, Robust.Spread(_still));
        double drift = Robust.Median(_still);
        double expected = habit.PerLitre * shot.Litres;
        bool held = state.Working || notices.Stands(PumpSwitchWatch.Key) || notices.Stands("top-up-open")
            || notices.Stands(ShortCyclingWatch.Key) || LevelFails(state, notices);
        if (held)
        {
            _evidence = 0;
            _streak.Clear();
            return;
        }

        if (change > Math.Max(3 * expected, expected + (6 * still)) && FullerThanEver(shot, until, still))
        {
            TellTooMuch(state, notices, shot, change, expected);
            return;
        }

        if (!notices.Stands(Key)) _habit.Add(shot.Start, change / shot.Litres);

        // Far more water gone than before it: someone drew some, and the shot cannot begin a streak.
        if (change - drift < -3 * still && _streak.Count == 0) return;
        double spread = Math.Sqrt((still * still) + (0.05 * expected * expected) + Math.Pow(habit.Error * shot.Litres, 2));
        double ratio = Math.Clamp(Normal(change - drift, still) - Normal(change - expected, spread), -MostPerShot, MostPerShot);

        // Held under a ceiling, so that the first shots that work again end it.
        _evidence = Math.Min(_evidence + ratio, SpeakAt + MostPerShot);
        while (_streak.Count > 0 && _streak[0].Start < shot.Start - LongestStreak) _streak.RemoveAt(0);
        if (_evidence <= 0)
        {
            _evidence = 0;
            _streak.Clear();
            notices.ClearAndRelease(state, Key);
            return;
        }

        _streak.Add((shot.Start, shot.Litres, change, expected));
        bool little = _streak.Sum(s => s.Change) < 0.4 * _streak.Sum(s => s.Expected);
        if (_streak.Count >= 2 && _evidence >= SpeakAt && little) notices.RaiseAndHold(state, Key, Tell(state));
    }

    /// <summary>The loop stands beyond all of the last days: a short loop answers a shot more strongly, but never leads there.</summary>
    private bool FullerThanEver(Shot shot, Instant until, double still)
    {
        if (_levels.Count < 150) return false;
        var (now, n) = _gauge.Between(shot.End + Duration.FromMinutes(4), until);
        return n > 0 && now < Robust.Quantile(_levels, 0.01) - (4 * still);
    }

    private bool LevelFails(LoopState state, NoticeBook notices)
    {
        if (!_gauge.ByLevel) return false;
        string id = state.Place.Channels[state.Kit.SumpLevel].Id;
        return notices.Stands($"frozen {id}") || notices.Stands($"silent {id}") || notices.Stands($"jumping {id}");
    }

    /// <summary>A shot that did several times what its litres can do: the valve did not shut behind it.</summary>
    private void TellTooMuch(LoopState state, NoticeBook notices, Shot shot, double change, double expected)
    {
        notices.RaiseAndHold(state, TooMuchKey, new Notice
        {
            Causes = CauseSet.Of((CauseNames.TopUpStuckOpen, 0.8), (CauseNames.Overfull, 0.15)),
            Urgency = Urgency.Today,
            Since = shot.Start,
            FirstNoticed = state.Now,
            Evidence = Figures.Text($"After the top-up of {shot.Litres:0} L {Effect(change)} where {Amount(expected)} was to be expected: water seems to go on coming though the valve is ordered shut."),
            FirstAct = "Listen and look whether water still runs from the top-up. If it does, shut the hand valve before it.",
        });
    }

    /// <summary>Logarithm of the normal density, less its constant.</summary>
    private static double Normal(double x, double spread) => -(0.5 * x * x / (spread * spread)) - Math.Log(spread);

    private Notice Tell(LoopState state)
    {
        double litres = _streak.Sum(s => s.Litres);
        double change = _streak.Sum(s => s.Change), expected = _streak.Sum(s => s.Expected);
        string amount = state.TopUpLPerS is null && state.Kit.TopUpVolume < 0 ? "" : Figures.Text($", {litres:0} L together,");
        return new Notice
        {
            Causes = CauseSet.Of((CauseNames.TopUpWithoutEffect, 0.86), (CauseNames.TankOverflow, 0.08), (CauseNames.Leak, 0.06)),
            Urgency = Urgency.Today,
            Since = _streak[0].Start,
            FirstNoticed = state.Now,
            Evidence = Figures.Text($"The last {_streak.Count} top-ups{amount} left no mark: {Effect(change)} in all where {Amount(expected)} was to be expected."),
            FirstAct = "Look whether water comes when the top-up opens: an empty supply tank, a shut hand valve or a blocked strainer is likely. If water does come, look for the tank that spills it.",
        };
    }

    private string Effect(double change) => _gauge.ByLevel ? Figures.Text($"the level rose by {change:0} mm") : $"fills became {Amount(change)}";

    private string Amount(double change)
    {
        if (_gauge.ByLevel) return Figures.Text($"{change:0} mm");
        double percent = 100 * (1 - Math.Exp(-change));
        return percent >= 0.5 ? Figures.Text($"{percent:0} % shorter") : percent <= -0.5 ? Figures.Text($"{-percent:0} % longer") : "no shorter";
    }
}
