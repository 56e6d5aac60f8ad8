using System.CommandLine;
using NodaTime;
using Runnel.Cli.Findings;
using Runnel.Cli.Inputs;
using Runnel.Place;
using Runnel.Twin.Weather;

namespace Runnel.Cli.Forecast;

/// <summary>The weather that a forecast assumes.</summary>
/// <param name="Generator">Makes what was not measured.</param>
/// <param name="Measured">What was; null: nothing.</param>
/// <param name="Start">When the forecast begins.</param>
/// <param name="Seed">Seed of the made weather.</param>
/// <param name="Told">Where the weather comes from, in a sentence.</param>
/// <param name="Notes">What is missing and how it was made up.</param>
internal sealed record ForecastWeather(
    WeatherGenerator Generator, MeasuredWeather? Measured, Instant Start, int Seed, string Told, IReadOnlyList<string> Notes)
{
    public WeatherSeries Make(double days, int seed) => Measured is { } measured ? measured.Continue(Generator, Start, days, seed) : Generator.Make(Start, days, seed);
}

/// <summary>Options of the weather, and how they are read.</summary>
internal sealed class ForecastWeatherOptions
{
    private readonly Option<string?> _file = new("--weather")
    {
        Description = "Measured weather (CSV as a log: air-temperature, relative-humidity, solar-irradiance, wind-speed, rain). What is missing or comes later is made from the climate.",
        HelpName = "FILE",
    };

    private readonly Option<string?> _from = new("--from")
    {
        Description = "When it begins. [default: the first hour of --weather, else now; with --readings or a steady loss 2026-01-01]",
        HelpName = "TIME",
    };

    private readonly Option<int> _seed = new("--seed") { Description = "Another number, other made weather, other members, other chance in --readings.", HelpName = "N", DefaultValueFactory = _ => 1 };
    private readonly Option<double?> _waterTemp = new("--water-temperature") { Description = "Of all water at the beginning, °C. [default: mean of the first days' air]", HelpName = "C" };

    public IEnumerable<Option> All => [_file, _from, _seed, _waterTemp];

    public int Seed(ParseResult parsed) => parsed.GetValue(_seed);

    /// <summary>When it begins where no weather counts.</summary>
    public Instant From(ParseResult parsed, PlaceDescription place) => TimeInput.Read("--from", parsed.GetValue(_from) ?? "2026-01-01", place.Zone)!.Value;

    public double? WaterTempC(ParseResult parsed) => parsed.GetValue(_waterTemp) is not { } temp ? null : NumberInput.InRange("--water-temperature", temp, 0, 45);

    /// <summary>The weather; null where a steady loss was asked for, or the place does not say where it is.</summary>
    public async Task<ForecastWeather?> ReadAsync(ParseResult parsed, PlaceDescription place, double days, bool steady, bool mayBeNow, Terminal terminal, CancellationToken cancel)
    {
        string? path = parsed.GetValue(_file);
        if (steady)
        {
            return path is null ? null : throw RefusedException.WrongUsage(
                "--weather", "weather and a steady loss or rain were both asked for", "Leave out --evaporation and --rain");
        }

        bool sited = double.IsFinite(place.LatitudeDeg + place.LongitudeDeg + place.AltitudeM);
        if (!sited)
        {
            return path is null ? null : throw new RefusedException(
                path, "weather needs latitude, longitude and altitude in [place]", "Add them to the place file");
        }

        var climate = ClimateYear.Of(place);
        var measured = path is null ? null : await MeasuredAsync(path, place, terminal, cancel);
        var told = TimeInput.Read("--from", parsed.GetValue(_from), place.Zone);
        var start = WholeHour(told ?? measured?.Start ?? (mayBeNow ? SystemClock.Instance.GetCurrentInstant() : From(parsed, place)));
        if (start < Instant.FromUtc(1950, 1, 1, 0, 0) || start > Instant.FromUtc(2090, 1, 1, 0, 0))
            throw RefusedException.WrongUsage("--from", "lies before 1950 or after 2090", "Correct the time");
        return new(new WeatherGenerator(climate), measured, start, Seed(parsed), Told(place, path, measured, start, days), [.. measured?.Notes ?? [], .. Filled(place, climate)]);
    }

    private static string Told(PlaceDescription place, string? path, MeasuredWeather? measured, Instant start, double days)
    {
        string made = place.Climate is null ? "made from its latitude alone, as no [climate] is told" : "made from its [climate]";
        if (measured is null) return $"weather {made}: it will come otherwise";
        var end = measured.Start + Duration.FromHours(measured.Hours);
        if (end <= start || measured.Start >= start + Duration.FromDays(days)) return $"weather {made}, as {path} holds none of this time";
        return end >= start + Duration.FromDays(days) ? $"weather measured ({path})" : $"weather measured ({path}) until {Wording.At(end, place.Zone)}, then {made}";
    }

    private static IEnumerable<string> Filled(PlaceDescription place, ClimateYear climate) =>
        place.Climate is null || climate.FilledIn.Count == 0 ? [] : [$"the climate lacks some quantities, put in: {string.Join("; ", climate.FilledIn)}"];

    private static Instant WholeHour(Instant time) => Instant.FromUnixTimeSeconds(time.ToUnixTimeSeconds() / 3600 * 3600);

    private static async Task<MeasuredWeather> MeasuredAsync(string path, PlaceDescription place, Terminal terminal, CancellationToken cancel)
    {
        // The place's own weather channels as they are declared, and the plain names beside them.
        List<Channel> channels = [.. place.Channels.Where(c => c.Of is null && IsWeather(c.Measures))];
        foreach (var quantity in (Quantity[])[.. MeasuredWeather.Kinds, Quantity.RainTotal])
        {
            string name = Quantities.NameOf(quantity);
            if (channels.TrueForAll(c => c.Id != name)) channels.Add(new(name, quantity));
        }

        var log = await LogInput.ReadAsync(path, place with { Channels = channels }, null, terminal, cancel);
        foreach (var skipped in log.Skipped) await terminal.TellAsync($"{path}:{skipped.FirstLine}: {skipped.Count} rows not taken: {skipped.Reason}.");
        return MeasuredWeather.From(channels, log.Readings)
            ?? throw new RefusedException(path, "none of its columns is weather", "Name them as in air-temperature, relative-humidity, wind-speed, solar-irradiance, rain");
    }

    private static bool IsWeather(Quantity quantity) => quantity == Quantity.RainTotal || MeasuredWeather.Kinds.Contains(quantity);
}
