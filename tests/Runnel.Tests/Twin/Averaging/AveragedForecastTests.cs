using NodaTime;
using Runnel.Tests.Twin.Heat;
using Runnel.Twin.Water;

namespace Runnel.Tests.Twin.Averaging;

/// <summary>Flows averaged over pump cycles beside the detailed laws, on the same weather: what is told must agree within what is stated here and in the guide.</summary>
public class AveragedForecastTests
{
    private static readonly Instant Summer = Instant.FromUtc(2026, 1, 1, 0, 0);

    [Theory]
    [InlineData("low-wall-yard.toml")] // a timer tops it up; the store swings between a pump that stands and one that runs on
    [InlineData("quince-court.toml")] // cycles all the time; a rule by fills
    public void Levels_litres_and_temperatures_agree_with_the_detailed_laws(string file)
    {
        var place = HeatedForecastTests.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", file)));
        var options = new ForecastOptions { Days = 12, Weather = HeatedForecastTests.Made(place, Summer, 12, 5) };
        var detailed = WaterForecaster.Run(place, options with { Averaged = false });
        var averaged = WaterForecaster.Run(place, options with { Averaged = true });

        Assert.False(detailed.IsAveraged);
        Assert.True(averaged.IsAveraged, averaged.WhyNotAveraged);
        Assert.InRange(Math.Abs(averaged.Totals.BalanceL) / averaged.Totals.WaterL, 0, 1e-9);
        Assert.InRange(Math.Abs(averaged.Heat!.BalanceMJ) / averaged.Heat.MovedMJ, 0, 1e-9);
        // Litres: to a hundredth of what the air took, or a valve's one opening.
        Assert.Equal(detailed.Totals.LostL, averaged.Totals.LostL, 0.01 * detailed.Totals.LostL);
        Assert.Equal(detailed.Totals.RainL, averaged.Totals.RainL, 1e-3 * detailed.Totals.RainL);
        Assert.InRange(averaged.Totals.StoredL - detailed.Totals.StoredL, -40, 40);
        for (int p = 0; p < detailed.Pumps.Count; p++)
        {
            // A few litres more or less on their way, and the pump works a fifth more or less: its work is told to a quarter, its starts to a third.
            Assert.InRange(averaged.Pumps[p].DeliveredL / detailed.Pumps[p].DeliveredL, 0.75, 1.25);
            Assert.InRange(averaged.Pumps[p].RunS / detailed.Pumps[p].RunS, 0.75, 1.25);
            Assert.InRange((double)averaged.Pumps[p].Starts / detailed.Pumps[p].Starts, 0.7, 1.35);
        }

        for (int v = 0; v < detailed.Vessels.Count; v++)
        {
            // Temperatures: means to 0.2 K, extremes to 0.6 K. Levels: the mean to 15 mm, in the sump, whose level swings by 150 mm many times a day, to 30 mm.
            Assert.Equal(detailed.Vessels[v].Temperatures!.MeanC, averaged.Vessels[v].Temperatures!.MeanC, 0.2);
            Assert.Equal(detailed.Vessels[v].Temperatures!.HighC, averaged.Vessels[v].Temperatures!.HighC, 0.6);
            Assert.Equal(detailed.Vessels[v].Temperatures!.LowC, averaged.Vessels[v].Temperatures!.LowC, 0.6);
            double mean = detailed.Samples.Skip(24).Average(s => s.LevelM[v]);
            Assert.Equal(mean, averaged.Samples.Skip(24).Average(s => s.LevelM[v]), detailed.Vessels[v].Id == "sump" ? 0.03 : 0.015);
        }
    }

    [Fact]
    public void A_long_span_is_averaged_by_itself_unless_told_otherwise_and_says_why_not()
    {
        var place = HeatedForecastTests.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", "low-wall-yard.toml")));
        Assert.True(WaterForecaster.Run(place, new ForecastOptions { Days = 90 }).IsAveraged);
        Assert.False(WaterForecaster.Run(place, new ForecastOptions { Days = 2 }).IsAveraged);
        var open = HeatedForecastTests.Read(
            """
            [[vessel]]
            id = "tank"
            kind = "fish-tank"
            footprint = "1.2 m2"
            rim = "1 m"
            outlet = { kind = "standpipe", height = "700 mm", diameter = "50 mm", to = "garden" }
            """);
        var kept = WaterForecaster.Run(open, new ForecastOptions { Days = 60 });
        Assert.False(kept.IsAveraged);
        Assert.Contains("tank", kept.WhyNotAveraged, StringComparison.Ordinal);
    }
}
