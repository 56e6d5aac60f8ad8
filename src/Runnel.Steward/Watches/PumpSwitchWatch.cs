using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>A pump on level switches, seen by its switch alone: a run, or a fill, that does not end.</summary>
/// <remarks>How long is too long follows the loop: a full one has long runs (run = band / (pump flow - inflow)), a short one long
/// fills, and a lost edge of the log joins two runs and a fill into one. So the limit stands on the longest of the last cycles, on the
/// fill just before, and on water known to have come in or gone out.</remarks>
internal sealed class PumpSwitchWatch : IWatch
{
    public const string Key = "pump";
    private static readonly Duration LeastLimit = Duration.FromMinutes(25);
    private const double UrgentFillS = 75 * 60;
    private const double MostLearntFills = 3;
    private static readonly Duration MostAfterWater = Duration.FromHours(6);

    private readonly SumpLevelHint _level = new();
    private readonly List<(Instant Time, double Seconds)> _longAfterWater = [];
    private readonly List<(Instant Time, double Seconds)> _longFills = [];
    private int _judged;
    private int _cyclesWhenRaised;

    public void Hear(LoopState state, in Reading reading)
    {
        if (reading.Channel == state.Kit.SumpLevel) _level.Take(reading.Time, reading.Value, state.Cycles.Cycles.Count >= CycleHabit.Least);
    }

    public void Look(LoopState state, NoticeBook notices)
    {
        if (state.Kit.PumpRunning < 0 || state.Kit.PumpPower >= 0) return;
        LearnLongRuns(state, notices);
        bool early = notices.Find(Key) is { Urgency: Urgency.Soon };
        if (notices.Stands(Key))
        {
            ClearWhenCyclingAgain(state, notices);
            if (!early || !notices.Stands(Key)) return;
        }

        var cycles = state.Cycles.Cycles;
        int until = early ? _cyclesWhenRaised : cycles.Count;
        if (state.Pump.IsOn is not { } on || CycleHabit.Of(cycles, until, state.Kit.HasSiphon ? 24 : 12) is not { } habit) return;
        bool blind = !state.HasRegularChannel;
        if (state.Working || (state.Silent && !blind)) return;

        var since = Instant.Max(state.Pump.Since, state.ObservedSince);
        var from = Instant.Max(since, state.WorkUntil);
        double lasted = ((blind ? state.Now : state.LastReading) - from).TotalSeconds;
        double limit = (on ? RunLimitS(state, habit, since) : FillLimitS(state, habit, since)) * (blind ? 1.4 : 1);
        if (lasted < limit || (!on && notices.Stands(ShortCyclingWatch.Key) && lasted < 3 * limit)) return;
        if (on)
        {
            Raise(state, notices, PumpSwitchNotices.EndlessRun(state, habit, since, lasted, _level.Place(), blind));
        }
        else
        {
            bool urgent = lasted >= Math.Max(UrgentFillS, 1.8 * limit);
            if (early && !urgent) return;
            var before = CycleHabit.Of(cycles, Math.Max(CycleHabit.Least, until - 12), 100)!;
            Raise(state, notices, PumpSwitchNotices.EndlessFill(state, notices, habit, before, since, lasted, urgent, blind));
        }

        _cyclesWhenRaised = until;
    }

    private static void Raise(LoopState state, NoticeBook notices, Notice notice)
    {
        notices.Replace(Key, notice);
        state.Holds.Begin(Key, notice.Since);
    }

    private double RunLimitS(LoopState state, CycleHabit habit, Instant since)
    {
        double limit = Math.Max(LeastLimit.TotalSeconds, Math.Max(2.5 * habit.LongRunS, 1.2 * ((2 * habit.LongRunS) + habit.LongFillS)));
        var cycles = state.Cycles.Cycles;
        double lastFillS = (since - cycles[^1].RunEnd).TotalSeconds;

        // With inflow near what the pump lifts, no run would end: the fill before it tells.
        if (lastFillS > 0 && 1 / lastFillS > 0.75 * habit.RatePerS) limit *= 2;
        if (!WaterCame(state, since)) return limit;
        double learnt = _longAfterWater.Count == 0 ? 0 : 1.5 * _longAfterWater.Max(r => r.Seconds);
        double opened = 2 * KnownWater.TopUpOpenS(state, since - Duration.FromMinutes(30));
        return Math.Max((1.6 * limit) + opened, Math.Min(learnt, MostAfterWater.TotalSeconds));
    }

    private double FillLimitS(LoopState state, CycleHabit habit, Instant since)
    {
        double limit = Math.Max(LeastLimit.TotalSeconds, Math.Max(2.5 * habit.LongFillS, 1.2 * ((2 * habit.LongFillS) + habit.LongRunS)));
        double outL = KnownWater.DrawnL(state, since - Duration.FromHours(1))
            + ((state.BleedLPerS ?? 0.2) * KnownWater.BleedOpenS(state, since - Duration.FromMinutes(30)));
        double band = state.Kit.BandL ?? 60;
        if (outL > 0) limit += 1.5 * habit.LongFillS * (1 + (outL / band));

        // Fills this long that came to an end by themselves, more than once of late, are how a loop short of water fills.
        var ended = _longFills.Where(f => f.Seconds > limit && f.Seconds < MostLearntFills * limit).Select(f => f.Seconds).ToList();
        return ended.Count < 2 ? limit : Math.Max(limit, 1.25 * ended.Max());
    }

    /// <summary>Rain or a top-up that can have filled the loop.</summary>
    private static bool WaterCame(LoopState state, Instant since) =>
        KnownWater.RainMm(state, since - Duration.FromHours(8)) >= 2
        || KnownWater.TopUpOpenS(state, since - Duration.FromHours(1)) > 0;

    /// <summary>A long run that ended by itself shows how long a well filled loop may take here.</summary>
    private void LearnLongRuns(LoopState state, NoticeBook notices)
    {
        var cycles = state.Cycles.Cycles;
        for (; _judged < cycles.Count; _judged++)
        {
            var cycle = cycles[_judged];
            if (CycleHabit.Of(cycles, _judged, 12) is not { } habit) continue;
            if (cycle.FillS > 2 * habit.LongFillS && !state.Working) _longFills.Add((cycle.RunStart, cycle.FillS));
            if (cycle.RunS < 3 * habit.LongRunS) continue;
            bool bled = KnownWater.BleedOpenS(state, cycle.RunStart) > 0;
            if (!bled && !state.Working && !notices.Stands(Key) && WaterCame(state, cycle.RunStart)) _longAfterWater.Add((cycle.RunEnd, cycle.RunS));
        }

        _longAfterWater.RemoveAll(r => r.Time < state.Now - Duration.FromDays(20));
        _longFills.RemoveAll(f => f.Time < state.Now - Duration.FromDays(10));
    }

    private void ClearWhenCyclingAgain(LoopState state, NoticeBook notices)
    {
        var cycles = state.Cycles.Cycles;

        // The long stretch itself ends one cycle; two more of ordinary length show that the pump lifts again.
        if (cycles.Count < _cyclesWhenRaised + 3 || CycleHabit.Of(cycles, _cyclesWhenRaised, 50) is not { } habit) return;
        for (int i = cycles.Count - 2; i < cycles.Count; i++)
        {
            if (cycles[i].RunS <= 4 * habit.LongRunS && cycles[i].RunS >= 0.2 * habit.RunS && cycles[i].FillS < 6 * habit.LongFillS) continue;
            notices.GoesOn(Key);
            return;
        }

        if (notices.MayEnd(Key, state.Now)) notices.ClearAndRelease(state, Key);
    }
}
