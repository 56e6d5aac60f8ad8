using Runnel.Steward.Drift;

namespace Runnel.Tests.Steward.Drift;

public sealed class StepOrRampTests
{
    private const double Spread = 0.01;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_change_that_came_at_once_is_fitted_best_by_a_step(int seed)
    {
        var (days, departures, night) = Series(seed, day => day < 6 ? 0 : 0.04);
        Assert.True(Gain(DepartureShape.Step) > Gain(DepartureShape.Ramp) + 4);
        Assert.Equal(0.04, StepOrRamp.Fit(days, departures, night, Spread * Spread, DepartureShape.Step).Size, 0.005);

        double Gain(DepartureShape shape) => StepOrRamp.Fit(days, departures, night, Spread * Spread, shape).Gain;
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_change_that_grows_is_fitted_best_by_a_ramp_with_its_rise_a_day(int seed)
    {
        var (days, departures, night) = Series(seed, day => day < 5 ? 0 : 0.012 * (day - 5));
        var ramp = StepOrRamp.Fit(days, departures, night, Spread * Spread, DepartureShape.Ramp);
        var step = StepOrRamp.Fit(days, departures, night, Spread * Spread, DepartureShape.Step);
        Assert.True(ramp.Gain > step.Gain + 3);
        Assert.Equal(0.012, ramp.Size, 0.003);
    }

    [Fact]
    public void A_change_by_night_only_is_told_from_one_that_stays()
    {
        var (days, departures, night) = Series(7, day => day < 6 || day % 1 >= 0.5 ? 0 : 0.04);
        var byNight = StepOrRamp.Fit(days, departures, night, Spread * Spread, DepartureShape.NightStep);
        var always = StepOrRamp.Fit(days, departures, night, Spread * Spread, DepartureShape.Step);
        Assert.True(byNight.Gain > always.Gain + 3);
    }

    private static (double[] Days, double[] Departures, bool[] Night) Series(int seed, Func<double, double> shape)
    {
        var random = new Random(seed);
        double[] days = [.. Enumerable.Range(0, 120).Select(i => i / 12.0)];
        double[] departures = [.. days.Select(d => shape(d) + (Spread * Normal(random)))];
        bool[] night = [.. days.Select(d => d % 1 < 0.5)];
        return (days, departures, night);
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
