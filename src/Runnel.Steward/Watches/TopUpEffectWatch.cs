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
    private const int LearnLeast = 4;
    private const double SpeakAt = 5;
    private const double MostPerShot = 4;

    private readonly WaterGauge _gauge = new();
    private readonly List<double> _still = [];
    private readonly List<double> _perLitre = [];
    private readonly List<double> _inDoubt = [];
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
        if (_perLitre.Count < LearnLeast || _still.Count < 12)
        {
            _perLitre.Add(change / shot.Litres);
            return;
        }

        double per = Robust.Median(_perLitre);
        double floor = _gauge.ByLevel ? 1.5 : 0.01;
        double still = Math.Max(floor, Robust.Spread(_still));
        double drift = Robust.Median(_still);
        double expected = per * shot.Litres;
        double spread = Math.Max(still, Math.Max(0.3 * Math.Abs(expected), Robust.Spread(_perLitre) * shot.Litres));
        double ratio = expected <= 0 ? 0 : Normal(change - drift, still) - Normal(change - expected, spread);
        ratio = Math.Clamp(ratio, -MostPerShot, MostPerShot);

        // Held under a ceiling, so that the first shots that work again end it.
        _evidence = Math.Min(_evidence + ratio, SpeakAt + MostPerShot);
        if (_evidence <= 0)
        {
            _evidence = 0;
            foreach (double value in _inDoubt) Learn(value);
            _inDoubt.Clear();
            _streak.Clear();
            Learn(change / shot.Litres);
            notices.Clear(Key, state.Now);
            return;
        }

        _inDoubt.Add(change / shot.Litres);
        _streak.Add((shot.Start, shot.Litres, change, expected));
        bool held = state.Working || notices.Stands(PumpSwitchWatch.Key) || notices.Stands("top-up-open");
        if (_streak.Count >= 2 && _evidence >= SpeakAt && !held) notices.Raise(Key, Tell(state));
    }

    private void Learn(double perLitre)
    {
        _perLitre.Add(perLitre);
        if (_perLitre.Count > 30) _perLitre.RemoveAt(0);
    }

    /// <summary>Logarithm of the normal density, less its constant.</summary>
    private static double Normal(double x, double spread) => -(0.5 * x * x / (spread * spread)) - Math.Log(spread);

    private Notice Tell(LoopState state)
    {
        double litres = _streak.Sum(s => s.Litres);
        double change = _streak.Sum(s => s.Change), expected = _streak.Sum(s => s.Expected);
        string told = _gauge.ByLevel
            ? Wording.Text($"the level rose by {change:0} mm in all where {expected:0} mm were to be expected")
            : Wording.Text($"fills became {Shorter(change)} in all where {Shorter(expected)} was to be expected");
        string amount = state.TopUpLPerS is null && state.Kit.TopUpVolume < 0 ? "" : Wording.Text($", {litres:0} L together,");
        return new Notice
        {
            Causes = CauseSet.Of((CauseNames.TopUpWithoutEffect, 0.86), (CauseNames.TankOverflow, 0.08), (CauseNames.Leak, 0.06)),
            Urgency = Urgency.Today,
            Since = _streak[0].Start,
            FirstNoticed = state.Now,
            Evidence = Wording.Text($"The last {_streak.Count} top-ups{amount} left no mark: {told}."),
            FirstAct = "Look whether water comes when the top-up opens: an empty supply tank, a shut hand valve or a blocked strainer is likely. If water does come, look for the tank that spills it.",
        };
    }

    private static string Shorter(double logChange)
    {
        double percent = 100 * (1 - Math.Exp(-logChange));
        return percent >= 0.5 ? Wording.Text($"{percent:0} % shorter") : percent <= -0.5 ? Wording.Text($"{-percent:0} % longer") : "no shorter";
    }
}
