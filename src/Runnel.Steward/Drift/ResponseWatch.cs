using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Runnel.Place.Findings;
using Runnel.Science.Statistics;
using Runnel.Steward.Notices;
using Runnel.Steward.Store;

namespace Runnel.Steward.Drift;

/// <summary>What each known pulse of water does to the fills, against what it did in health. Fouled drains hold more water back for the
/// same flow, so that the same litres move the fills less and less, while lost water or a worn pump leaves their effect as it was.</summary>
internal sealed class ResponseWatch : IWatch
{
    public const string Key = "response";
    private const int Schooling = 6;
    private const double Clip = 3.5;
    private static readonly CusumDesign Chart = new(Target: 0, Slack: 0.75, Limit: 5);

    // A screen that blocks within two or three days is as quick as it gets (common practice).
    private const double QuickestBlockingADay = 0.4;

    // Pulses this scattered tell nothing one by one; a loss of effect smaller than this is not worth a word.
    private const double WorstSpread = 0.3, LeastLoss = 0.12;

    // Two pulses that do next to nothing after pulses that did all are a top-up without effect, not slow fouling.
    private const double Nothing = 0.3;
    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("d MMMM");
    private readonly List<(Instant Time, double Ratio, double Z)> _scores = [];
    private int _next;
    private CusumState _sums = Cusum.Start();
    private Instant _onset;
    private Instant _from = Instant.MinValue;

    /// <summary>Single pulses can be read in this loop.</summary>
    public bool Reads => _scores.Count >= 3;

    /// <summary>Mean score of the pulses since a time, in standard errors of that mean (negative: they do less than in health), and how many.</summary>
    public (double Z, double Ratio, int Count) Since(Instant from) => Between(from, Instant.MaxValue);

    /// <summary>The same over the pulses between two times.</summary>
    public (double Z, double Ratio, int Count) Between(Instant from, Instant to)
    {
        double z = 0, ratio = 0;
        int n = 0;
        foreach (var score in _scores)
        {
            if (score.Time < from || score.Time >= to) continue;
            z += score.Z;
            ratio += score.Ratio;
            n++;
        }

        return n == 0 ? (0, 1, 0) : (z / Math.Sqrt(n), ratio / n, n);
    }

    public void Look(LoopState state, NoticeBook notices)
    {
        if (!state.OnTheHour || state.Kit.BandL is null) return;
        var responses = state.Balance.Responses;
        for (; _next < responses.Count; _next++)
        {
            if (Score(state, responses, _next) is not { } score) continue;
            _scores.Add((responses[_next].Start, score.Ratio, score.Z));
            Sum(score.Z, responses[_next].Start);
            Judge(state, notices);
        }
    }

    /// <summary>The loop was changed: what pulses did before says nothing of what they should do now.</summary>
    public void Restart(Instant from)
    {
        _from = from;
        _sums = Cusum.Start();
        _scores.RemoveAll(s => s.Time >= from);
    }

    /// <summary>The effect fell at once and stayed: someone changed something. Fouling goes down pulse by pulse.</summary>
    private static bool CameAtOnce(List<double> ratios)
    {
        int third = Math.Max(1, ratios.Count / 3);
        return 1 - ratios.Take(third).Average() > 0.75 * (1 - ratios.TakeLast(third).Average());
    }

    private Notice Changed(LoopState state, double ratio) => new()
    {
        Causes = [new Cause(CauseNames.LoopChanged, 0.65), new Cause(CauseNames.DrainFouling, 0.3)],
        Urgency = Urgency.Record,
        Since = _onset,
        FirstNoticed = state.Now,
        Evidence = string.Create(CultureInfo.InvariantCulture,
            $"Since {Day.Format(_onset.InZone(state.Place.Zone).Date)} each top-up speeds the sump's fill by only {100 * ratio:0} % of what the same litres did before; it came at once and did not grow."),
        FirstAct = "Was a split valve turned, a switch moved or the top-up's flow changed that day? If so it is learnt as the new habit; if not, look at the drain screens.",
    };

    /// <summary>The store shrinks faster than fouling lets it: water is lost, and pulses only seem to do less.</summary>
    private static bool LosingTooFast(LoopState state)
    {
        int last = state.Balance.HourCount - 1;
        var (litres, counts) = state.Balance.Unexplained(last - 9, last);
        double rate = -HourSeries.Slope(litres, counts, 0, litres.Length);
        return rate > QuickestBlockingADay / 24 * state.Balance.Gauge.LitresPerUnit;
    }

