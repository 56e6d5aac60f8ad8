using NodaTime;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;
using Runnel.Steward.Store;
using Runnel.Steward.Watches;

namespace Runnel.Steward.Drift;

/// <summary>Water that goes missing hour after hour, or comes unasked: the balance over 4 to 48 hours against its own spread.</summary>
internal sealed class LeakWatch(ResponseWatch responses, TopUpEffectWatch topUps) : IWatch
{
    /// <summary>Keys under which its notices stand.</summary>
    public const string LossKey = "loss", GainKey = "gain";

    // Per window length: the z from which it speaks, and the least rate worth a word, L/h. Run lengths in docs/detection.md.
    private static readonly double[] LossZ = [5.5, 5, 4.5, 4, 4, 4];
    private static readonly double[] LeastLPerH = [10, 2.5, 1.6, 0.9, 0.6, 0.5];

    // Drains that foul at a tenth of their capacity a day are quick ones (common practice).
    private const double QuickestFoulingADay = 0.1;

    /// <summary>Drains that foul by 8 % a day raise a household's tanks and troughs by 1 to 2 cm a day: some 80 L on 5 m2 (reckoned from
    /// an orifice's square law).</summary>
    private const double QuickestHoldUpLPerH = 3.5;
    private static readonly Duration Patience = Duration.FromHours(40);

    /// <summary>Share of fouling in a slow loss of which the pulses tell nothing.</summary>
    private const double Untold = 0.35;

    /// <summary>Odds from which a loss that shows at top-ups only is told at all, as a logarithm.</summary>
    private const double SureOfEmpty = 1.5;

    /// <summary>A loss as large as this is never taken for a habit, however long it stays.</summary>
    private const double HabitLPerH = 2;

    /// <summary>Position of the 12-hour window, the shortest that tells when a loss is over.</summary>
    private const int ClearingWindow = 2;

    /// <summary>Where cycles are long: when a loss or gain was last to be seen.</summary>
    private readonly Dictionary<string, Instant> _lastSeen = [];
    private Instant? _firstSeen;
    private bool _seenShortly;
    private LossWindows? _windows;
    private readonly Dictionary<string, Standing> _standing = [];

    public void Look(LoopState state, NoticeBook notices)
    {
        if (!state.OnTheHour) return;
        _windows ??= new LossWindows(state);

        // A fill still going on when an hour closes is read later: with long cycles the newest hour says too little.
        int last = state.Balance.HourCount - (state.Cycles.AreLong ? 2 : 1);
        if (last < 240 || !state.Balance.Gauge.Known) return;
        if (!_windows.Learnt || last % 24 == 0) _windows.Learn(last);

        if (!_windows.Learnt || state.Balance.Use.Count < 8 || state.Working || state.Silent) return;
        var rates = _windows.All(last);
        Follow(state, notices, LossKey, +1, last, rates);
        Follow(state, notices, GainKey, -1, last, rates);
    }

    private void Follow(LoopState state, NoticeBook notices, string key, int sign, int last, LossWindows.Rate[] rates)
    {
        if (notices.Stands(key))
        {
            ClearWhenOver(state, notices, key, sign, rates);
            return;
        }

        if (notices.Named(state.Now - Duration.FromHours(24), CauseNames.PumpStopped, CauseNames.PumpDry, CauseNames.PumpStuckOn,
            CauseNames.PumpShortCycling, CauseNames.TopUpStuckOpen, CauseNames.BleedStuckOpen)) return;

        // The last top-ups left no mark: whether they came at all is told first, and then what is missing may be just they.
        if (sign > 0 && topUps.Doubts(state)) return;
        for (int k = 0; k < LossWindows.Lengths.Length; k++)
        {
            var rate = rates[k];
            int length = LossWindows.Lengths[k];
            if (double.IsNaN(rate.LPerH) || sign * rate.Z < LossZ[k] || sign * rate.LPerH < LeastLPerH[k]) continue;
            if (sign > 0 && rate.LPerH * length > WaterThatCouldGo(state, last, length)) continue;
            if (!Goes(state, last, length, sign)) continue;
            if (state.Kit.HasSiphon && length <= 8 && !_seenShortly)
            {
                // A siphon that falls in or out of step looks like hours of loss; it must still be there an hour later.
                _seenShortly = true;
                return;
            }

            // One long fill more or less moves a window of few readings: it must be there at the look of an hour before too.
            if (state.Cycles.AreLong)
            {
                if (sign < 0 && length <= 8) continue;
                bool seenBefore = state.Now - _lastSeen.GetValueOrDefault(key) <= Duration.FromHours(1);
                _lastSeen[key] = state.Now;
                if (!seenBefore) return;
            }

            var since = Onset(state, last, length, sign);
            // How many litres it is hangs on the gauge too; that something goes missing does not.
            double plusMinus = 1.645 * Math.Sqrt(Math.Pow(rate.SpreadLPerH, 2) + Math.Pow(state.Balance.Gauge.RelativeSpread * rate.LPerH, 2));
            if (sign < 0)
            {
                Open(state, notices, key, -rate.LPerH, k, since, LossNotices.Gain(state, -rate.LPerH, plusMinus, since, length));
                return;
            }

            // Odds that what is missing is the top-ups, which never came; short windows do not tell.
            double toppedUp = TopUpLPerH(state, last, length);
            double empty = length < 24 ? double.NegativeInfinity : EmptyTopUps.LogOdds(state, since, rate, toppedUp);
            if (empty < SureOfEmpty && OnlyAtPulses(state, rate.LPerH, last, length)) continue;
            if (empty > 0)
            {
                Open(state, notices, key, rate.LPerH, k, since, LossNotices.WithoutEffect(
                    state, rate.LPerH, plusMinus, toppedUp, since, length, 1 / (1 + Math.Exp(-empty))));
                return;
            }

            double fouling = FoulingShare(state, rate.LPerH, since);
            if (double.IsNaN(fouling)) return;
            if (fouling > 0.5 && (notices.Stands(ResponseWatch.Key) || notices.Stands(RunCurveWatch.FoulingKey))) return;
            Open(state, notices, key, rate.LPerH, k, since, LossNotices.Loss(state, rate.LPerH, plusMinus, since, length, fouling));
            return;
        }

        _firstSeen = null;
        if (sign > 0) _seenShortly = false;
    }

