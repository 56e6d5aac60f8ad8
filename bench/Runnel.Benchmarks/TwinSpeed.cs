using System.Diagnostics;
using System.Globalization;
using NodaTime;
using Runnel.Place.PlaceFiles;
using Runnel.Twin.Ensembles;
using Runnel.Twin.Water;
using Runnel.Twin.Weather;

namespace Runnel.Benchmarks;

/// <summary>What weather, heat, averaged flows and ensembles cost.</summary>
internal static class TwinSpeed
{
    public static void Tell()
    {
        string file = Path.Combine(AppContext.BaseDirectory, "places", "low-wall-yard.toml");
        var place = PlaceFile.Read(File.ReadAllText(file), file, PlaceNeeds.Forecast).Place!;
        var begin = Instant.FromUtc(2026, 1, 1, 0, 0);
        var generator = new WeatherGenerator(ClimateYear.Of(place));
        Timed("a year of hourly weather", () => generator.Make(begin, 365, 1));
        var month = new ForecastOptions { Days = 30, Averaged = false, Weather = generator.Make(begin, 30, 1) };
        Timed("30 days, every event, weather and heat", () => WaterForecaster.Run(place, month));
        var year = new ForecastOptions { Days = 365, Averaged = true, Weather = generator.Make(begin, 365, 1) };
        Timed("a year, averaged, weather and heat", () => WaterForecaster.Run(place, year));
        Timed("200 members x 72 h, averaged, weather and heat", () => Ensemble.Run(place, new ForecastOptions { Days = 3 }, 200, i => generator.Make(begin, 3, i), 1, null, CancellationToken.None));
    }

    private static void Timed(string what, Action run)
    {
        run();
        using var self = Process.GetCurrentProcess();
        var before = self.TotalProcessorTime;
        var watch = Stopwatch.StartNew();
        run();
        watch.Stop();
        self.Refresh();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{what}: {(self.TotalProcessorTime - before).TotalSeconds:0.00} s of processor, {watch.Elapsed.TotalSeconds:0.00} s on {Environment.ProcessorCount} cores"));
    }
}
