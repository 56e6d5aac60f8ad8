using System.Text.Json;

namespace Runnel.Host.Tests.Commands;

public sealed class TimeLeftCommandTests(InventedFiles files) : IClassFixture<InventedFiles>
{
    private static readonly string Example = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", "low-wall-yard.toml"));

    [Fact]
    public async Task The_cautious_end_is_told_first_and_the_sources_stand_beside_it()
    {
        string place = files.Write("fish.toml", Example);
        var told = await Cli.RunAsync("time-left", "--place", place, "--water-temp", "16");
        Assert.Equal((0, ""), (told.Code, told.Error));
        Assert.Matches("air and pump +at least [0-9]+ min", told.Out);
        Assert.Contains("New Mexico State University", told.Out, StringComparison.Ordinal);
        Assert.Contains("dry your hands", told.Out.ReplaceLineEndings(" "), StringComparison.Ordinal);

        var ran = await Cli.RunAsync("time-left", "--place", place, "--water-temp", "16", "--oxygen", "8", "--json");
        using var json = JsonDocument.Parse(ran.Out);
        var tank = json.RootElement.GetProperty("tanks")[0];
        Assert.True(tank.GetProperty("oxygen_measured").GetBoolean());
        var both = tank.GetProperty("times").EnumerateArray().Single(t =>
            t.GetProperty("outage").GetString() == "air-and-pump" && t.GetProperty("hour").GetString() == "usual" && !t.GetProperty("with_backup").GetBoolean());
        Assert.InRange(both.GetProperty("to_stress_s").GetProperty("at_least").GetDouble(), 300, 7200);
        Assert.True(both.GetProperty("to_danger_s").GetProperty("expected").GetDouble() > both.GetProperty("to_stress_s").GetProperty("expected").GetDouble());
    }

    [Fact]
    public async Task The_water_temperature_is_asked_for_or_read_from_the_log()
    {
        string place = files.Write("fish.toml", Example + "[[channel]]\nid = \"tank-water\"\nmeasures = \"water-temperature\"\nof = \"trout-tank\"\n");
        (await Cli.RunAsync("time-left", "--place", place)).OneError(2, "--water-temp");
        (await Cli.RunAsync("time-left", "--place", place, "--water-temp", "99")).OneError(2, "--water-temp");
        string log = files.Write("water.csv", "time,channel,value\n2026-07-01T10:00:00Z,tank-water,14.5\n2026-07-01T10:10:00Z,tank-water,15.5\n");
        var told = await Cli.RunAsync("time-left", "--place", place, "--log", log);
        Assert.Contains("15.5 °C", told.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_place_without_fish_is_told_what_to_add()
    {
        string bare = files.Write("bare.toml", Example[..Example.IndexOf("[[fish-group]]", StringComparison.Ordinal)]);
        (await Cli.RunAsync("time-left", "--place", bare, "--water-temp", "16")).OneError(1, bare);
    }
}