    /// <summary>How far a seeming loss may be fouled drains holding water back, 0 to 1; NaN: not to be told yet, wait. A slow loss could be
    /// either; what the known pulses do since it began parts the two, since a leak leaves their effect as it was.</summary>
    private double FoulingShare(LoopState state, double rate, Instant since)
    {
        // Where the pump always runs, the drains' levels follow its flow alone: pulses tell nothing, and only a loss too quick for fouling is parted.
        if (state.Kit.BandL is null) return rate > QuickestHoldUpLPerH ? 0.06 : Untold;
        if (rate > QuickestFoulingADay / 24 * state.Balance.Gauge.LitresPerUnit) return 0.06;
        var (z, ratio, count) = responses.Since(since + Duration.FromHours(6));
        if (count >= 1 && z < -2 && ratio < 0.92) return 0.8;
        if (count >= 2 && z > -1.5) return 0.12;
        if (!responses.Reads) return Untold;
        _firstSeen ??= state.Now;
        return state.Now - _firstSeen < Patience ? double.NaN : Untold;
    }

    /// <summary>Known pulses in the window may be all the loss there is: litres that were counted but never came. A leak goes on between
    /// them too.</summary>
    private bool OnlyAtPulses(LoopState state, double rate, int last, int length)
    {
        int first = last - length + 1;
        if (TopUpLPerH(state, last, length) < 0.5 * rate) return false;
        var (litres, _) = state.Balance.Unexplained(first, last);
        double lost = 0;
        int quiet = 0;
        for (int i = 1; i < length; i++)
        {
            bool pulse = false;
            for (int j = Math.Max(0, first + i - 2); j <= first + i; j++) pulse |= state.Hours.Hours[j].TopUpL > 0;
            if (pulse || double.IsNaN(litres[i]) || double.IsNaN(litres[i - 1])) continue;
            lost += litres[i - 1] - litres[i];
            quiet++;
        }

        if (quiet >= 2) return lost / quiet < 0.5 * rate;
        var (_, ratio, count) = responses.Since(state.Balance.Start(first));
        return count > 0 && ratio < 0.5;
    }

    /// <summary>Litres that a loss could have taken from the loop in a window: what was above the sills, and what came. More is no loss but a
    /// store that is misread.</summary>
    private static double WaterThatCouldGo(LoopState state, int last, int length)
    {
        if (state.Kit.BandL is null) return double.PositiveInfinity;
        var start = state.Balance.Start(last - length + 1);
        var (g, count) = state.Store.Between(start - Duration.FromHours(length), start + Duration.FromHours(length));
        double came = 0;
        for (int hour = last - length + 1; hour <= last; hour++) came += Math.Max(0, state.Balance.KnownL(hour));
        return count == 0 ? double.PositiveInfinity : (state.Balance.Gauge.LitresPerUnit * g) + came;
    }

