using Runnel.Place.Findings;
using static Runnel.Tests.Steward.Watches.HandMadeLog;

namespace Runnel.Tests.Steward.Watches;

public sealed class PumpPowerWatchTests
{
    private const double Fill = 30 / 60.0, Run = 15 / 60.0, Onset = 4 * 24;

    /// <summary>Four days of health (a cycle of 45 min, 60 W running, 2 W at rest, a row a minute), then what <paramref name="then"/> says.</summary>
    private static HandMadeLog Log(Func<double, double> then, double hours = 4)
    {
        var log = Of(200, null, PumpPower, TopUp, Air).Course(Air, 0, Onset + hours);
        for (double t = 0; t < Onset + hours; t += 1 / 60.0)
        {
            double watts = t < Onset ? Healthy(t) : then(t - Onset);
            log.Put(PumpPower, t, Math.Round(watts * (1 + (0.01 * log.Wobble())), 1));
        }

        return log;
    }

    private static double Healthy(double t) => t % (Fill + Run) < Fill ? 2 : 60;

    [Fact]
    public void Healthy_power_is_left_alone() => Assert.Empty(Log(Healthy, 48).Notices());

    [Fact]
    public void A_pump_without_power_is_stopped_within_one_and_a_half_hours()
    {
        var notice = Assert.Single(Log(_ => 0).Notices());
        Assert.Equal(CauseNames.PumpStopped, notice.Cause);
        Assert.Equal(Urgency.ActNow, notice.Urgency);
        Assert.InRange(notice.HoursAfter(Onset), 0, 1.5);
    }

    [Fact]
    public void Half_the_power_from_the_start_of_a_run_is_a_dry_pump()
    {
        var notice = Assert.Single(Log(t => t < Fill ? 2 : 30).Notices());
        Assert.Equal(CauseNames.PumpDry, notice.Cause);
        Assert.InRange(notice.HoursAfter(Onset), 0, 1.5);
    }

    [Fact]
    public void A_run_that_goes_on_at_full_power_and_then_draws_air_is_a_pump_stuck_on()
    {
        var notice = Assert.Single(Log(t => t < Fill ? 2 : t < Fill + 0.35 ? 60 : 40).Notices());
        Assert.Equal(CauseNames.PumpStuckOn, notice.Cause);
        Assert.InRange(notice.HoursAfter(Onset), 0, 1.5);
    }

    [Fact]
    public void A_run_that_goes_on_at_far_more_than_its_power_is_a_blocked_rotor()
    {
        var notice = Assert.Single(Log(t => t < Fill ? 2 : 100).Notices());
        Assert.Equal(CauseNames.PumpStopped, notice.Cause);
    }

    [Fact]
    public void A_power_plug_that_falls_silent_is_a_sensor_and_not_a_pump()
    {
        var log = Of(200, null, PumpPower, TopUp, Air).Course(Air, 0, Onset + 6);
        for (double t = 0; t < Onset; t += 1 / 60.0) log.Put(PumpPower, t, Math.Round(Healthy(t) * (1 + (0.01 * log.Wobble())), 1));
        var notice = Assert.Single(log.Notices());
        Assert.Equal(CauseNames.SensorSilent, notice.Cause);
        Assert.Equal(Urgency.Today, notice.Urgency);
    }

    [Fact]
    public void It_is_over_when_the_pump_cycles_at_its_power_again()
    {
        var notice = Assert.Single(Log(t => t < 2 ? 0 : Healthy(t - 2 + Fill), 8).Notices());
        Assert.NotNull(notice.Cleared);
    }
}
