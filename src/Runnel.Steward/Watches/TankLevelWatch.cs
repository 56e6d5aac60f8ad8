using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>The measured level of a tank or trough: near its rim it spills, above all it ever showed its drain fouls.</summary>
internal sealed class TankLevelWatch(PlaceDescription place) : IWatch
{
    private const int LearnDays = 5;
    private static readonly Duration Lag = Duration.FromDays(2);
    private static readonly Duration Lasting = Duration.FromHours(3);
    private readonly Tank?[] _tanks = [.. place.Channels.Select(c => IsTank(place, c) ? new Tank() : null)];

    /// <summary>The level's last minutes, and the highest ten-minute median of each day.</summary>
    private sealed class Tank
    {
        public readonly List<(Instant Time, double Mm)> Last = [];
        public readonly List<(Instant Day, double HighestMm)> Days = [];
        public double HighestMm = double.MinValue;
        public Instant DayEnds;
        public Instant? HighSince;
    }

    public void Hear(LoopState state, in Reading reading)
    {
        if (_tanks[reading.Channel] is not { } tank) return;
        tank.Last.Add((reading.Time, reading.Value));
        if (tank.Last[0].Time < reading.Time - Duration.FromHours(8)) tank.Last.RemoveAll(l => l.Time < state.Now - Duration.FromHours(7));
    }

    public void Look(LoopState state, NoticeBook notices)
    {
        for (int c = 0; c < _tanks.Length; c++)
        {
            if (_tanks[c] is { } tank && !state.Silent) Look(state, notices, tank, c);
        }
    }

    private void Look(LoopState state, NoticeBook notices, Tank tank, int channel)
    {
        var last = tank.Last.Where(l => l.Time > state.Now - Duration.FromMinutes(12)).Select(l => l.Mm).ToList();
        if (last.Count < 2) return;
        double now = Robust.Median(last);
        string key = $"tank {place.Channels[channel].Id}";
        Learn(tank, state.Now, now, notices.Stands(key));
        var usual = tank.Days.Where(d => d.Day < state.Now - Lag).Select(d => d.HighestMm).ToList();
        double? rimMm = place.FindVessel(place.Channels[channel].Of)?.RimM * 1000;
        double habit = usual.Count < LearnDays ? double.NaN : usual.Max();
        double spread = usual.Count < LearnDays ? double.NaN : Math.Max(2, Robust.Spread(usual));
        bool spills = rimMm is { } rim && now > rim - 6 && !(habit > rim - 10);
        bool high = now > habit + Math.Max(12, 5 * spread);
        if (notices.Stands(key))
        {
            if (!spills && !(now > habit + Math.Max(6, 2 * spread))) notices.ClearAndRelease(state, key);
            else if (spills && notices.Find(key)!.Urgency != Urgency.ActNow) Spill(state, notices, tank, channel, key, now, escalate: true);
            return;
        }

        tank.HighSince = high ? tank.HighSince ?? state.Now : null;
        if (state.Working || Fails(notices, channel)) return;
        if (spills) Spill(state, notices, tank, channel, key, now, escalate: false);
        else if (state.Now - tank.HighSince > Lasting && KnownWater.RainMm(state, state.Now - Duration.FromHours(8)) < 3)
        {
            double? hours = HoursToRim(tank, state.Now, now, rimMm);
            notices.RaiseAndHold(state, key, new Notice
            {
                Causes = CauseSet.Of((CauseNames.DrainFouling, 0.6), (CauseNames.TankOverflow, 0.25), (CauseNames.Overfull, 0.1)),
                Urgency = hours < 24 ? Urgency.Today : Urgency.Soon,
                Since = tank.HighSince!.Value,
                FirstNoticed = state.Now,
                TimeLeft = hours is { } h ? Duration.FromMinutes(Math.Floor(h * 0.7 * 4) * 15) : null,
                Evidence = Figures.Text($"The water in {Name(channel)} stands at {now:0} mm, {now - habit:0} mm above all it showed in the days before") + (rimMm is { } r ? Figures.Text($"; its rim is at {r:0} mm.") : "."),
                FirstAct = $"Clean the screen and drain of {Name(channel)} before any more water is let in.",
            });
        }
    }

    private void Spill(LoopState state, NoticeBook notices, Tank tank, int channel, string key, double now, bool escalate)
    {
        var since = notices.Find(key)?.Since ?? tank.HighSince ?? state.Now;
        if (escalate) notices.ClearAndRelease(state, key);
        notices.RaiseAndHold(state, key, new Notice
        {
            Causes = CauseSet.Of((CauseNames.TankOverflow, 0.7), (CauseNames.DrainFouling, 0.25)),
            Urgency = Urgency.ActNow,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = Figures.Text($"The water in {Name(channel)} stands at {now:0} mm, at its rim: it spills, or is about to."),
            FirstAct = $"Clear the screen of {Name(channel)} now, and stop any top-up: it would pour over the rim. Look for fish on the ground.",
        });
    }

    private static void Learn(Tank tank, Instant now, double mm, bool spoken)
    {
        if (now >= tank.DayEnds)
        {
            if (tank.HighestMm > double.MinValue) tank.Days.Add((tank.DayEnds, tank.HighestMm));
            if (tank.Days.Count > 40) tank.Days.RemoveAt(0);
            tank.HighestMm = double.MinValue;
            tank.DayEnds = now + Duration.FromHours(24);
        }

        if (!spoken) tank.HighestMm = Math.Max(tank.HighestMm, mm);
    }

    /// <summary>Hours until the rim at the pace of the last hours; null where it does not rise.</summary>
    private static double? HoursToRim(Tank tank, Instant now, double mm, double? rimMm)
    {
        var early = tank.Last.Where(l => l.Time < now - Duration.FromHours(5)).Select(l => l.Mm).ToList();
        var late = tank.Last.Where(l => l.Time > now - Duration.FromHours(1.5)).Select(l => l.Mm).ToList();
        if (rimMm is not { } rim || early.Count < 3 || late.Count < 3) return null;
        double pace = (Robust.Median(late) - Robust.Median(early)) / 5;
        return pace < 0.2 ? null : Math.Max(0, (rim - mm) / pace);
    }

    private bool Fails(NoticeBook notices, int channel)
    {
        string id = place.Channels[channel].Id;
        return notices.Stands(SensorKeys.Jumping(id)) || notices.Stands(SensorKeys.Frozen(id));
    }

    private string Name(int channel) => $"\"{place.Channels[channel].Of}\"";

    private static bool IsTank(PlaceDescription place, Channel channel) =>
        channel.Measures == Quantity.Level
        && place.FindVessel(channel.Of) is { Kind: not (VesselKind.RainTank or VesselKind.Sump) };
}
