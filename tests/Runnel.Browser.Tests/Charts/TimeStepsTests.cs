using CsCheck;
using NodaTime;
using Runnel.Web.Charts;

namespace Runnel.Browser.Tests.Charts;

public sealed class TimeStepsTests
{
    private static readonly DateTimeZone Sydney = DateTimeZoneProviders.Tzdb["Australia/Sydney"];

    [Fact]
    public void Marks_lie_in_the_range_in_order_and_never_crowd() =>
        Gen.Select(Gen.Long[1_500_000_000, 1_900_000_000], Gen.Double[1, 24 * 800], Gen.Int[3, 12]).Sample((second, hours, most) =>
        {
            var range = new Interval(Instant.FromUnixTimeSeconds(second), Instant.FromUnixTimeSeconds(second) + Duration.FromHours(hours));
            IReadOnlyList<TimeStep> steps = TimeSteps.Within(range, Sydney, most);
            bool inOrder = steps.Zip(steps.Skip(1)).All(pair => pair.First.Time <= pair.Second.Time);
            return inOrder && steps.All(s => s.Time >= range.Start && s.Time <= range.End) && steps.Count <= most + 2;
        }, iter: 1000);

    // Clocks in Sydney went forward at 02:00 on 5 October 2025 (tz database).
    [Fact]
    public void An_hour_that_the_clock_skips_does_not_shift_the_marks_behind_it()
    {
        var start = Sydney.AtStartOfDay(new LocalDate(2025, 10, 5));
        IReadOnlyList<TimeStep> steps = TimeSteps.Within(new(start.ToInstant(), start.ToInstant() + Duration.FromHours(12)), Sydney, 13);
        TimeStep six = Assert.Single(steps, s => s.Label == "06:00");
        Assert.Equal(new LocalDateTime(2025, 10, 5, 6, 0), six.Time.InZone(Sydney).LocalDateTime);
    }

    [Fact]
    public void Weeks_begin_on_mondays()
    {
        var start = Sydney.AtStartOfDay(new LocalDate(2026, 1, 7)).ToInstant();
        IReadOnlyList<TimeStep> steps = TimeSteps.Within(new(start, start + Duration.FromDays(60)), Sydney, 10);
        Assert.All(steps, s => Assert.Equal(IsoDayOfWeek.Monday, s.Time.InZone(Sydney).DayOfWeek));
        Assert.Equal("12 Jan", steps[0].Label);
    }
}
