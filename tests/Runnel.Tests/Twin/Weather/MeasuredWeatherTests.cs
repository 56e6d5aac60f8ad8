using NodaTime;
using Runnel.Place;
using Runnel.Twin.Weather;

namespace Runnel.Tests.Twin.Weather;

public class MeasuredWeatherTests
{
    private static readonly Instant Begin = Instant.FromUtc(2026, 2, 1, 0, 0);

    private static readonly Channel[] Channels =
    [
        new("air", Quantity.AirTemperature), new("rh", Quantity.RelativeHumidity), new("wind", Quantity.WindSpeed, HeightM: 10), new("sun", Quantity.SolarIrradiance),
        new("rain", Quantity.RainTotal), new("pump", Quantity.Running),
    ];

    [Fact]
    public void Hours_are_means_of_their_readings_and_rain_is_what_the_count_rose()
    {
        List<Reading> readings = [];
        for (int i = 0; i < 48 * 4; i++)
        {
            var time = Begin + Duration.FromMinutes(15 * i);
            readings.AddRange([new(0, time, 10 + (i % 4)), new(1, time, 60), new(2, time, 4), new(3, time, 100), new(5, time, 1)]);
            readings.Add(new(4, time, i < 100 ? i * 0.2 : (i - 100) * 0.2)); // begins again at 100
        }

        var measured = MeasuredWeather.From(Channels, readings)!;
        Assert.Empty(measured.Notes);
        Assert.Equal((Begin, 48), (measured.Start, measured.Hours));
        var series = measured.Continue(WeatherGeneratorTests.Generator("south coast"), Begin, 1.5, 3);
        var step = series.Steps[5];
        Assert.Equal(11.5, step.AirTempC, 1e-12);
        Assert.Equal(0.6, step.RelHumidity, 1e-12);
        Assert.Equal(4 * 0.748, step.WindAt2MMPerS, 0.01); // FAO Irrigation and Drainage Paper 56, table of annex 2: 0.748 from 10 m
        Assert.Equal(100, step.SunWPerM2);
        Assert.Equal(0.8, step.RainMm, 1e-9);
        Assert.Equal(0.6, series.Steps[25].RainMm, 1e-9);
    }

    [Fact]
    public void Short_gaps_are_bridged_longer_ones_and_the_time_after_are_made_and_told()
    {
        List<Reading> readings = [];
        for (int h = 0; h < 96; h++)
        {
            if (h is not (10 or 11) and not (>= 30 and < 50)) readings.Add(new(0, Begin + Duration.FromHours(h), 30));
        }

        var measured = MeasuredWeather.From(Channels, readings)!;
        Assert.Contains(measured.Notes, n => n.StartsWith("air-temperature missing for 20 h in 1 gap", StringComparison.Ordinal));
        Assert.Contains(measured.Notes, n => n.StartsWith("no relative-humidity measured", StringComparison.Ordinal));
        var generator = WeatherGeneratorTests.Generator("south coast");
        var series = measured.Continue(generator, Begin, 14, 3);
        var made = generator.Make(Begin, 14, 3);
        Assert.Equal(30, series.Steps[10].AirTempC, 1e-12);
        Assert.NotEqual(30, series.Steps[40].AirTempC);
        Assert.Equal(made.Steps[200].RelHumidity, series.Steps[200].RelHumidity);
        // It leaves the last measured hour without a jump beyond the hour's own, and comes to the made weather within days.
        Assert.InRange(Math.Abs(series.Steps[96].AirTempC - 30 - (made.Steps[96].AirTempC - made.Steps[95].AirTempC)), 0, 1);
        Assert.Equal(made.Steps[330].AirTempC, series.Steps[330].AirTempC, 0.5);
    }

    [Fact]
    public void A_log_without_weather_gives_none() => Assert.Null(MeasuredWeather.From(Channels, [new(5, Begin, 1)]));
}
