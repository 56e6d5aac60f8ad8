using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Science.Statistics;
using Runnel.Steward.Drift;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>Top-ups that leave no mark on the loop: the supply is empty, or a hand valve is shut.</summary>
/// <remarks>Each shot is judged by its own before and after against what earlier shots did here. The evidence of shots in a row is
/// added up as a log-likelihood ratio of "no water came" over "it came as usual" (the CUSUM of Page, 1954, with its sum held above
/// zero); one shot alone never speaks. Where single shots drown in the scatter, a row of them is judged as one.</remarks>
internal sealed class TopUpEffectWatch : IWatch
{
    public const string Key = "top-up-effect";
    public const string TooMuchKey = "top-up-too-much";
    private const double SpeakAt = 5;

    /// <summary>Where one shot does no more than the gauge's scatter, many must agree.</summary>
    private const double SpeakAtFaint = 7;
    private const double MostPerShot = 4;
    private const double DoubtsFrom = 2;
    private static readonly Duration DoubtsFor = Duration.FromHours(6);
    private static readonly Duration LongestStreak = Duration.FromDays(6);
    private static readonly Duration LongestRow = Duration.FromHours(14);

    private readonly ShotReader _reader = new();
    private readonly ShotHabit _habit = new();
    private readonly List<ShotEffect> _streak = [];
    private readonly List<Shot> _row = [];
    private double _evidence;

    /// <summary>Top-ups of the last hours seem to have brought nothing, though too few for a word.</summary>
    public bool Doubts(LoopState state) =>
        _evidence >= DoubtsFrom && _streak.Count > 0 && _streak[^1].Start > state.Now - DoubtsFor && _streak[0].Start > state.Now - (DoubtsFor * 3);

    public void Hear(LoopState state, in Reading reading) => _reader.Hear(state, reading);

    public void Look(LoopState state, NoticeBook notices)
    {
        if (state.Kit.TopUpRunning < 0 && state.Kit.TopUpVolume < 0) return;
        foreach (var (shot, until) in _reader.Update(state)) Judge(state, notices, shot, until);
        if (notices.Stands(TooMuchKey) && !_reader.FullerThan(0.03, 0, state.Now - _reader.WindowAfter, state.Now)) notices.ClearAndRelease(state, TooMuchKey);
    }

    private void Judge(LoopState state, NoticeBook notices, Shot shot, Instant until)
    {
        if (shot.Litres < 1) return;
        if (ShotReader.Touched(state, shot.Start - _reader.Window, until))
        {
            _row.Clear();
            return;
        }

        if (_reader.Change(shot.Start, shot.End, until) is not { } change) return;
        var lag = Duration.FromDays(_reader.Slow ? 5 : 1.5);
        if (_habit.Of(shot.Start - lag, state.Kit.HasSiphon ? _reader.ByBalance(state) : null) is not { } habit || !_reader.Learnt)
        {
            _habit.Add(shot.Start, change / shot.Litres);
            return;
        }

        if (Held(state, notices))
        {
            _evidence = 0;
            _streak.Clear();
            _row.Clear();
            return;
        }

        double still = _reader.Still, expected = habit.PerLitre * shot.Litres;
        bool far = !state.Kit.HasSiphon && change > Math.Max(3 * expected, expected + (6 * still));
        if (far && _reader.FullerThan(0.01, 4 * still, shot.End + Duration.FromMinutes(4), until))
        {
            notices.RaiseAndHold(state, TooMuchKey, TopUpNotices.TooMuch(state, shot, change, expected, _reader.ByLevel));
            return;
        }

        if (!notices.Stands(Key)) _habit.Add(shot.Start, change / shot.Litres);
        Sum(state, notices, shot, change, expected, habit.Error * shot.Litres);
        JudgeRow(state, notices, shot, until, habit.PerLitre);
    }

