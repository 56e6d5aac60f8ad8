using NodaTime;
using Runnel.Place.Findings;
using Runnel.Science.Statistics;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Drift;

/// <summary>The pump's run against the fills about it, half-day by half-day, against the curve learnt in health. A slow departure is
/// wear or fouling; a step is a change that someone made, and is asked about.</summary>
/// <remarks>A two-sided CUSUM (Page 1954) decides that there is something; shapes fitted to the same departures decide what it is.
/// Allowance, decision interval and their run lengths are in docs/detection.md.</remarks>
internal sealed class RunCurveWatch(ResponseWatch responses) : IWatch
{
    /// <summary>Keys under which its notices stand.</summary>
    public const string WearKey = "run-curve-wear", FoulingKey = "run-curve-fouling";
    private const double Clip = 4;
    private static readonly CusumDesign Chart = new(Target: 0, Slack: 0.6, Limit: 5);
    private static readonly Duration Schooling = Duration.FromDays(9), Lag = Duration.FromDays(4), Memory = Duration.FromDays(14);
    private static readonly Duration Patience = Duration.FromHours(26);

    /// <summary>A departure of this share is worth a word.</summary>
    private const double LeastWear = 0.015, LeastFouling = 0.012;
    private static readonly Duration Level = Duration.FromDays(8);

    /// <summary>The level after a step is that of a few half-days, so that more is asked for until it is a settled one.</summary>
    private const double UnsettledShare = 1.5;
    private static readonly Duration Unsettled = Duration.FromDays(12);

    /// <summary>A few bins at the end that climb are a passing thing or a step; a ramp needs a day and more to be one.</summary>
    private static readonly Duration YoungestRamp = Duration.FromHours(26);

    private readonly CurveBins _bins = new();
    private readonly List<Half> _scores = [];
    private readonly List<(Instant Time, RunCurve Curve, double Offset, double Spread)> _learnt = [];
    private Instant _regimeStart = Instant.MinValue;
    private double _offset;
    private Instant? _pendingSince;
    private int _lastSign;
    private Instant _lastStep = Instant.MinValue;
    private readonly List<(Instant Start, Instant End)> _taughtNothing = [];
    private Instant? _since;
    private string _key = WearKey;
    private double _noticed;
    private int _calm;

    /// <summary>The healthy curve as last learnt, or null.</summary>
    public RunCurve? Curve { get; private set; }

    /// <summary>Spread of a half-day's departure in health.</summary>
    public double HalfDaySpread { get; private set; } = double.NaN;

    /// <summary>Departures by half-day, as they stood when each was taken.</summary>
    public List<TimeBand> History { get; } = [];

    public void Look(LoopState state, NoticeBook notices)
    {
        if (!state.OnTheHour || state.Kit.BandL is null) return;
        _bins.Take(state.Cycles.Cycles, state.Store.UsualFillS);
        if (state.Now.InZone(state.Place.Zone).Hour is not (6 or 18)) return;
        if (_regimeStart == Instant.MinValue) _regimeStart = state.Began;
        if (state.Now - state.Began < Schooling || state.Silent) return;
        Learn(state);
        if (Curve is null || double.IsNaN(HalfDaySpread)) return;
        var halves = Halves(state, Instant.Max(state.Now - Memory, Instant.Max(_regimeStart, state.Began + Duration.FromDays(2))));
        if (halves.Count == 0) return;
        _learnt.Add((state.Now, Curve, _offset, HalfDaySpread));
        var newest = halves[^1];
        if (_scores.Count == 0 || newest.Start > _scores[^1].Start) _scores.Add(newest);
        History.Add(new TimeBand(newest.Middle, 100 * newest.Departure,
            100 * (newest.Departure - (1.645 * newest.Spread)), 100 * (newest.Departure + (1.645 * newest.Spread))));
        if (notices.Stands(ResponseWatch.Key)) _pendingSince = null;
        else if (_since is not null) Follow(state, notices, halves);
        else Judge(state, notices, halves);
    }

    private readonly record struct Half(Instant Start, Instant Middle, bool Night, double Departure, double Spread)
    {
        public double Z => Departure / Spread;
    }

    private void Learn(LoopState state)
    {
        bool first = _regimeStart == state.Began;
        var cutoff = first && state.Now - _regimeStart < Schooling + Lag ? state.Now - Duration.FromDays(1) : state.Now - Lag;
        var healthy = _bins.Bins.Where(b => b.Start >= _regimeStart && b.Start < cutoff && Teaches(state, b.Start)).ToList();

        // After a step the slope learnt before it still holds; only the level is new.
        if (Curve is null || healthy.Count > 100 || first) Curve = RunCurve.Fit(healthy) ?? Curve;
        if (Curve is null) return;
        _offset = 0;
        var halves = Halves(state, _regimeStart).Where(h => Teaches(state, h.Start)).ToList();
        LearnLevel(state, halves, cutoff);
        LearnSpread(state, halves, cutoff);
    }

