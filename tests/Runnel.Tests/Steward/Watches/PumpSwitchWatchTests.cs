using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using static Runnel.Tests.Steward.Watches.HandMadeLog;

namespace Runnel.Tests.Steward.Watches;

public sealed class PumpSwitchWatchTests
{
    private const double Day = 24;

    [Fact]
    public void A_quiet_loop_is_left_alone()
    {
        var log = new HandMadeLog().Course(Air, 0, 20 * Day);
        log.Cycles(0, 20 * Day, t => 7 + Math.Sin(t / 24 * 2 * Math.PI), _ => 4);
        Assert.Empty(log.Notices());
    }

    [Fact]
    public void A_run_that_does_not_end_is_told_within_45_minutes_as_the_set_of_this_kit()
    {
        var log = new HandMadeLog().Course(Air, 0, (3 * Day) + 6);
        double off = log.Cycles(0, 3 * Day, 7, 4);
        log.Put(PumpSwitch, off + (7.0 / 60), 1);
        var notice = Assert.Single(log.Notices());
        Assert.Equal(CauseNames.PumpStopped, notice.Cause);
        Assert.Equal(
            [CauseNames.PumpStopped, CauseNames.PumpDry, CauseNames.PumpStuckOn, CauseNames.Overfull, CauseNames.TopUpStuckOpen],
            notice.Causes.Select(c => c.Name));
        Assert.InRange(notice.HoursAfter(off), 0, 0.75);
        Assert.True(notice.Causes.Sum(c => c.Probability) <= 1);
        Assert.Null(notice.Cleared);
    }

    [Fact]
    public void It_is_over_when_the_pump_cycles_again()
    {
        var log = new HandMadeLog().Course(Air, 0, 4 * Day);
        double off = log.Cycles(0, 3 * Day, 7, 4);
        log.Put(PumpSwitch, off + 0.1, 1).Put(PumpSwitch, off + 3, 0);
        log.Cycles(off + 3, 4 * Day, 7, 4);
        var notice = Assert.Single(log.Notices());
        Assert.InRange((notice.Cleared!.Value - At(off + 3)).TotalHours, 0, 1);
    }

    [Fact]
    public void A_lost_edge_is_not_a_stopped_pump()
    {
        var log = new HandMadeLog().Course(Air, 0, 4 * Day);
        double off = log.Cycles(0, 3 * Day, 7, 4);
        // On at 7 min; the off at 11 and the on at 18 are lost; off at 22.
        log.Put(PumpSwitch, off + (7.0 / 60), 1).Put(PumpSwitch, off + (22.0 / 60), 0);
        log.Cycles(off + (22.0 / 60), 4 * Day, 7, 4);
        Assert.Empty(log.Notices());
    }

    [Fact]
    public void An_outage_of_the_log_is_not_a_stopped_pump()
    {
        foreach (double hours in new[] { 0.4, 0.6, 1, 5 })
        {
            var log = new HandMadeLog().Course(Air, 0, 3 * Day).Course(Air, (3 * Day) + hours, 5 * Day);
            double off = log.Cycles(0, 3 * Day, 7, 4);
            log.Put(PumpSwitch, off + (4.0 / 60), 1);
            log.Cycles((3 * Day) + hours, 5 * Day, 7, 4);
            Assert.Empty(log.Notices());
        }
    }

    [Fact]
    public void After_heavy_rain_a_long_run_is_given_longer_and_then_told_as_overfull_first()
    {
        var log = new HandMadeLog().Course(Air, 0, 4 * Day);
        double off = log.Cycles(0, 3 * Day, t => t > (3 * Day) - 2 ? 3.6 : 7, t => t > (3 * Day) - 2 ? 9 : 4);
        for (int i = 0; i < 12; i++) log.Put(Rain, off - 2 + (i / 6.0), 2);
        log.Put(PumpSwitch, off + 0.06, 1);
        var notice = Assert.Single(log.Notices());
        Assert.InRange(notice.HoursAfter(off), 0.75, 3);
        Assert.Equal(CauseNames.Overfull, notice.Cause);
        Assert.Contains(notice.Causes, c => c.Name == CauseNames.PumpStopped);
    }

