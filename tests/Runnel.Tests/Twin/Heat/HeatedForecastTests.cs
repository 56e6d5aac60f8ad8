using NodaTime;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;
using Runnel.Twin.Weather;

namespace Runnel.Tests.Twin.Heat;

public class HeatedForecastTests
{
    private static readonly string Example = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", "low-wall-yard.toml"));

    private static readonly Instant Summer = Instant.FromUtc(2026, 1, 10, 0, 0);

    [Fact]
    public void Water_and_heat_balance_over_thirty_days_of_pump_cycles_under_made_weather()
    {
        var place = Read(Example);
        var weather = Made(place, Summer, 30);
        var forecast = WaterForecaster.Run(place, new ForecastOptions { Days = 30, Weather = weather });

        Assert.Equal(StopReason.Reached, forecast.Stop);
        var (t, heat) = (forecast.Totals, forecast.Heat!);
        Assert.InRange(Math.Abs(t.BalanceL) / t.WaterL, 0, 1e-9);
        Assert.InRange(Math.Abs(heat.BalanceMJ) / heat.MovedMJ, 0, 1e-9);
        // Counted up anew from levels and temperatures: what the vessels hold more at the end is what is told as stored, but for the pump's line.
        double stored = 0;
        foreach (var v in forecast.Vessels) stored += v.VolumeL / 1000 * v.Temperatures!.EndC * 4.1765;
        var first = WaterForecaster.Run(place, new ForecastOptions { Days = 1e-6, Weather = weather });
        foreach (var v in first.Vessels) stored -= v.VolumeL / 1000 * v.Temperatures!.StartC * 4.1765;
        Assert.Equal(heat.StoredMJ, stored, 0.5);
        Assert.True(heat.SunMJ > 100 && heat.EvaporationMJ < -100 && heat.LongWaveMJ < 0);
        Assert.All(forecast.Vessels, v => Assert.InRange(v.Temperatures!.MeanC, 10, 30));
        Assert.InRange(t.LostL / 30, 8, 80);
        Assert.True(t.RainL > 0);
    }

    [Fact]
    public void A_loop_is_colder_in_winter_warmer_with_a_heater_and_evaporates_less_under_cover()
    {
        var place = Read(Example);
        var winter = Instant.FromUtc(2026, 7, 10, 0, 0);
        double Tank(string toml, Instant start, out WaterForecast forecast)
        {
            var read = Read(toml);
            forecast = WaterForecaster.Run(read, new ForecastOptions { Days = 8, Weather = Made(read, start, 8) });
            return forecast.Vessels.Single(v => v.Id == "trout-tank").Temperatures!.MeanC;
        }

        double warm = Tank(Example, Summer, out var summer), cold = Tank(Example, winter, out _);
        Assert.True(warm > cold + 5, $"{warm} {cold}");
        double heated = Tank(Example + "\n[[equipment]]\nid = \"warmer\"\nkind = \"heater\"\nof = \"trout-tank\"\npower = \"1 kW\"\nsetpoint = \"18 degC\"\n", winter, out var withHeater);
        Assert.True(heated > cold + 2 && heated < 18.1, $"{heated} {cold}");
        Assert.True(withHeater.Heat!.EquipmentMJ > 100);
        double shaded = Tank(Example.Replace("floor-height = \"820 mm\"", "floor-height = \"820 mm\"\ncover = 0.9\nshade = \"60 %\"\nwall = \"2 W/m2/K\"", StringComparison.Ordinal), Summer, out var covered);
        Assert.True(covered.Totals.LostL < summer.Totals.LostL - 10);
        Assert.True(shaded < warm + 2);
        Assert.InRange(Math.Abs(covered.Heat!.BalanceMJ) / covered.Heat.MovedMJ, 0, 1e-9);
    }

    [Fact]
    public void What_shade_cover_or_wall_cannot_be_is_told()
    {
        foreach (string line in (string[])["cover = 1.5", "shade = \"140 %\"", "wall = \"6 W/m2\""])
        {
            var read = PlaceFile.Read(Example.Replace("floor-height = \"820 mm\"", "floor-height = \"820 mm\"\n" + line, StringComparison.Ordinal), "place.toml", PlaceNeeds.Forecast);
            Assert.Contains(line.Split(' ')[0], Assert.Single(read.Problems).ToString(), StringComparison.Ordinal);
        }
    }

    internal static WeatherSeries Made(PlaceDescription place, Instant start, double days, int seed = 8) => new WeatherGenerator(ClimateYear.Of(place)).Make(start, days, seed);

    internal static PlaceDescription Read(string toml)
    {
        var read = PlaceFile.Read(toml, "place.toml", PlaceNeeds.Forecast);
        Assert.True(read.Problems.Count == 0, string.Join('\n', read.Problems));
        return read.Place!;
    }
}