    /// <summary>The level is that of the week before the last days: mains, temperature and slime move it by a per cent or two in a month, in
    /// health too, and only what is quicker is looked for.</summary>
    private void LearnLevel(LoopState state, List<Half> halves, Instant cutoff)
    {
        var recent = halves.Where(h => h.Start < cutoff && h.Start >= cutoff - Level).ToList();
        if (recent.Count < 6) recent = [.. Halves(state, _regimeStart).Take(8)];
        _offset = recent.Count == 0 ? 0 : recent.Average(h => h.Departure);
    }

    private void LearnSpread(LoopState state, List<Half> halves, Instant cutoff)
    {
        var off = _scores.Where(s => s.Start < cutoff && Teaches(state, s.Start)).Select(s => Math.Abs(s.Departure)).ToList();
        double widen = 1;
        if (off.Count < 12)
        {
            // Before the watch has scored half-days of its own: the schooling days about their own mean, a little widened.
            var schooling = halves.Where(h => h.Start < cutoff).ToList();
            if (schooling.Count < 10) return;
            double mean = schooling.Average(h => h.Departure);
            off = [.. schooling.Select(h => Math.Abs(h.Departure - mean))];
            widen = 1.25;
        }

        off.Sort();
        HalfDaySpread = Math.Max(widen * HealthySpread.Of(off, 0.9, 1.645), 0.0035);
    }

    private bool Teaches(LoopState state, Instant time) =>
        !(time >= _since) && !state.LearningHeld(time, time + Duration.FromHours(2)) && !_taughtNothing.Exists(t => time >= t.Start && time < t.End);

    /// <summary>Departures of whole half-days (06 to 18 and 18 to 06 by the clock of the place) from a time on.</summary>
    private List<Half> Halves(LoopState state, Instant from, Instant? to = null)
    {
        var halves = new List<Half>();
        int n = 0;
        double sum = 0, fill = 0;
        long current = long.MinValue;
        var start = Instant.MinValue;
        bool night = false;
        void Close()
        {
            if (n >= 6)
            {
                double error = Curve!.DepartureError(fill / n);
                double spread = double.IsNaN(HalfDaySpread) ? 1 : HalfDaySpread;
                halves.Add(new Half(start, start + Duration.FromHours(6), night, sum / n, Math.Sqrt((spread * spread * 1.05) + (error * error))));
            }

            n = 0;
            sum = fill = 0;
        }

        foreach (var bin in _bins.Bins)
        {
            if (bin.Start < from || (to is { } end && bin.Start >= end)) continue;
            var local = bin.Start.InZone(state.Place.Zone);
            bool isNight = local.Hour is < 6 or >= 18;
            long half = (long)Math.Floor((bin.Start.ToUnixTimeSeconds() + local.Offset.Seconds - 21600) / 43200.0);
            if (half != current) Close();
            if (n == 0) start = bin.Start;
            (current, night) = (half, isNight);
            int w = Math.Min(bin.Count, 12);
            n += w;
            sum += w * (Curve!.Departure(bin) - _offset);
            fill += w * bin.InverseFill;
        }

        Close();
        return halves;
    }

    private void Judge(LoopState state, NoticeBook notices, List<Half> halves)
    {
        var sums = Cusum.Start();
        foreach (var half in halves) sums = Cusum.Next(sums, Math.Clamp(half.Z, -Clip, Clip), Chart);
        int sign = Cusum.SignalsHigh(sums, Chart) ? 1 : Cusum.SignalsLow(sums, Chart) ? -1 : 0;
        double size = halves.TakeLast(2).Average(h => h.Departure);
        double least = (sign > 0 ? LeastWear : LeastFouling) * (_regimeStart > state.Began && state.Now - _regimeStart < Unsettled ? UnsettledShare : 1);
        if (sign == 0 || sign * size < least)
        {
            _pendingSince = null;
            return;
        }

        if (notices.Spoke(state.Now - Duration.FromHours(36), CauseNames.PumpStopped, CauseNames.PumpDry, CauseNames.PumpStuckOn,
            CauseNames.PumpShortCycling, CauseNames.TopUpStuckOpen, CauseNames.SiphonStuck)) return;
        if (sign != _lastSign) _pendingSince = null;
        _lastSign = sign;
        _pendingSince ??= state.Now;
        Decide(state, notices, sign, halves);
    }