    [Fact]
    public void A_fill_that_does_not_end_is_told_within_45_minutes_and_becomes_urgent()
    {
        var log = new HandMadeLog().Course(Air, 0, (3 * Day) + 6);
        double off = log.Cycles(0, 3 * Day, 7, 4);
        var notices = log.Notices();
        Assert.All(notices, n => Assert.Equal(CauseNames.PumpStopped, n.Cause));
        Assert.Equal([Urgency.Soon, Urgency.ActNow], notices.Select(n => n.Urgency));
        Assert.InRange(notices[0].HoursAfter(off), 0, 0.75);
        Assert.InRange(notices[1].HoursAfter(off), 1, 1.5);
        Assert.Equal(notices[1].FirstNoticed, notices[0].Cleared);
    }

    [Fact]
    public void Nothing_is_said_while_someone_works_on_it()
    {
        var log = new HandMadeLog().Course(Air, 0, 4 * Day);
        double off = log.Cycles(0, 3 * Day, 7, 4);
        log.Write(new DaybookEntry(At(off), "work-began", null, null, null, null));
        log.Write(new DaybookEntry(At(off + 1.5), "work-ended", null, null, null, null));
        log.Cycles(off + 1.6, 4 * Day, 7, 4);
        Assert.Empty(log.Notices());
    }

    [Fact]
    public void Where_only_the_pump_writes_a_stopped_log_and_a_stopped_pump_are_one_notice()
    {
        var log = new HandMadeLog();
        double off = log.Cycles(0, 3 * Day, 7, 4);
        log.Put(PumpSwitch, off + 0.1, 1);
        log.Put(TopUp, off + 6, 1);
        var notice = log.Notices()[0];
        Assert.Equal(CauseNames.PumpStopped, notice.Cause);
        Assert.Contains(notice.Causes, c => c.Name == CauseNames.SensorSilent);
        Assert.InRange(notice.HoursAfter(off), 0, 1);
    }

    [Fact]
    public void A_sump_level_tells_a_welded_switch_from_a_dead_pump()
    {
        foreach (bool welded in new[] { true, false })
        {
            var log = new HandMadeLog(SumpLevel).Course(Air, 0, (3 * Day) + 3);
            double off = log.Cycles(0, 3 * Day, 7, 4);
            for (double t = 0; t < off; t += 2.0 / 60) log.Put(SumpLevel, t, 200 + (150 * ((t * 5.45) % 1)));
            for (double t = off; t < off + 2; t += 2.0 / 60) log.Put(SumpLevel, t, welded ? 90 : 450);
            log.Put(PumpSwitch, off + 0.1, 1);
            var notice = log.Notices()[0];
            Assert.Equal(welded ? CauseNames.PumpStuckOn : CauseNames.PumpStopped, notice.Cause);
        }
    }

    [Fact]
    public void A_log_cut_short_gives_the_notices_of_the_whole_up_to_there()
    {
        var log = new HandMadeLog().Course(Air, 0, 5 * Day);
        double off = log.Cycles(0, 3 * Day, 7, 4);
        log.Put(PumpSwitch, off + 0.1, 1).Put(PumpSwitch, off + 3, 0);
        log.Cycles(off + 3, 5 * Day, 7, 4);
        var whole = log.Notices();
        foreach (double cut in new[] { off + 0.3, off + 0.6, off + 2, off + 3.4, off + 20 })
        {
            var upTo = log.Notices(cut);
            var expected = whole.Where(n => n.FirstNoticed <= At(cut)).ToList();
            Assert.Equal(expected.Select(n => (n.FirstNoticed, n.Evidence)), upTo.Select(n => (n.FirstNoticed, n.Evidence)));
        }
    }
}