    private bool Held(LoopState state, NoticeBook notices)
    {
        // A loss that is known eats what top-ups bring: that they leave no mark is no news.
        if (notices.Stands(LeakWatch.LossKey) || notices.Stands(NightLossWatch.Key)) return true;

        // Fouled drains hold back what they bring.
        if (notices.Stands(ResponseWatch.Key) || notices.Stands(RunCurveWatch.FoulingKey)) return true;
        if (state.Working || notices.Stands(PumpSwitchWatch.Key) || notices.Stands(ShortCyclingWatch.Key) || notices.Stands("top-up-open")) return true;
        if (!_reader.ByLevel) return false;
        string id = state.Place.Channels[state.Kit.SumpLevel].Id;
        return notices.Stands(SensorKeys.Frozen(id)) || notices.Stands(SensorKeys.Silent(id)) || notices.Stands(SensorKeys.Jumping(id));
    }

    private void Sum(LoopState state, NoticeBook notices, Shot shot, double change, double expected, double error)
    {
        double still = _reader.Still, drift = _reader.Drift;

        // Far more water gone than before it: someone drew some, and the shot cannot begin a streak.
        if (_streak.Count == 0 && (change - drift < -3 * still || _reader.FellBefore(shot.Start))) return;
        double spread = Math.Sqrt((still * still) + (0.05 * expected * expected) + (error * error));
        double most = MostPerShot * shot.Count;
        double ratio = Math.Clamp(NormalDistribution.LogDensity(change - drift, still) - NormalDistribution.LogDensity(change - expected, spread), -most, most);

        // Held under a ceiling, so that the first shots that work again end it.
        bool faint = _reader.Slow || state.Kit.HasSiphon || expected < 2 * still;
        double speakAt = faint ? SpeakAtFaint : SpeakAt;
        _evidence = Math.Min(_evidence + ratio, speakAt + MostPerShot);
        while (_streak.Count > 0 && _streak[0].Start < shot.Start - LongestStreak) _streak.RemoveAt(0);
        if (_evidence <= 0)
        {
            _evidence = 0;
            _streak.Clear();
            if (notices.MayEnd(Key, state.Now)) notices.ClearAndRelease(state, Key);
            return;
        }

        notices.GoesOn(Key);
        _streak.Add(new ShotEffect(shot.Start, shot.Litres, change, expected) { Shots = shot.Count });
        bool little = _streak.Sum(s => s.Change) < 0.4 * _streak.Sum(s => s.Expected);
        if (_streak.Sum(s => s.Shots) < (faint ? 3 : 2) || _evidence < speakAt || !little) return;
        notices.RaiseAndHold(state, Key, TopUpNotices.WithoutEffect(state, _streak, faint, _reader.ByLevel));
    }

    /// <summary>A rule that finds no effect pours again and again: all those litres together should show where one shot does not. A leak as
    /// large as the row of shots would have drained the loop as quickly before it.</summary>
    private void JudgeRow(LoopState state, NoticeBook notices, Shot shot, Instant until, double perLitre)
    {
        _row.Add(shot);
        _row.RemoveAll(s => s.Start < shot.Start - LongestRow);
        if (_row.Sum(s => s.Count) < 5 || notices.Stands(Key) || !state.Kit.HasSiphon) return;
        var first = _row[0];
        double litres = _row.Sum(s => s.Litres), expected = perLitre * litres;
        if (_reader.Change(first.Start, shot.End, until) is not { } change || _reader.ChangeUpTo(first.Start) is not { } before) return;
        double spans = (until - first.Start) / _reader.Window;
        double lost = expected / spans;
        if (expected < 4.5 * _reader.Still || change - (_reader.Drift * spans) > 0.25 * expected || before < -0.5 * lost) return;
        notices.RaiseAndHold(state, Key, TopUpNotices.WithoutEffect(state, [new ShotEffect(first.Start, litres, change, expected) { Shots = _row.Sum(s => s.Count) }], false, _reader.ByLevel));
    }
}
