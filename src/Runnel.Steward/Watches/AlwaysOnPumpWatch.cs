using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>A pump that always runs: off for longer than its pause, or, whatever its switch says, the sump rises as it does when the
/// flow stops and all that is on its way comes down.</summary>
internal sealed class AlwaysOnPumpWatch : IWatch
{
    private static readonly Duration AfterPause = Duration.FromMinutes(30);
    private static readonly Duration Grown = Duration.FromMinutes(14);

    /// <summary>A stop brings down what all pauses brought down; a bucket of water brings what it holds.</summary>
    private const double StopShare = 0.7;

    private readonly LevelNow _level = new();
    private readonly PauseHabit _pauses = new();
    private readonly List<double> _stopRises = [];
    private readonly List<double> _perLitre = [];
    private int _offSeen;
    private double _beforeMm;
    private Instant? _raisedSince;
    private double _raisedFromMm;

    public void Hear(LoopState state, in Reading reading)
    {
        if (reading.Channel == state.Kit.SumpLevel && state.Kit.BandL is null) _level.Take(reading.Time, reading.Value);
    }

    public void Look(LoopState state, NoticeBook notices)
    {
        if (state.Kit.BandL is not null) return;
        bool spoken = notices.Stands(PumpSwitchWatch.Key);
        _pauses.Learn(state.Pump, spoken);
        LearnStopRise(state, spoken);
        if (spoken)
        {
            ClearWhenRunning(state, notices);
            return;
        }

        if (state.Working || state.Silent) return;
        if (state.Pump.IsOn == false)
        {
            LookAtPause(state, notices);
            return;
        }

        if (state.Kit.SumpLevel >= 0) LookAtLevel(state, notices);
    }

    private void LookAtPause(LoopState state, NoticeBook notices)
    {
        var since = Instant.Max(state.Pump.Since, state.ObservedSince);
        var lasted = state.LastReading - Instant.Max(since, state.WorkUntil);
        if (lasted < _pauses.Limit(state, since)) return;
        Raise(state, notices, since, _level.Between(since - Duration.FromMinutes(20), since).Mm,
            Figures.Text($"The pump has been off for {Figures.Span(lasted)}, at a time or for a length that is not its habit."),
            (CauseNames.PumpStopped, 0.97));
    }

    private void LookAtLevel(LoopState state, NoticeBook notices)
    {
        var now = state.LastReading;
        var from = Instant.Max(state.ObservedSince, state.Pump.SinceSeen ? state.Pump.Since + AfterPause : state.ObservedSince);
        if (from > now - Duration.FromMinutes(28)) return;
        var (here, n) = _level.Between(now - Duration.FromMinutes(6), now);
        var values = _level.Values;
        if (n == 0 || values.Count < 4 || now - values[^1].Time > Duration.FromMinutes(11)) return;
        if (n == 1) here = Math.Min(values[^1].Mm, values[^2].Mm + (2 * _level.NoiseMm));
        var (before, m) = _level.Between(now - Duration.FromMinutes(30), now - Grown);
        if (m == 0) return;
        double poured = KnownWater.TopUpOpenS(state, now - Duration.FromMinutes(32));
        double litres = poured * (state.TopUpLPerS ?? 0.25);
        double rise = here - before - (1.4 * litres * MmPerLitre(state));
        double rainMm = KnownWater.RainMm(state, now - Duration.FromHours(1));
        double usual = Math.Max(_level.UsualRiseMm, 5 * _level.NoiseMm);
        double limit = _stopRises.Count > 0
            ? Math.Max(StopShare * Robust.Median(_stopRises), 1.3 * usual)
            : Math.Max(30, _level.Days >= 3 ? 1.6 * usual : 3 * usual);
        if (rainMm > 1) limit += 2 * rainMm * (state.Place.Loop.RainCatchM2 ?? 2) * MmPerLitre(state);

        // The last readings must agree: a leap of the sensor comes back at once.
        bool holds = (n >= 2 || values[^2].Mm - before > 0.5 * limit) && !LeaptBack(values, now, 0.4 * limit);
        if (rise < limit || !holds)
        {
            if (poured == 0 && rainMm < 1) _level.LearnRise(now, Math.Max(0, Math.Min(rise, limit)));
            return;
        }

        var since = Onset(values, before, rise);
        bool valve = RisesAsTheTopUp(state, since);
        Raise(state, notices, since, before,
            Figures.Text($"The sump rose by {rise:0} mm in {Figures.Span(now - since)}; {Figures.Span(900)} usually bring less than {usual:0} mm.")
                + (_stopRises.Count > 0 ? Figures.Text($" At its pauses it rises by {Robust.Median(_stopRises):0} mm.") : "")
                + (state.Pump.IsOn == true ? " The pump is switched on." : ""),
            (CauseNames.PumpStopped, valve ? 0.25 : 0.72), (CauseNames.PumpDry, valve ? 0.05 : 0.18), (CauseNames.TopUpStuckOpen, valve ? 0.6 : 0.05),
            (CauseNames.Overfull, 0.04));
    }

