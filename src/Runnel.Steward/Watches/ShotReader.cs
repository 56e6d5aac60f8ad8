using NodaTime;
using Runnel.Place;

namespace Runnel.Steward.Watches;

/// <summary>One shot: top-ups that follow one another so closely that they cannot be read apart.</summary>
/// <param name="Count">Top-ups in it that a rule made one after another.</param>
internal sealed record Shot(Instant Start, Instant End, double Litres, int Count);

/// <summary>Reads the gauge before and after each shot, and how far it wanders by itself between such windows.</summary>
internal sealed class ShotReader
{
    /// <summary>Readings of quiet windows before their wandering can be told.</summary>
    public const int StillLeast = 12;

    private const int MostTogether = 4;

    private readonly WaterGauge _gauge = new();
    private readonly List<double> _still = [];
    private readonly List<double> _levels = [];
    private Shot? _shot;
    private int _taken;
    private Instant _nextStill;

    public bool ByLevel => _gauge.ByLevel;

    /// <summary>Cycles so long that hours hold only a few.</summary>
    public bool Slow { get; private set; }

    /// <summary>The gauge is read over this long before and after a shot: for a few fills, and past the beat of a siphon.</summary>
    public Duration Window { get; private set; }
    public Duration WindowAfter { get; private set; }
    public bool Learnt => _still.Count >= StillLeast;

    /// <summary>Scatter and middle of the change between two windows with no known water.</summary>
    public double Still => Math.Max(ByLevel ? 1.5 : 0.006, Robust.Spread(_still));
    public double Drift => Robust.Median(_still);

    public void Hear(LoopState state, in Reading reading)
    {
        if (reading.Channel == state.Kit.SumpLevel) _gauge.TakeLevel(state, reading);
    }

    /// <summary>Takes what is new; gives the shots whose aftermath can be read by now, each with the time up to which.</summary>
    public IEnumerable<(Shot Shot, Instant Until)> Update(LoopState state)
    {
        _gauge.TakeCycles(state);
        SetWindows(state);
        LearnStill(state);
        var finished = new List<(Shot, Instant)>();
        var joins = Duration.FromMinutes(ByLevel ? 10 : 14);
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

            if (_shot is { } done)
            {
                // The next came before two cycles could show what this one did: they are read together.
                if (done.Count < MostTogether && Change(done.Start, done.End, pulse.Start) is null && pulse.Start - done.End < WindowAfter)
                {
                    _shot = new Shot(done.Start, end, done.Litres + litres, done.Count + 1);
                    continue;
                }

                finished.Add((done, pulse.Start));
            }

            _shot = new Shot(pulse.Start, end, litres, 1);
        }

        if (_shot is { } last && state.TopUp.IsOn != true && state.Now >= last.End + WindowAfter)
        {
            finished.Add((last, last.End + WindowAfter));
            _shot = null;
        }

        return finished;
    }

    /// <summary>By how much the gauge fell from before <paramref name="start"/> to behind <paramref name="end"/>; null where too little was read.</summary>
    public double? Change(Instant start, Instant end, Instant until)
    {
        var (was, n) = _gauge.Between(start - Window, start);
        var (now, m) = _gauge.Between(end + Duration.FromMinutes(4), until);
        return n < 2 || m < 2 ? null : was - now;
    }

    /// <summary>By how much the gauge fell between two windows next to each other that end at <paramref name="end"/>.</summary>
    public double? ChangeUpTo(Instant end) => Change(end - Window, end - Window, end);

    /// <summary>The gauge moved within the window before a shot, far more than it wanders: water was drawn just then.</summary>
    public bool FellBefore(Instant start)
    {
        var (early, n) = _gauge.Between(start - Window, start - (Window * 0.5));
        var (late, m) = _gauge.Between(start - (Window * 0.5), start);
        return n > 0 && m > 0 && late - early > 3 * Still;
    }

    /// <summary>Rain, a bleed, a draw, work or a gap blurs what a shot did.</summary>
    public static bool Touched(LoopState state, Instant from, Instant to) =>
        KnownWater.BleedOpenS(state, from) > 0 || KnownWater.RainMm(state, from) > 1 || KnownWater.DrawnL(state, from) != 0
        || state.Gaps.Any(g => g.End > from && g.Start < to) || (state.WorkUntil > from && state.WorkUntil < to + Duration.FromHours(2))
        || (state.Kit.BandL is null && Rested(state, from));

    /// <summary>A pump that always runs stood still at some time since: the level tells of the stop, not of the shot.</summary>
    private static bool Rested(LoopState state, Instant since) =>
        state.Pump.IsOn == false || (state.Pump.Rests.Count > 0 && state.Pump.Rests[^1].End + Duration.FromMinutes(20) > since);

    /// <summary>Change of the gauge for a litre, as the steward's balance has learnt it, with its relative error.</summary>
    public (double PerLitre, double RelativeError)? ByBalance(LoopState state)
    {
        var gauge = state.Balance.Gauge;
        if (!gauge.Known) return null;
        if (ByLevel) return (1 / gauge.LitresPerUnit, gauge.RelativeSpread);
        var (g, n) = state.Store.Between(state.Now - Duration.FromDays(2), state.Now);
        return n == 0 || g <= 0 ? null : (1 / (gauge.LitresPerUnit * g), gauge.RelativeSpread);
    }

    /// <summary>The loop is fuller over that stretch than in all but the fullest share of the last days, by a margin.</summary>
    public bool FullerThan(double share, double margin, Instant from, Instant to) =>
        _levels.Count >= 150 && _gauge.Between(from, to) is { Count: > 1, Value: var now } && now < Robust.Quantile(_levels, share) - margin;

    private void SetWindows(LoopState state)
    {
        Slow = !ByLevel && state.Cycles.AreLong;
        double least = state.Kit.HasSiphon ? 9000 : 3600;
        Window = ByLevel ? Duration.FromMinutes(25) : Duration.FromSeconds(Math.Max(least, (Slow ? 7.5 : 3.5) * state.Cycles.TypicalS));
        WindowAfter = ByLevel ? Duration.FromMinutes(35) : Window;
    }

    private void LearnStill(LoopState state)
    {
        if (state.Now < _nextStill || state.Silent || state.Working) return;
        _nextStill = state.Now + Duration.FromMinutes(30);
        var middle = state.Now - WindowAfter;
        var from = middle - Window;
        if (state.LearningHeld(from, state.Now) || from < state.ObservedSince) return;
        if (_gauge.Between(middle, state.Now) is { Count: > 1, Value: var level })
        {
            _levels.Add(level);
            if (_levels.Count > 600) _levels.RemoveRange(0, 100);
        }

        if (Touched(state, from, state.Now) || KnownWater.TopUpOpenS(state, from) > 0) return;
        if (Change(middle, middle, state.Now) is not { } change) return;
        _still.Add(change);
        if (_still.Count > 150) _still.RemoveAt(0);
    }
}
