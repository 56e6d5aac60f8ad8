using System.CommandLine;
using Runnel.Cli.Inputs;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Science.Units;
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
        var fault = new Option<string?>("--fault") { Description = "What fails, and when: pump-stopped@TIME, as in \"pump-stopped@6 h\".", HelpName = "NAME@TIME" };
        var json = new Option<bool>("--json") { Description = "Print JSON instead of text." };
        var csv = new Option<bool>("--csv") { Description = "Print hourly levels and flows as CSV instead of text." };
        var command = new WorkedCommand(
            "forecast", "Tells what the water of a place will do: levels, flows, pump cycles, spills, water used.",
            "runnel forecast --place place.toml --days 7")
        {
            place, days, evaporation, rain, fault, json, csv,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            var options = new ForecastOptions
            {
                Days = InRange("--days", parsed.GetValue(days), 0.01, MostDays),
                EvaporationMmPerDay = InRange("--evaporation", parsed.GetValue(evaporation), 0, 50),
                RainMmPerDay = InRange("--rain", parsed.GetValue(rain), 0, 2000),
                PumpsDieAtS = FaultTime(parsed.GetValue(fault)),
            };
            if (parsed.GetValue(json) && parsed.GetValue(csv)) throw RefusedException.WrongUsage("--csv", "both --json and --csv were asked for", "Choose one");
            string path = parsed.GetValue(place) ?? "";
            var (read, _) = await PlaceInput.ReadAsync(parsed.GetValue(place), PlaceNeeds.Forecast, terminal, cancel);
            var forecast = await Task.Run(() => WaterForecaster.Run(read, options), cancel).WaitAsync(cancel);
            if (forecast.Stop != StopReason.Reached) throw Stopped(path, forecast);
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

    private static double? FaultTime(string? fault)
    {
        if (fault is null) return null;
        string[] parts = fault.Split('@', 2);
        if (parts[0] != "pump-stopped")
        {
            throw RefusedException.WrongUsage("--fault", $"there is no fault {parts[0]} yet", "Write pump-stopped@TIME, as in --fault \"pump-stopped@6 h\"");
        }

        var measure = Measure.Read(parts.Length > 1 ? parts[1] : "");
        var seconds = Unit.Of("s");
        if (measure.Fault == MeasureFault.None && measure.Unit!.Dimension == seconds.Dimension && measure.Unit.To(seconds, measure.Value) is >= 0 and var time) return time;
        throw RefusedException.WrongUsage("--fault", "its time is not understood", "Write a time from the beginning with its unit, as in --fault \"pump-stopped@6 h\"");
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
