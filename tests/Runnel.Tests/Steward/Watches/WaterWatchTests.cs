using Runnel.Place;
using Runnel.Place.Findings;
using static Runnel.Tests.Steward.Watches.HandMadeLog;

namespace Runnel.Tests.Steward.Watches;

public sealed class WaterWatchTests
{
    private const double Day = 24;
    private static readonly Channel Water = new("water", Quantity.WaterTemperature);

    private static HandMadeLog Tank(double days, Func<double, double> mm, double? rimM = 0.9)
    {
        var log = Of(60, rimM, PumpSwitch, TopUp, TankLevel, Air).Course(Air, 0, days * Day);
        log.Cycles(0, days * Day, 7, 4);
        for (double t = 0; t < days * Day; t += 5 / 60.0) log.Put(TankLevel, t, Math.Round(mm(t) + (1.5 * log.Wobble())));
        return log;
    }

    private static double Steady(double t) => 800 + (4 * Math.Sin(t / 24 * 2 * Math.PI));

    [Fact]
    public void A_steady_tank_is_left_alone() => Assert.Empty(Tank(14, Steady).Notices());

    [Fact]
    public void A_tank_that_rises_beyond_all_it_showed_is_told_before_it_spills_with_the_time_left()
    {
        double onset = 10 * Day;
        var notices = Tank(11.5, t => Steady(t) + Math.Max(0, (t - onset) * 4)).Notices();
        Assert.Equal(CauseNames.DrainFouling, notices[0].Cause);
        Assert.Contains("tank", notices[0].FirstAct, StringComparison.Ordinal);

        // 96 mm at 4 mm/h: the rim is reached 24 h after the onset.
        Assert.InRange(notices[0].HoursAfter(onset), 0, 16);
        double spillsIn = 24 - notices[0].HoursAfter(onset);
        Assert.InRange(notices[0].TimeLeft!.Value.TotalHours, 0.3 * spillsIn, spillsIn);
        var spill = Assert.Single(notices, n => n.Urgency == Urgency.ActNow);
        Assert.Equal(CauseNames.TankOverflow, spill.Cause);
        Assert.InRange(spill.HoursAfter(onset), 20, 25);
    }

    [Fact]
    public void Water_too_warm_is_told_after_it_has_lasted_and_cleared_when_it_is_over()
    {
        var log = Of(60, null, PumpSwitch, Air, Water).Course(Air, 0, 3 * Day);
        log.Cycles(0, 3 * Day, 7, 4);
        for (double t = 0; t < 3 * Day; t += 1 / 6.0) log.Put(Water, t, Math.Round(t is > 50 and < 54 ? 34.6 : 27 + Math.Sin(t / 4), 1));
        var notice = Assert.Single(log.Notices());
        Assert.Equal(CauseNames.WaterTooWarm, notice.Cause);
        Assert.InRange(notice.HoursAfter(50), 0.5, 1.2);
        Assert.NotNull(notice.Cleared);
    }

    [Fact]
    public void One_wild_value_is_not_warm_water()
    {
        var log = Of(60, null, PumpSwitch, Air, Water).Course(Air, 0, 3 * Day);
        log.Cycles(0, 3 * Day, 7, 4);
        for (double t = 0; t < 3 * Day; t += 1 / 6.0) log.Put(Water, t, (int)(t * 6) == 300 ? 85 : Math.Round(27 + Math.Sin(t / 4), 1));
        Assert.Empty(log.Notices());
    }

    [Fact]
    public void A_siphon_that_flushes_no_more_is_told_by_its_lost_beat_within_two_days()
    {
        double onset = 16 * Day;
        var place = new HandMadeLog().Place with
        {
            Vessels = [new Vessel("bed", VesselKind.MediaBed, Outlet: OutletKind.Siphon), new Vessel("sump", VesselKind.Sump, BandL: 60)],
        };
        var log = new HandMadeLog(place).Course(Air, 0, 20 * Day);
        int n = 0;
        log.Cycles(0, 20 * Day, t => t < onset && n++ % 3 == 0 ? 5 : 7, _ => 4, 0.02);
        var notice = log.Notices().One(CauseNames.SiphonStuck);
        Assert.Equal(CauseNames.SiphonStuck, notice.Cause);
        Assert.InRange(notice.HoursAfter(onset), 0, 48);

        n = 0;
        var sound = new HandMadeLog(place).Course(Air, 0, 20 * Day);
        sound.Cycles(0, 20 * Day, _ => n++ % 3 == 0 ? 5 : 7, _ => 4, 0.02);
        Assert.DoesNotContain(sound.Notices(), x => x.Cause == CauseNames.SiphonStuck);
    }
}
