using System.CommandLine;
using Runnel.Cli.Inputs;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;

namespace Runnel.Cli.Forecast;

/// <summary><c>runnel forecast</c>: what the water will do.</summary>
internal static class ForecastCommand
{
    private const double MostDays = 400;

    public static Command Create(Terminal terminal)
    {
        var place = PlaceInput.Option();
        var days = new Option<double>("--days") { Description = "How far ahead.", HelpName = "N", DefaultValueFactory = _ => 7 };
        var evaporation = new Option<double>("--evaporation")
        {
            Description = "What air and plants take from open water and canopy, mm a day.",
            HelpName = "MM",
            DefaultValueFactory = _ => 4,
        };
        var rain = new Option<double>("--rain") { Description = "Rain on the open water, mm a day.", HelpName = "MM", DefaultValueFactory = _ => 0 };
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
        var from = new Option<string?>("--from") { Description = "When it begins, for --readings and for hours of the day.", HelpName = "TIME", DefaultValueFactory = _ => "2026-01-01" };
        var seed = new Option<int>("--seed") { Description = "Another number, other weather and chance in --readings.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var json = new Option<bool>("--json") { Description = "Print JSON instead of text." };
        var csv = new Option<bool>("--csv") { Description = "Print hourly levels and flows as CSV instead of text." };
        var command = new WorkedCommand(
            "forecast", "Tells what the water of a place will do: levels, flows, pump cycles, spills, water used.",
            "runnel forecast --place place.toml --days 7")
        {
            place, days, evaporation, rain, fault, readings, from, seed, json, csv,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            var options = new ForecastOptions
            {
                Days = InRange("--days", parsed.GetValue(days), 0.01, MostDays),
                EvaporationMmPerDay = InRange("--evaporation", parsed.GetValue(evaporation), 0, 50),
                RainMmPerDay = InRange("--rain", parsed.GetValue(rain), 0, 2000),
            };
            if (parsed.GetValue(json) && parsed.GetValue(csv)) throw RefusedException.WrongUsage("--csv", "both --json and --csv were asked for", "Choose one");
            string path = parsed.GetValue(place) ?? "";
            var (read, _) = await PlaceInput.ReadAsync(parsed.GetValue(place), PlaceNeeds.Forecast, terminal, cancel);
            var start = TimeInput.Read("--from", parsed.GetValue(from), read.Zone)!.Value;
            options = options with { BeginsAt = start.InZone(read.Zone).TimeOfDay, Faults = [.. (parsed.GetValue(fault) ?? []).Select(f => FaultNames.Read(f, read))] };
            var forecast = await Task.Run(() => WaterForecaster.Run(read, options), cancel).WaitAsync(cancel);
            if (forecast.Stop != StopReason.Reached) throw Stopped(path, forecast);
            if (parsed.GetValue(readings) is { } file) await PlayedReadings.WriteAsync(file, read, options, start, parsed.GetValue(seed), cancel);
            await terminal.Out.WriteAsync(
                parsed.GetValue(json) ? ForecastJson.Write(read, options, forecast)
                : parsed.GetValue(csv) ? ForecastCsv.Write(read, forecast) : ForecastText.Render(read, options, forecast));
            return ExitCodes.Done;
        });
        return command;
    }

    private static double InRange(string option, double value, double least, double greatest) =>
        value >= least && value <= greatest ? value
            : throw RefusedException.WrongUsage(option, FormattableString.Invariant($"{value} is not from {least} to {greatest}"), "Correct the number");

    private static RefusedException Stopped(string path, WaterForecast forecast)
    {
        string when = Findings.Wording.Seconds(forecast.ReachedS);
        return forecast.Stop == StopReason.Chattering
            ? new RefusedException(
                path, $"after {when} a switch or siphon goes on and off without a pause", "Put its two levels further apart, or look whether its vessel is too small")
            : new RefusedException(path, $"the water could not be reckoned beyond {when} ({forecast.Stop})", "Look for a vessel that is far too small for its flow");
    }
}
