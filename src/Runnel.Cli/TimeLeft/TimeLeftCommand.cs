using System.CommandLine;
using Runnel.Cli.Inputs;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Twin.Oxygen;

namespace Runnel.Cli.TimeLeft;

/// <summary><c>runnel time-left</c>: how long the fish have when air, flow or both fail.</summary>
internal static class TimeLeftCommand
{
    /// <summary>Readings older than this say nothing of now.</summary>
    private static readonly NodaTime.Duration Fresh = NodaTime.Duration.FromHours(2);

    public static Command Create(Terminal terminal)
    {
        var place = PlaceInput.Option();
        var log = new Option<string?>("--log") { Description = "A log whose last readings tell water temperature and oxygen.", HelpName = "LOG.csv" };
        var temperature = new Option<double?>("--water-temp") { Description = "Water temperature, °C.", HelpName = "C" };
        var oxygen = new Option<double?>("--oxygen") { Description = "Oxygen measured just now in the (only) tank, mg/L. [default: reckoned]", HelpName = "MG_L" };
        var members = new Option<int>("--members") { Description = "How many likely loops to reckon.", HelpName = "N", DefaultValueFactory = _ => 300 };
        var json = new Option<bool>("--json") { Description = "Print JSON instead of text." };
        var command = new WorkedCommand(
            "time-left", "Tells how long the fish have if air, flow or both stop now: until they suffer, and until they die.",
            "runnel time-left --place places/low-wall-yard.toml --water-temp 16")
        {
            place, log, temperature, oxygen, members, json,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            var (described, _) = await PlaceInput.ReadAsync(parsed.GetValue(place), PlaceNeeds.TimeLeft, terminal, cancel);
            var (tempC, measured) = await NowAsync(described, parsed.GetValue(log), parsed.GetValue(temperature), terminal, cancel);
            if (parsed.GetValue(oxygen) is { } told)
            {
                if (described.Fish!.Tanks is not [var only]) throw RefusedException.WrongUsage("--oxygen", "there are several tanks with fish", "Give a log with a channel of dissolved-oxygen for each, by --log");
                measured = new() { [only.Vessel] = NumberInput.InRange("--oxygen", told, 0, 40, "mg/L") };
            }

            var options = new TimeLeftOptions(tempC)
            {
                MeasuredMgPerL = measured,
                Members = (int)NumberInput.InRange("--members", parsed.GetValue(members), 50, 100_000, "loops"),
            };
            var left = await Task.Run(() => TimeLeftForecaster.Run(described, options), cancel).WaitAsync(cancel);
            await terminal.Out.WriteAsync(parsed.GetValue(json) ? TimeLeftJson.Write(described, left) : TimeLeftText.Render(described, left));
            return ExitCodes.Done;
        });
        return command;
    }

    private static async Task<(double TempC, Dictionary<string, double> MeasuredMgPerL)> NowAsync(
        PlaceDescription place, string? log, double? told, Terminal terminal, CancellationToken cancel)
    {
        Dictionary<string, double> oxygen = [];
        double? tempC = told;
        if (log is not null)
        {
            var read = await LogInput.ReadAsync(log, place, null, terminal, cancel);
            var newest = read.Readings.Count > 0 ? read.Readings[^1].Time : default;
            for (int c = 0; c < place.Channels.Count; c++)
            {
                var channel = place.Channels[c];
                if (channel.Measures is not (Quantity.WaterTemperature or Quantity.DissolvedOxygen)) continue;
                var last = read.Readings.LastOrDefault(r => r.Channel == c);
                if (newest - last.Time > Fresh) continue;
                if (channel.Measures == Quantity.WaterTemperature) tempC ??= last.Value;
                else if (channel.Of is { } of && place.Fish!.Tanks.Any(t => t.Vessel == of)) oxygen[of] = last.Value;
            }
        }

        if (tempC is not { } t)
        {
            throw RefusedException.WrongUsage(
                "--water-temp", log is null ? "the water's temperature is not told" : "the log's last two hours do not tell the water's temperature",
                "Measure it and add --water-temp 18");
        }

        return (NumberInput.InRange("--water-temp", t, 0, 40, "°C"), oxygen);
    }
}