    private void Decide(LoopState state, NoticeBook notices, int sign, List<Half> halves)
    {
        var bins = _bins.Bins.Where(b => b.Start >= halves[0].Start).ToList();
        double[] days = [.. bins.Select(b => (b.Start - bins[0].Start).TotalDays)];
        double[] departures = [.. bins.Select(b => Curve!.Departure(b) - _offset)];
        bool[] night = [.. bins.Select(b => b.Start.InZone(state.Place.Zone).Hour is < 6 or >= 18)];
        double variance = HalfDaySpread * HalfDaySpread * 5;
        var step = StepOrRamp.Fit(days, departures, night, variance, DepartureShape.Step);
        var ramp = StepOrRamp.Fit(days, departures, night, variance, DepartureShape.Ramp);
        var nightStep = StepOrRamp.Fit(days, departures, night, variance, DepartureShape.NightStep);
        var dayStep = StepOrRamp.Fit(days, departures, night, variance, DepartureShape.DayStep);
        if (nightStep.Gain > step.Gain + 3) step = nightStep;
        if (dayStep.Gain > step.Gain + 3) step = dayStep;

        // Right after a step was granted, more of the same sign speaks for a ramp that was taken for one.
        double lead = step.Gain - ramp.Gain;
        if (state.Now - _lastStep < Duration.FromDays(10)) lead -= 3;
        bool outOfPatience = state.Now - _pendingSince! > Patience;
        bool tooYoung = bins[^1].Start - bins[ramp.Onset].Start < YoungestRamp;
        if (lead > 3.5 || (outOfPatience && lead > 0)) Step(state, notices, sign, step, bins);
        else if (!tooYoung && (lead < -1.5 || outOfPatience)) Ramp(state, notices, sign, ramp, lead, bins, outOfPatience);
    }

    private void Step(LoopState state, NoticeBook notices, int sign, ShapeFit step, List<CurveBin> bins)
    {
        var since = bins[step.Onset].Start;
        notices.Tell(CurveNotices.Step(state, this, sign, step, since, FillsShorter(bins, step.Onset)));
        responses.Restart(since);
        _regimeStart = since;
        _lastStep = state.Now;
        _pendingSince = null;
    }

    /// <summary>By what share fills became shorter at a step, from the day before to the day after.</summary>
    private static double FillsShorter(List<CurveBin> bins, int onset)
    {
        var before = bins.Take(onset).TakeLast(12).ToList();
        var after = bins.Skip(onset).Take(12).ToList();
        return before.Count < 3 || after.Count < 3 ? 0 : Math.Log(after.Average(b => b.InverseFill) / before.Average(b => b.InverseFill));
    }

    private void Ramp(
        LoopState state, NoticeBook notices, int sign, ShapeFit ramp, double lead, List<CurveBin> bins, bool outOfPatience)
    {
        var since = bins[ramp.Onset].Start;
        double now = ramp.Size * (bins[^1].Start - since).TotalDays;
        double fouling = FoulingOrWear.ShareOfFouling(state, responses, since, Math.Abs(ramp.Size), runsAreLonger: sign > 0);

        // Shorter runs with the water as it was are neither: mains voltage or warmth, learnt by the level in days.
        if (sign < 0 && fouling < 0.5) return;

        // Between wear and fouling the water decides; while it is silent, wait for the next top-up.
        if (fouling is > 0.3 and < 0.7 && !outOfPatience) return;
        _key = fouling > 0.5 ? FoulingKey : WearKey;
        if (_key == FoulingKey && (notices.Stands(ResponseWatch.Key) || notices.Stands(LeakWatch.LossKey))) return;
        notices.Raise(_key, fouling > 0.5
            ? CurveNotices.Fouling(state, this, sign, ramp.Size, lead, fouling, since, bins)
            : CurveNotices.Wear(state, this, ramp.Size, now, lead, fouling, since, bins));
        if (_key == FoulingKey) state.Holds.Begin(_key, since);
        _since = since;
        _noticed = Math.Abs(now);
        _pendingSince = null;
        _calm = 0;
    }

    private void Follow(LoopState state, NoticeBook notices, List<Half> halves)
    {
        _calm = Math.Abs(halves[^1].Departure) < Math.Max(0.35 * _noticed, 1.2 * HalfDaySpread) ? _calm + 1 : 0;
        if (_calm < 3) return;

        // What lies between the onset and the mending taught nothing: health is learnt from the mending on, on the old slope.
        var mended = halves[^3].Start;
        notices.Clear(_key, mended);
        state.Holds.Release(_key, mended);
        _taughtNothing.Add((_since!.Value, mended));
        _since = null;
        _calm = 0;
    }

    /// <summary>Run that health calls for at that 1/fill, s; for words and charts.</summary>
    public double ExpectedRunS(double inverseFill) => Math.Exp(_offset) / Curve!.Expected(inverseFill);

    /// <summary>The healthy curve as it stood at a time (the first learnt, where the time is earlier): run in s over 1/fill, with the
    /// standard deviation of a half-day about it as a share; null where none was learnt.</summary>
    public Func<double, (double RunS, double Spread)>? LearntAt(Instant time)
    {
        if (_learnt.Count == 0) return null;
        var (_, curve, offset, spread) = _learnt.FindLast(l => l.Time <= time) is { Curve: not null } found ? found : _learnt[0];
        return inverseFill => (Math.Exp(offset) / curve.Expected(inverseFill), Math.Sqrt(Math.Pow(spread, 2) + Math.Pow(curve.DepartureError(inverseFill), 2)));
    }
}
