using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Runnel.Host.Tests.Commands;

public sealed class ForecastWeatherTests(InventedFiles files) : IClassFixture<InventedFiles>
{
    private static readonly string Example = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", "low-wall-yard.toml"));

    [Fact]
    public async Task Temperatures_and_the_balance_of_heat_are_told_and_the_same_seed_and_time_give_the_same_text()
    {
        string place = files.Write("place.toml", Example);
        string[] asked = ["forecast", "--place", place, "--days", "2", "--from", "2026-01-10", "--seed", "3"];
        var text = await Cli.RunAsync(asked);
        Assert.Equal((0, ""), (text.Code, text.Error));
        Assert.Contains("Water temperatures", text.Out, StringComparison.Ordinal);
        Assert.Equal(text.Out, (await Cli.RunAsync(asked)).Out);

        using var json = JsonDocument.Parse((await Cli.RunAsync([.. asked, "--json"])).Out);
        var heat = json.RootElement.GetProperty("heat");
        Assert.InRange(Math.Abs(heat.GetProperty("balance_mj").GetDouble()) / heat.GetProperty("moved_mj").GetDouble(), 0, 1e-9);
        Assert.Equal("detailed", json.RootElement.GetProperty("hydraulics").GetString());
        Assert.Contains("water-temperature,trout-tank", (await Cli.RunAsync([.. asked, "--csv"])).Out, StringComparison.Ordinal);
        Assert.DoesNotContain("Water temperatures", (await Cli.RunAsync("forecast", "--place", place, "--days", "1", "--evaporation", "4")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Measured_weather_is_used_as_far_as_it_goes_and_what_was_made_up_is_said()
    {
        var csv = new StringBuilder("time,air-temperature,relative-humidity,solar-irradiance,wind-speed\n");
        for (int h = 0; h < 48; h++)
        {
            if (h is >= 10 and < 20) continue;
            csv.Append(CultureInfo.InvariantCulture, $"2026-01-{10 + (h / 24):00}T{h % 24:00}:00:00Z,35,40,{(h % 24 < 7 ? 800 : 0)},2\n");
        }

        string place = files.Write("place.toml", Example), weather = files.Write("weather.csv", csv.ToString());
        var hot = await Cli.RunAsync("forecast", "--place", place, "--days", "3", "--weather", weather, "--json");
        Assert.Equal(0, hot.Code);
        using var json = JsonDocument.Parse(hot.Out);
        Assert.Equal("2026-01-10T00:00:00Z", json.RootElement.GetProperty("start").GetString());
        string told = json.RootElement.GetProperty("weather").ToString();
        Assert.Contains("air-temperature missing for 10 h in 1 gap", told, StringComparison.Ordinal);
        Assert.Contains("no rain measured", told, StringComparison.Ordinal);
        Assert.Contains("until 12 Jan 2026", told, StringComparison.Ordinal);
        Assert.True(json.RootElement.GetProperty("vessels")[1].GetProperty("temperature_c").GetProperty("high").GetDouble() > 25);

        (await Cli.RunAsync("forecast", "--place", place, "--weather", weather, "--evaporation", "4")).OneError(2, "--weather");
        (await Cli.RunAsync("forecast", "--place", place, "--weather", files.Write("none.csv", "time,other\n2026-01-10T00:00:00Z,1\n"))).OneError(1, "");
    }

    [Fact]
    public async Task Members_give_quantiles_in_text_json_and_csv()
    {
        string place = files.Write("place.toml", Example);
        string[] asked = ["forecast", "--place", place, "--days", "1", "--from", "2026-01-10", "--members", "24"];
        var text = await Cli.RunAsync(asked);
        Assert.Equal((0, ""), (text.Code, text.Error));
        Assert.Contains("24 members", text.Out, StringComparison.Ordinal);
        using var json = JsonDocument.Parse((await Cli.RunAsync([.. asked, "--json"])).Out);
        var high = json.RootElement.GetProperty("vessels")[0].GetProperty("high_mm");
        Assert.True(high.GetProperty("p10").GetDouble() <= high.GetProperty("p50").GetDouble() && high.GetProperty("p50").GetDouble() <= high.GetProperty("p90").GetDouble());
        Assert.StartsWith("hours,quantity,of,p10,p50,p90,unit\n", (await Cli.RunAsync([.. asked, "--csv"])).Out, StringComparison.Ordinal);
        (await Cli.RunAsync("forecast", "--place", place, "--members", "0")).OneError(2, "--members");
    }

    [Fact]
    public async Task A_year_is_averaged_by_itself_and_says_so()
    {
        var year = await Cli.RunAsync("forecast", "--place", files.Write("place.toml", Example), "--days", "365", "--from", "2026-01-01");
        Assert.Equal(0, year.Code);
        Assert.Matches(@"means over pump\s+cycles", year.Out);
    }
}