    /// <summary>It goes on: not one draw, not only by day when plants and sun may have taken more than thought.</summary>
    private static bool Goes(LoopState state, int last, int length, int sign)
    {
        int first = last - length + 1;
        if (state.LearningHeld(state.Balance.Start(first), state.Balance.Start(last))) return false;
        var (litres, counts) = state.Balance.Unexplained(first, last);
        double total = -sign * HourSeries.Slope(litres, counts, 0, length) * (length - 1);
        double steepest = HourSeries.Steepest(litres, counts, reach: length >= 12 ? 4 : 2, sign, scatter: length >= 24 ? Scatter(state) : 0);
        if (total - steepest < (length <= 4 ? 0.25 : 0.5) * total) return false;

        // It goes on now, not only earlier in the window: a turned valve or a draw lets the loop settle within hours.
        int tail = Math.Max(3, length / (counts.Sum() < 2 * length ? 2 : 4));
        double lately = -sign * HourSeries.Slope(litres[^tail..], counts[^tail..], 0, tail);
        if (!(lately > 0.5 * total / (length - 1))) return false;

        // Rain that was not caught by the gauge, or that ran off elsewhere, goes on for hours after the storm.
        if (sign < 0)
        {
            // Where no gauge tells of rain, a gain within a day may be a shower.
            if (state.Kit.Rain < 0 && state.Place.Loop.RainCatchM2 is not 0 && length < 24) return false;
            for (int hour = Math.Max(0, first - 6); hour <= last; hour++)
            {
                if (state.Hours.Hours[hour].RainMm > 0.3) return false;
            }
        }

        if (length < 24) return true;
        return GoesByNight(state, litres, counts, first, sign, 0.45 * total / (length - 1));
    }

    /// <summary>By night too it goes on at such a rate, or may do so as far as the scatter of the readings lets one see.</summary>
    private static bool GoesByNight(LoopState state, double[] litres, int[] counts, int first, int sign, double leastLPerH)
    {
        double night = 0, ends = 0;
        int hours = 0;
        bool before = false;
        for (int i = 1; i < litres.Length; i++)
        {
            bool within = !double.IsNaN(litres[i]) && !double.IsNaN(litres[i - 1]) && !state.Balance.IsDay(first + i) && !state.Balance.IsDay(first + i - 1);
            if (within)
            {
                night += sign * (litres[i - 1] - litres[i]);
                hours++;
            }

            // Each stretch scatters by its two ends.
            if (within != before) ends += 1.0 / counts[i - 1];
            before = within;
        }

        if (hours < 4) return false;
        return night + Math.Min(Scatter(state) * Math.Sqrt(ends), 0.5 * leastLPerH * hours) > leastLPerH * hours;
    }

    /// <summary>Scatter of the litres told by one reading of the store (standard deviation).</summary>
    private static double Scatter(LoopState state) => state.Balance.Gauge.LitresPerUnit * state.Balance.ReadingSpread;

    private static double TopUpLPerH(LoopState state, int last, int length)
    {
        double litres = 0;
        for (int hour = last - length + 1; hour <= last; hour++) litres += state.Hours.Hours[hour].TopUpL;
        return litres / length;
    }

    private void Open(LoopState state, NoticeBook notices, string key, double rate, int window, Instant since, Notice notice)
    {
        _standing[key] = new Standing(rate, Math.Max(ClearingWindow, window), state.Now);
        state.Holds.Begin(key, since - Duration.FromHours(2));
        notices.Raise(key, notice);
    }

    /// <summary>When the loss began: the bend that fits the last days best, level before and falling steadily after.</summary>
    private static Instant Onset(LoopState state, int last, int length, int sign)
    {
        int span = Math.Max(24, 2 * length), first = Math.Max(0, last - span + 1);
        var (litres, _) = state.Balance.Unexplained(first, last);
        double best = double.MaxValue;
        int bend = litres.Length - length;
        for (int at = 2; at < litres.Length - 2; at++)
        {
            double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0, syy = 0;
            for (int i = 0; i < litres.Length; i++)
            {
                if (double.IsNaN(litres[i])) continue;
                double x = Math.Max(0, i - at), y = litres[i];
                n++;
                sx += x;
                sy += y;
                sxx += x * x;
                sxy += x * y;
                syy += y * y;
            }

            double dxx = sxx - (sx * sx / n), dxy = sxy - (sx * sy / n), dyy = syy - (sy * sy / n);
            if (dxx <= 0 || sign * dxy >= 0) continue;
            double rest = dyy - (dxy * dxy / dxx);
            if (rest < best) (best, bend) = (rest, at);
        }

        return state.Balance.Start(first + bend);
    }

    private void ClearWhenOver(LoopState state, NoticeBook notices, string key, int sign, LossWindows.Rate[] rates)
    {
        var standing = _standing[key];
        var rate = rates[standing.Window];
        if (double.IsNaN(rate.LPerH)) return;
        if (sign * rate.LPerH > Math.Max(0.4 * standing.LPerH, 2 * rate.SpreadLPerH)) _standing[key] = standing = standing with { QuietSince = state.Now };

        // A small loss that stays for a month unanswered is a habit of the loop by now: it is learnt, so that a new one can be seen.
        bool habit = standing.LPerH < HabitLPerH && state.Now - notices.Find(key)!.FirstNoticed > Duration.FromDays(30);
        if (!habit && state.Now - standing.QuietSince < Duration.FromHours(30)) return;
        notices.Clear(key, habit ? state.Now : standing.QuietSince);
        state.Holds.Release(key, habit ? state.Now - Duration.FromDays(3) : state.Now);
    }

    /// <summary>What a standing notice said, and since when it seems over.</summary>
    /// <param name="Window">Position of the window that tells when it is over.</param>
    private sealed record Standing(double LPerH, int Window, Instant QuietSince);
}
