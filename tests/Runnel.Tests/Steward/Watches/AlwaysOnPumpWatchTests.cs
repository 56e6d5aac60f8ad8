using Runnel.Place.Findings;
using static Runnel.Tests.Steward.Watches.HandMadeLog;

namespace Runnel.Tests.Steward.Watches;

public sealed class AlwaysOnPumpWatchTests
{
    private const double Day = 24;

    /// <summary>A sump level every two minutes about 300 mm with 1.5 mm of noise; the pump pauses for ten minutes once a week at 11:00, and
    /// 120 mm come down then.</summary>
    private static HandMadeLog Log(double days, Func<double, double> extraMm, double pumpOffFrom = 1e9)
    {
        var log = Of(null, null, PumpSwitch, TopUp, SumpLevel);
        for (double t = 0; t < days * Day; t += 0.5)
        {
            bool on = t < pumpOffFrom;
            log.Put(PumpSwitch, t, on ? 1 : 0);
        }

        for (double w = 11 + (2 * Day); w < days * Day; w += 7 * Day) log.Put(PumpSwitch, w, 0).Put(PumpSwitch, w + (10.0 / 60), 1);
        for (double t = 0; t < days * Day; t += 2 / 60.0)
        {
            double since = (t - 11 - (2 * Day)) % (7 * Day);
            double pause = t < 11 + (2 * Day) ? 0 : since < 10.0 / 60 ? 120 * (1 - Math.Exp(-since * 20)) : 120 * Math.Exp(-(since - (10.0 / 60)) * 12);
            log.Put(SumpLevel, t, Math.Round(300 + pause + extraMm(t) + (1.5 * log.Wobble()), 1));
        }

        return log;
    }

    [Fact]
    public void Weekly_pauses_are_left_alone() => Assert.Empty(Log(24, _ => 0).Notices());

    [Fact]
    public void A_pump_that_stands_though_switched_on_is_told_within_fifteen_minutes_by_the_rise_of_the_sump()
    {
        double onset = (20 * Day) + 15.01;
        var notice = Log(20.8, t => t < onset ? 0 : 120 * (1 - Math.Exp(-(t - onset) * 20))).Notices()[0];
        Assert.Equal(CauseNames.PumpStopped, notice.Cause);
        Assert.InRange(notice.HoursAfter(onset), 0, 0.25);
        Assert.Contains("switched on", notice.Evidence, StringComparison.Ordinal);
    }

    [Fact]
    public void A_pump_switched_off_at_an_unwonted_time_is_told_within_fifteen_minutes()
    {
        double onset = 20 * Day;
        var notice = Log(20.2, t => t < onset ? 0 : 120 * (1 - Math.Exp(-(t - onset) * 20)), onset).Notices()[0];
        Assert.Equal(CauseNames.PumpStopped, notice.Cause);
        Assert.InRange(notice.HoursAfter(onset), 0, 0.26);
    }

    [Fact]
    public void A_leaping_level_sensor_is_not_a_stopped_pump()
    {
        double onset = 20 * Day;
        var notices = Log(21, t => t > onset && (int)(t * 30) % 7 == 0 ? 200 : 0).Notices();
        Assert.All(notices, n => Assert.Equal(CauseNames.SensorJumping, n.Cause));
        Assert.NotEmpty(notices);
    }

    [Fact]
    public void A_top_up_that_goes_on_after_it_was_shut_is_told_within_twenty_minutes()
    {
        double onset = (20 * Day) + 15;
        var log = Log(20.8, t => t < onset ? 0 : Math.Min(400, (t - onset) * 60 * 12));
        for (int d = 1; d < 20; d++) log.Open(TopUp, (d * Day) + 3, 0.2);
        log.Open(TopUp, onset, 3);
        var notice = log.Notices()[0];
        Assert.Contains(notice.Causes, c => c.Name == CauseNames.TopUpStuckOpen);
        Assert.InRange(notice.HoursAfter(onset), 0, 20.5 / 60);
    }

    [Fact]
    public void A_log_cut_short_gives_the_notices_of_the_whole_up_to_there()
    {
        double onset = (20 * Day) + 15.01;
        var log = Log(21, t => t < onset ? 0 : 120 * (1 - Math.Exp(-(t - onset) * 20)));
        var whole = log.Notices();
        foreach (double cut in new[] { onset - 1, onset + 0.2, onset + 5 })
        {
            var expected = whole.Where(n => n.FirstNoticed <= At(cut)).Select(n => (n.FirstNoticed, n.Evidence));
            Assert.Equal(expected, log.Notices(cut).Select(n => (n.FirstNoticed, n.Evidence)));
        }
    }
}