    /// <summary>A stop never falls back by itself within the hour; a leaping sensor does at once.</summary>
    private static bool LeaptBack(IReadOnlyList<(Instant Time, double Mm)> values, Instant now, double by)
    {
        for (int i = values.Count - 1; i > 0 && values[i].Time > now - Duration.FromHours(1); i--)
        {
            if (values[i - 1].Mm - values[i].Mm > by) return true;
        }

        return false;
    }

    private static Instant Onset(IReadOnlyList<(Instant Time, double Mm)> values, double before, double rise)
    {
        for (int i = values.Count - 1; i > 0; i--)
        {
            if (values[i - 1].Mm < before + (0.15 * rise)) return values[i - 1].Time;
        }

        return values[0].Time;
    }

    /// <summary>A top-up was ordered just before and the level goes on rising evenly at its rate.</summary>
    private bool RisesAsTheTopUp(LoopState state, Instant since)
    {
        if (KnownWater.TopUpOpenS(state, since - Duration.FromMinutes(20)) <= 0) return false;
        var now = state.LastReading;
        double mmPerMin = 60 * (state.TopUpLPerS ?? 0.17) * MmPerLitre(state);
        var (late, n) = _level.Between(now - Duration.FromMinutes(5), now);
        var (early, m) = _level.Between(now - Duration.FromMinutes(13), now - Duration.FromMinutes(7));
        if (n == 0 || m == 0) return false;
        double pace = (late - early) / 7.5;
        return pace > 0.4 * mmPerMin && pace < 1.8 * mmPerMin;
    }

    /// <summary>Mm the sump rises for a litre let in: as its top-ups showed, or by its footprint.</summary>
    private double MmPerLitre(LoopState state)
    {
        LearnPerLitre(state);
        if (_perLitre.Count >= 3) return Math.Max(0.2, Robust.Median(_perLitre));
        return state.Kit.Sump?.FootprintM2 is { } area ? 1 / area : 2.5;
    }

    private int _pulsesTaken;

    private void LearnPerLitre(LoopState state)
    {
        while (_pulsesTaken < state.Pulses.Count)
        {
            var pulse = state.Pulses[_pulsesTaken];
            var end = pulse.Start + pulse.Length;
            if (state.LastReading < end + Duration.FromMinutes(12)) return;
            _pulsesTaken++;
            if (pulse.Of != "top-up" || pulse.Litres < 3) continue;
            var (after, n) = _level.Between(end + Duration.FromMinutes(1), end + Duration.FromMinutes(12));
            var (before, m) = _level.Between(pulse.Start - Duration.FromMinutes(15), pulse.Start);
            if (n < 2 || m < 2 || after <= before) continue;
            _perLitre.Add((after - before) / pulse.Litres);
            if (_perLitre.Count > 25) _perLitre.RemoveAt(0);
        }
    }

    /// <summary>Each pause shows by how much the sump rises when the flow stops.</summary>
    private void LearnStopRise(LoopState state, bool spoken)
    {
        if (state.Pump.IsOn == false)
        {
            if (_offSeen == 0 && state.Pump.SinceSeen) _beforeMm = _level.Between(state.Pump.Since - Duration.FromMinutes(15), state.Pump.Since).Mm;
            _offSeen++;
            return;
        }

        if (_offSeen > 0 && !spoken && state.Pump.Runs.Count >= 0 && _level.Values.Count > 0)
        {
            var (top, n) = _level.Between(state.Pump.Since - Duration.FromMinutes(4), state.Pump.Since + Duration.FromMinutes(1));
            if (n > 0 && !double.IsNaN(_beforeMm) && top - _beforeMm > 5 * _level.NoiseMm) _stopRises.Add(top - _beforeMm);
        }

        _offSeen = 0;
    }

    private void Raise(
        LoopState state, NoticeBook notices, Instant since, double fromMm, string evidence, params ReadOnlySpan<(string, double)> causes)
    {
        notices.RaiseAndHold(state, PumpSwitchWatch.Key, new Notice
        {
            Causes = CauseSet.Of(causes),
            Urgency = Urgency.ActNow,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = evidence,
            FirstAct = "See that the air runs, then look whether water runs from the pump's outlet. If not, look at its plug, breaker and inlet; switch it off at the wall before you reach into the sump.",
        });
        (_raisedSince, _raisedFromMm) = (since, fromMm);
    }

    private void ClearWhenRunning(LoopState state, NoticeBook notices)
    {
        if (_raisedSince is null || state.Pump.IsOn == false) return;
        if (state.Kit.SumpLevel < 0)
        {
            if (state.Pump.Since > _raisedSince) notices.ClearAndRelease(state, PumpSwitchWatch.Key);
            return;
        }

        var (here, n) = _level.Between(state.LastReading - Duration.FromMinutes(10), state.LastReading);
        var notice = notices.Find(PumpSwitchWatch.Key)!;
        double usual = Math.Max(_level.UsualRiseMm, 6 * _level.NoiseMm);
        if (n > 1 && state.Now - notice.FirstNoticed > Duration.FromMinutes(10) && here < _raisedFromMm + usual) notices.ClearAndRelease(state, PumpSwitchWatch.Key);
    }
}
