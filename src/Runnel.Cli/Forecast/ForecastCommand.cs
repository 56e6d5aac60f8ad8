using System.CommandLine;
using Runnel.Cli.Inputs;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Twin.Ensembles;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;

namespace Runnel.Cli.Forecast;

/// <summary><c>runnel forecast</c>: what the water will do.</summary>
internal static class ForecastCommand
{
    private const double MostDays = 3700;
    private const int MostMembers = 5000;

    private enum OutputForm
    {
        Text,
        Json,
        Csv,
    }

    public static Command Create(Terminal terminal)
    {
        var place = PlaceInput.Option();
        var days = new Option<double>("--days") { Description = "How far ahead.", HelpName = "N", DefaultValueFactory = _ => 7 };
        var evaporation = new Option<double>("--evaporation")
        {
            Description = "A steady loss in place of weather: what air and plants take from open water and canopy, mm a day. Temperatures are then not reckoned.",
            HelpName = "MM",
            DefaultValueFactory = _ => 4,
        };
        var rain = new Option<double>("--rain") { Description = "A steady rain in place of weather, mm a day on the open water.", HelpName = "MM", DefaultValueFactory = _ => 0 };
        var weather = new ForecastWeatherOptions();
        var members = new Option<int>("--members")
        {
            Description = "Runs so many members of the place as it might be, under weather as it might come, and tells quantiles.",
            HelpName = "M",
            DefaultValueFactory = _ => 1,
        };
        var detailed = new Option<bool>("--detailed") { Description = "Follow every pump cycle, however long the span." };
        var averaged = new Option<bool>("--averaged") { Description = "Average flows over pump cycles, however short the span." };
        var fault = new Option<string[]>("--fault")
        {
            Description = "What goes wrong, of what, when, how fast, as in \"pump-stopped@6 h\" or \"drain-fouling:TANK@5 d,8 %/d\"; may stand several times. "
                + FaultNames.Text(),
            HelpName = "NAME[:THING]@TIME[,RATE]",
        };
        var readings = new Option<string?>("--readings")
        {
            Description = "Also write what the place's kit would read in that time, as CSV that diagnose takes: invented, with the weather of the place's climate.",
            HelpName = "FILE",
        };
        var json = new Option<bool>("--json") { Description = "Print JSON instead of text." };
        var csv = new Option<bool>("--csv") { Description = "Print hourly levels and flows as CSV instead of text." };
        var command = new WorkedCommand(
            "forecast", "Tells what the water of a place will do: levels, flows, pump cycles, temperatures, spills, water used.",
            "runnel forecast --place place.toml --days 7")
        {
            place, days, evaporation, rain, fault, readings, members, detailed, averaged, json, csv,
        };
        foreach (var option in weather.All) command.Add(option);
        command.SetAction(async (parsed, cancel) =>
        {
            var options = new ForecastOptions
            {
                Days = NumberInput.InRange("--days", parsed.GetValue(days), 0.01, MostDays),
                EvaporationMmPerDay = NumberInput.InRange("--evaporation", parsed.GetValue(evaporation), 0, 50),
                RainMmPerDay = NumberInput.InRange("--rain", parsed.GetValue(rain), 0, 2000),
            };
            bool steady = parsed.GetResult(evaporation) is { Implicit: false } || parsed.GetResult(rain) is { Implicit: false };
            if (parsed.GetValue(detailed) && parsed.GetValue(averaged)) throw RefusedException.WrongUsage("--averaged", "both --detailed and --averaged were asked for", "Choose one");
            options = options with { Averaged = parsed.GetValue(detailed) ? false : parsed.GetValue(averaged) ? true : null, WaterTempC = weather.WaterTempC(parsed) };
            int count = (int)NumberInput.InRange("--members", parsed.GetValue(members), 1, MostMembers);
            if (parsed.GetValue(json) && parsed.GetValue(csv)) throw RefusedException.WrongUsage("--csv", "both --json and --csv were asked for", "Choose one");
            string path = parsed.GetValue(place) ?? "";
            var (read, _) = await PlaceInput.ReadAsync(parsed.GetValue(place), PlaceNeeds.Forecast, terminal, cancel);
            string? file = parsed.GetValue(readings);
            var sky = await weather.ReadAsync(parsed, read, options.Days, steady, file is null, terminal, cancel);
            var start = sky?.Start ?? weather.From(parsed, read);
            options = options with { BeginsAt = start.InZone(read.Zone).TimeOfDay, Faults = [.. (parsed.GetValue(fault) ?? []).Select(f => FaultNames.Read(f, read))] };
            var form = parsed.GetValue(json) ? OutputForm.Json : parsed.GetValue(csv) ? OutputForm.Csv : OutputForm.Text;
            if (file is not null) await PlayedReadings.WriteAsync(file, read, options, start, weather.Seed(parsed), cancel);
            await terminal.Out.WriteAsync(
                count > 1 ? await ManyAsync(path, read, options, sky, count, weather.Seed(parsed), form, cancel) : await OneAsync(path, read, options, sky, form, cancel));
            return ExitCodes.Done;
        });
        return command;
    }

    private static async Task<string> OneAsync(string path, PlaceDescription place, ForecastOptions options, ForecastWeather? sky, OutputForm form, CancellationToken cancel)
    {
        var own = options with { Weather = sky?.Make(options.Days, sky.Seed) };
        var forecast = await Task.Run(() => WaterForecaster.Run(place, own), cancel).WaitAsync(cancel);
        if (forecast.Stop != StopReason.Reached) throw Stopped(path, forecast);
        return form switch
        {
            OutputForm.Json => ForecastJson.Write(place, own, sky, forecast),
            OutputForm.Csv => ForecastCsv.Write(place, forecast),
            _ => ForecastText.Render(place, own, sky, forecast),
        };
    }

    private static async Task<string> ManyAsync(
        string path, PlaceDescription place, ForecastOptions options, ForecastWeather? sky, int members, int seed, OutputForm form, CancellationToken cancel)
    {
        var (ensemble, first) = await Task.Run(
            () => Ensemble.Run(place, options, members, sky is null ? null : i => sky.Make(options.Days, unchecked((seed * 10_007) + i)), seed, null, cancel), cancel).WaitAsync(cancel);
        if (ensemble is null) throw Stopped(path, first);
        return form switch
        {
            OutputForm.Json => EnsembleJson.Write(place, options, sky, ensemble),
            OutputForm.Csv => EnsembleCsv.Write(ensemble),
            _ => EnsembleText.Render(place, options, sky, ensemble),
        };
    }

    private static RefusedException Stopped(string path, WaterForecast forecast)
    {
        string when = Findings.Wording.Seconds(forecast.ReachedS);
        return forecast.Stop == StopReason.Chattering
            ? new RefusedException(
                path, $"after {when} a switch or siphon goes on and off without a pause", "Put its two levels further apart, or look whether its vessel is too small")
            : new RefusedException(path, $"the water could not be reckoned beyond {when} ({forecast.Stop})", "Look for a vessel that is far too small for its flow");
    }
}
