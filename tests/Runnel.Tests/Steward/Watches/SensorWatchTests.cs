using Runnel.Place;
using Runnel.Place.Findings;
using static Runnel.Tests.Steward.Watches.HandMadeLog;

namespace Runnel.Tests.Steward.Watches;

public sealed class SensorWatchTests
{
    private const double Day = 24;

    private static HandMadeLog Loop(double days)
    {
        var log = new HandMadeLog();
        log.Cycles(0, days * Day, 7, 4);
        return log;
    }

    [Fact]
    public void A_silent_channel_is_told_while_the_others_go_on()
    {
        var log = Loop(6).Course(Air, 0, 5 * Day);
        var notice = Assert.Single(log.Notices());
        Assert.Equal(CauseNames.SensorSilent, notice.Cause);
        Assert.InRange(notice.HoursAfter(5 * Day), 2, 3);
    }

    [Fact]
    public void A_gap_of_the_whole_log_is_no_silent_sensor()
    {
        var log = new HandMadeLog().Course(Air, 0, 5 * Day).Course(Air, (5 * Day) + 9, 8 * Day);
        log.Cycles(0, 5 * Day, 7, 4);
        log.Cycles((5 * Day) + 9, 8 * Day, 7, 4);
        Assert.Empty(log.Notices());
    }

    [Fact]
    public void A_frozen_channel_is_told_within_three_hours_and_cleared_when_it_moves()
    {
        var log = Loop(8).Course(Air, 0, 6 * Day);
        for (double t = 6 * Day; t < 7 * Day; t += 1.0 / 6) log.Put(Air, t, 17.3);
        log.Course(Air, 7 * Day, 8 * Day);
        var notice = Assert.Single(log.Notices());
        Assert.Equal(CauseNames.SensorFrozen, notice.Cause);
        Assert.InRange(notice.HoursAfter(6 * Day), 0, 3);
        Assert.InRange((notice.Cleared!.Value - At(7 * Day)).TotalHours, 0, 1);
    }

    [Fact]
    public void A_temperature_that_rests_at_night_by_habit_is_not_frozen()
    {
        // Rounded to half a degree, the same for some hours before every dawn.
        var log = Loop(12);
        for (double t = 0; t < 12 * Day; t += 1.0 / 6)
        {
            double hour = t % 24;
            double value = hour < 4 + Math.Floor(t / 24 % 3) ? 11.5 : 18 + (6 * Math.Sin((hour - 9) * Math.PI / 12));
            log.Put(Air, t, Math.Round(value * 2) / 2);
        }

        Assert.Empty(log.Notices());
    }

    [Fact]
    public void A_leaping_channel_is_told_within_six_hours_and_single_leaps_are_not()
    {
        var log = Loop(10);
        for (double t = 0; t < 10 * Day; t += 1.0 / 6)
        {
            double value = 18 + (6 * Math.Sin((t - 9) * Math.PI / 12)) + (0.15 * log.Wobble());
            bool leap = (t > 7 * Day && (int)(t * 6) % 5 == 0) || (t < 7 * Day && (int)(t * 6) % 200 == 7);
            log.Put(Air, t, Math.Round(value + (leap ? 7 : 0), 1));
        }

        var notice = Assert.Single(log.Notices());
        Assert.Equal(CauseNames.SensorJumping, notice.Cause);
        Assert.InRange(notice.HoursAfter(7 * Day), 0, 6);
    }

    [Theory]
    [InlineData(3, true)]
    [InlineData(0, false)]
    public void A_sun_that_shines_more_each_night_is_a_drifting_sensor(double perDay, bool told)
    {
        var sun = new Channel("sun", Quantity.SolarIrradiance);
        var log = new HandMadeLog(sun);
        log.Cycles(0, 40 * Day, 7, 4);
        for (double t = 0; t < 40 * Day; t += 0.25)
        {
            // The place lies at 150 degrees east: noon is at 2 h by the log's clock.
            double light = Math.Max(0, 800 * Math.Cos((t - 2) * Math.PI / 12));
            log.Put(sun, t, Math.Round(light + (1.5 * Math.Abs(log.Wobble())) + (perDay * Math.Max(0, (t / 24) - 20))));
        }

        var notices = log.Notices();
        if (!told)
        {
            Assert.Empty(notices);
            return;
        }

        var notice = notices.One(CauseNames.SensorDrifting);
        Assert.InRange(notice.HoursAfter(20 * Day) / Day, 2, 8);
    }

    [Theory]
    [InlineData(2.5, 2.5, true)]
    [InlineData(0, 2.5, false)]
    [InlineData(0, 0, false)]
    public void A_sump_sensor_drifts_when_both_switch_levels_seem_to_creep(double lowPerDay, double highPerDay, bool told)
    {
        var log = new HandMadeLog(SumpLevel);
        log.Cycles(0, 40 * Day, 7, 4);
        for (double t = 0; t < 40 * Day; t += 1.0 / 20)
        {
            double share = ((t * 60) + (3 * log.Wobble())) % 11 / 11, gone = Math.Max(0, (t / 24) - 20);
            double low = 150 + (lowPerDay * gone), high = 260 + (highPerDay * gone);
            log.Put(SumpLevel, t, Math.Round(low + ((high - low) * share) + log.Wobble()));
        }

        var notices = log.Notices().Where(n => n.Cause == CauseNames.SensorDrifting).ToList();
        Assert.Equal(told, notices.Count == 1);
        if (told) Assert.InRange(notices[0].HoursAfter(20 * Day) / Day, 3, 12);
    }
}