    /// <summary>Water known to come or go by another way, which also changes what a pulse leaves in the loop.</summary>
    private static bool OtherReason(NoticeBook notices) =>
        notices.Find(LeakWatch.LossKey) is { Cause: CauseNames.Leak } || notices.Stands(LeakWatch.GainKey) || notices.Stands(NightLossWatch.Key)
        || notices.Stands(RunCurveWatch.WearKey);

    /// <summary>One pulse against the healthy ones at least three days older.</summary>
    private (double Ratio, double Z)? Score(LoopState state, IReadOnlyList<PulseResponse> responses, int at)
    {
        var pulse = responses[at];
        var past = new List<double>();
        for (int i = 0; i < at; i++)
        {
            bool old = pulse.Start - responses[i].Start > Duration.FromDays(state.Now - state.Began < Duration.FromDays(12) ? 0 : 3);
            if (old && responses[i].Start >= _from && !state.LearningHeld(responses[i].Start, responses[i].End)) past.Add(responses[i].PerLitre);
        }

        if (past.Count < Schooling) return null;
        past.Sort();
        double median = past[past.Count / 2];
        if (median <= 0) return null;
        var off = past.Select(p => Math.Abs(p - median)).Order().ToList();
        double spread = HealthySpread.Of(off, 0.9, 1.645);
        double own = state.Balance.ReadingSpread * Math.Sqrt(1.6 * pulse.Variance) / Math.Abs(median * pulse.Litres);

        // The loop's own curve is not quite straight, and few pulses tell their spread badly: never surer than 5 %.
        double relative = Math.Max(0.05, Math.Max(spread / median, own)) * Math.Sqrt(1 + (2.0 / past.Count));
        if (relative > WorstSpread) return null;
        double ratio = pulse.PerLitre / median;
        return (ratio, (ratio - 1) / relative);
    }

    private void Sum(double z, Instant time)
    {
        if (_sums.Low == 0) _onset = time;
        _sums = Cusum.Next(_sums, Math.Clamp(z, -Clip, Clip), Chart);
    }

    private void Judge(LoopState state, NoticeBook notices)
    {
        var latest = _scores[^1];
        if (notices.Stands(Key))
        {
            if (_scores.Count > 2 && latest.Ratio > 0.9 && _scores[^2].Ratio > 0.9)
            {
                notices.Clear(Key, latest.Time);
                state.Holds.Release(Key, latest.Time);
                _sums = Cusum.Start();
            }

            return;
        }

        if (_sums.Low < Chart.Limit || notices.Stands(RunCurveWatch.FoulingKey) || OtherReason(notices)) return;
        var since = _scores.Where(s => s.Time >= _onset).ToList();
        if (since.Count < 3 || (latest.Ratio < Nothing && since[0].Ratio < Nothing)) return;
        if (notices.Spoke(state.Now - Duration.FromHours(36), CauseNames.PumpStopped, CauseNames.PumpDry, CauseNames.TopUpWithoutEffect,
            CauseNames.SiphonStuck)) return;
        if (LosingTooFast(state)) return;
        double ratio = since.TakeLast(3).Average(s => s.Ratio);
        if (ratio > 1 - LeastLoss) return;
        if (CameAtOnce(since.ConvertAll(s => s.Ratio)))
        {
            notices.Tell(Changed(state, ratio));
            Restart(_onset);
            return;
        }

        state.Holds.Begin(Key, _onset);
        string when = Day.Format(_onset.InZone(state.Place.Zone).Date);
        notices.Raise(Key, new Notice
        {
            Causes = [new Cause(CauseNames.DrainFouling, 0.8), new Cause(CauseNames.TankOverflow, 0.08), new Cause(CauseNames.LoopChanged, 0.07)],
            Urgency = ratio < 0.6 ? Urgency.Today : Urgency.Soon,
            Since = _onset,
            FirstNoticed = state.Now,
            Evidence = string.Create(CultureInfo.InvariantCulture,
                $"Since {when} each top-up speeds the sump's fill by only {100 * ratio:0} % of what the same litres did before. Lost water would not change that; drains that hold water back do."),
            FirstAct = "Lift out and rinse the drain screens, lowest first, and see that no tank stands near its rim. Do not top up meanwhile: it would overfill the loop.",
        });
    }
}
