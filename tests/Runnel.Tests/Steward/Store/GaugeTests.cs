using Runnel.Steward.Store;

namespace Runnel.Tests.Steward.Store;

public sealed class GaugeTests
{
    private const double TrueLitresPerUnit = 150;

    [Theory]
    [InlineData(0.02)]
    [InlineData(0.08)]
    public void Scatter_of_single_readings_widens_the_band_but_does_not_shift_the_gauge(double scatter)
    {
        // Regressing litres on the change would underrate the gauge here, since it is the change that scatters (errors in the regressor).
        var random = new Random(5);
        var gauge = new Gauge(null);
        for (int i = 0; i < 60; i++)
        {
            double litres = 20 + (20 * random.NextDouble());
            gauge.Take(litres, (litres / TrueLitresPerUnit) + (scatter * Normal(random)), 1);
        }

        Assert.True(gauge.Known);
        Assert.InRange(gauge.LitresPerUnit, TrueLitresPerUnit * (1 - (3 * gauge.RelativeSpread)), TrueLitresPerUnit * (1 + (3 * gauge.RelativeSpread)));
        Assert.InRange(gauge.RelativeSpread, 0.0, scatter < 0.05 ? 0.04 : 0.15);
    }

    [Fact]
    public void One_pulse_that_met_a_storm_does_not_bend_it()
    {
        var gauge = new Gauge(null);
        for (int i = 0; i < 20; i++) gauge.Take(30, 0.2 + (0.002 * (i % 3)), 1);
        double before = gauge.LitresPerUnit;
        gauge.Take(30, 1.5, 1);
        Assert.Equal(before, gauge.LitresPerUnit, 0.05 * before);
    }

    [Fact]
    public void A_told_footprint_is_the_gauge_at_once() => Assert.Equal(0.4, new Gauge(0.4).LitresPerUnit);

    [Fact]
    public void Nothing_is_known_before_pulses_have_taught() => Assert.False(new Gauge(null).Known);

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
