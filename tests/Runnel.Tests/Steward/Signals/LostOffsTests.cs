using NodaTime;
using Runnel.Steward.Signals;

namespace Runnel.Tests.Steward.Signals;

public sealed class LostOffsTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 3, 1, 0, 0);
    private readonly RunTrace _valve = new(new LostOffs(runsAreAlike: true));

    private void Say(double minutes, bool on) => _valve.Take(Start + Duration.FromMinutes(minutes), on);

    private void Dose(double atMinutes, double minutes = 3)
    {
        Say(atMinutes, true);
        Say(atMinutes + minutes, false);
    }

    [Fact]
    public void In_a_log_of_changes_an_on_while_on_ends_the_dose_before_at_its_usual_length()
    {
        Say(0, false);
        for (int day = 0; day < 5; day++) Dose((1440 * day) + 500);
        Say((1440 * 5) + 500, true);
        Dose((1440 * 6) + 500);
        Assert.Equal(7, _valve.Runs.Count);
        Assert.All(_valve.Runs, r => Assert.Equal(180, r.Seconds, 1e-6));
    }

    [Fact]
    public void An_off_that_came_with_the_hourly_repeats_ended_earlier()
    {
        for (int hour = 0; hour < 72; hour++)
        {
            Say(60 * hour, false);
            if (hour is 10 or 30) Dose((60 * hour) + 17);
            if (hour == 50) Say((60 * hour) + 17, true);
        }

        Assert.Equal([180, 180, 180], _valve.Runs.Select(r => r.Seconds));
    }

    [Fact]
    public void A_valve_that_stood_open_and_was_shut_between_the_repeats_is_believed()
    {
        for (int hour = 0; hour < 72; hour++)
        {
            Say(60 * hour, hour is 51 or 52);
            if (hour is 10 or 30) Dose((60 * hour) + 17);
            if (hour == 50) Say((60 * hour) + 17, true);
            if (hour == 52) Say((60 * hour) + 23, false);
        }

        Assert.Equal((2 * 3600) + 360, _valve.Runs[^1].Seconds, 1e-6);
    }

    [Fact]
    public void A_log_that_repeats_every_state_says_nothing_by_an_on_while_on()
    {
        for (int minute = 0; minute < 600; minute++) Say(minute, minute % 100 is >= 50 and < 60 || minute is > 300 and < 400);
        Assert.Contains(_valve.Runs, r => r.Seconds > 5000);
    }
}
