using Runnel.Place.Findings;
using static Runnel.Tests.Steward.Watches.HandMadeLog;

namespace Runnel.Tests.Steward.Watches;

public sealed class ValveAndCycleWatchTests
{
    private const double Day = 24;

    private static HandMadeLog WithTopUps(double days)
    {
        var log = new HandMadeLog().Course(Air, 0, days * Day);
        for (int d = 0; d < days - 1; d++) log.Open(TopUp, (d * Day) + 7, 3).Open(TopUp, (d * Day) + 15, 3);
        return log;
    }

    [Fact]
    public void A_top_up_open_far_beyond_its_habit_is_told_within_two_hours()
    {
        var log = WithTopUps(6);
        log.Cycles(0, 6 * Day, t => t > (5 * Day) + 3 ? 3 : 7, t => t > (5 * Day) + 3 ? 11 : 4);
        log.Put(TopUp, (5 * Day) + 3, 1);
        var notice = log.Notices().One(CauseNames.TopUpStuckOpen);
        Assert.Equal(CauseNames.TopUpStuckOpen, notice.Cause);
        Assert.Equal(Urgency.ActNow, notice.Urgency);
        Assert.InRange(notice.HoursAfter((5 * Day) + 3), 0.1, 1.2);
    }

    [Fact]
    public void A_lost_row_that_leaves_the_top_up_open_on_paper_only_is_no_stuck_valve()
    {
        var log = WithTopUps(6);
        log.Cycles(0, 6 * Day, 7, 4);
        log.Put(TopUp, (5 * Day) + 3, 1);
        Assert.Empty(log.Notices());
    }

    [Fact]
    public void A_dose_twice_as_long_as_before_by_a_few_minutes_is_no_stuck_valve()
    {
        var log = WithTopUps(6);
        log.Cycles(0, 6 * Day, 7, 4);
        log.Open(TopUp, (5 * Day) + 3, 7);
        Assert.Empty(log.Notices());
    }

    [Fact]
    public void A_bleed_that_stays_open_is_told_and_over_when_it_shuts()
    {
        var log = WithTopUps(6);
        log.Cycles(0, 6 * Day, t => t > (5 * Day) + 3 && t < (5 * Day) + 4.4 ? 10 : 7, _ => 4);
        for (int d = 0; d < 5; d++) log.Open(Bleed, (d * Day) + 20, 2);
        log.Open(Bleed, (5 * Day) + 3, 80);
        var notice = log.Notices().One(CauseNames.BleedStuckOpen);
        Assert.Equal(At((5 * Day) + 3), notice.Since);
        Assert.InRange((notice.Cleared!.Value - At((5 * Day) + 3 + (80.0 / 60))).TotalMinutes, 0, 6);
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.15)]
    public void A_collapsed_switch_band_is_told_within_an_hour(double left)
    {
        var log = new HandMadeLog().Course(Air, 0, 5 * Day);
        double off = log.Cycles(0, 4 * Day, 7, 4);
        log.Cycles(off, 5 * Day, 7 * left, 4 * left, 0.08);
        var notice = Assert.Single(log.Notices());
        Assert.Equal(CauseNames.PumpShortCycling, notice.Cause);
        Assert.InRange(notice.HoursAfter(off), 0, 1);
    }

    [Fact]
    public void Relay_chatter_at_every_start_is_told_and_one_glitch_is_not()
    {
        foreach (bool every in new[] { true, false })
        {
            var log = new HandMadeLog().Course(Air, 0, 5 * Day);
            double off = log.Cycles(0, 4 * Day, 7, 4);
            for (int i = 0; i < (every ? 40 : 1); i++)
            {
                double on = off + (7.0 / 60);
                for (int k = 0; k < 3; k++) log.Put(PumpSwitch, on + (k * 4 / 3600.0), 1).Put(PumpSwitch, on + (((k * 4) + 2) / 3600.0), 0);
                log.Put(PumpSwitch, on + (12 / 3600.0), 1).Put(PumpSwitch, on + (4.0 / 60), 0);
                off = on + (4.0 / 60);
            }

            log.Cycles(off, 5 * Day, 7, 4);
            var notices = log.Notices();
            if (every) Assert.InRange(notices.One(CauseNames.PumpShortCycling).HoursAfter(4 * Day), 0, 1.1);
            else Assert.Empty(notices);
        }
    }

    [Fact]
    public void A_fuller_or_a_shorter_loop_is_no_short_cycling()
    {
        // 1/fill + 1/run stays: band 60 L, pump 24 L/min; the inflow swings from 4 to 20 L/min.
        var log = new HandMadeLog().Course(Air, 0, 12 * Day);
        double Inflow(double t) => 12 + (8 * Math.Sin(t / 31));
        log.Cycles(0, 12 * Day, t => 60 / Inflow(t), t => 60 / (24 - Inflow(t)));
        Assert.DoesNotContain(log.Notices(), n => n.Cause == CauseNames.PumpShortCycling);
    }

    /// <summary>Each top-up of 30 L shortens the fills by 15 % and evaporation lengthens them again, unless the supply is empty.</summary>
    private static HandMadeLog Gauged(double days, double emptyFrom, double emptyTo = 1e9)
    {
        var log = new HandMadeLog().Course(Air, 0, days * Day);
        var shots = new List<double>();
        for (double t = 9; t < days * Day; t += t > emptyFrom && t < emptyTo ? 1 : 8) shots.Add(t);
        foreach (double t in shots) log.Open(TopUp, t, 3);
        double Fill(double t)
        {
            double dry = 0.15 / 8 * Math.Min(t, emptyFrom + Math.Max(0, t - emptyTo));
            return 7 * Math.Exp(dry - (0.15 * shots.Count(s => s + 0.1 < t && (s < emptyFrom || s > emptyTo))));
        }

        log.Cycles(0, days * Day, Fill, t => 1 / ((1 / 7.0) + (1 / 4.0) - (1 / Fill(t))), 0.03);
        return log;
    }

    [Fact]
    public void Top_ups_with_effect_are_left_alone() => Assert.Empty(Gauged(20, 1e9).Notices());

    [Fact]
    public void The_second_empty_shot_is_told_within_two_hours()
    {
        var log = Gauged(9, (7 * Day) + 2);
        var notice = Assert.Single(log.Notices());
        Assert.Equal(CauseNames.TopUpWithoutEffect, notice.Cause);
        // Shots come at 9 h and every 8 h: the first empty one at 177 h, the second at 178 h.
        Assert.InRange(notice.HoursAfter(178), 0, 2);
    }

    [Fact]
    public void It_is_over_when_a_shot_has_its_effect_again()
    {
        var notice = Gauged(12, (7 * Day) + 2, (8 * Day) + 2).Notices().One(CauseNames.TopUpWithoutEffect);
        Assert.NotNull(notice.Cleared);
    }
}
