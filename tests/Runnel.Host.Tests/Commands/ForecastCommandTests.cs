using System.Text.Json;

namespace Runnel.Host.Tests.Commands;

public sealed class ForecastCommandTests(InventedFiles files) : IClassFixture<InventedFiles>
{
    private static readonly string Example = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", "low-wall-yard.toml"));

    [Fact]
    public async Task A_drain_of_32_in_place_of_40_millimetres_is_shown_with_the_tank_that_spills_and_when_and_by_how_much()
    {
        string wide = files.Write("wide.toml", Example), narrow = files.Write("narrow.toml", Narrow());
        var fine = await Cli.RunAsync("forecast", "--place", wide, "--days", "1", "--from", "2026-01-10");
        Assert.Equal((0, ""), (fine.Code, fine.Error));
        Assert.Contains("Nothing spills", fine.Out, StringComparison.Ordinal);

        var spills = await Cli.RunAsync("forecast", "--place", narrow, "--days", "1", "--json");
        using var json = JsonDocument.Parse(spills.Out);
        var tank = json.RootElement.GetProperty("vessels").EnumerateArray().Single(v => v.GetProperty("spilled_l").GetDouble() > 0);
        Assert.Equal("trout-tank", tank.GetProperty("id").GetString());
        Assert.InRange(tank.GetProperty("first_spill_s").GetDouble(), 60, 900);
        Assert.InRange(Math.Abs(json.RootElement.GetProperty("water").GetProperty("balance_l").GetDouble()), 0, 1e-6);

        var told = await Cli.RunAsync("forecast", "--place", narrow, "--days", "1");
        Assert.Matches("trout-tank spills [0-9.]+ L to ground, first after [0-9]+ min", told.Out);
    }

    [Fact]
    public async Task Inspect_tells_which_vessel_the_narrow_drain_lets_spill()
    {
        var fine = await Cli.RunAsync("inspect", files.Write("wide.toml", Example));
        Assert.DoesNotMatch("fails +trout-tank", fine.Out);

        var ran = await Cli.RunAsync("inspect", files.Write("narrow.toml", Narrow()), "--json");
        using var json = JsonDocument.Parse(ran.Out);
        var failed = json.RootElement.GetProperty("review").EnumerateArray()
            .Where(r => r.GetProperty("verdict").GetString() == "fails" && r.GetProperty("unit").GetString() == "mm").ToList();
        Assert.Equal("trout-tank", Assert.Single(failed).GetProperty("of").GetString());
        Assert.True(failed[0].GetProperty("margin").GetDouble() < 0);
    }

    [Fact]
    public async Task Csv_has_levels_and_flows_by_the_hour()
    {
        var ran = await Cli.RunAsync("forecast", "--place", files.Write("wide.toml", Example), "--days", "0.5", "--csv", "--fault", "pump-stopped@6 h");
        string[] lines = ran.Out.TrimEnd().Split('\n');
        Assert.Equal("hours,quantity,of,value,unit", lines[0]);
        Assert.Contains(lines, l => l.StartsWith("12,level,sump,", StringComparison.Ordinal));
        Assert.Contains("12,delivered,lift-pump,0,L/min", lines);
    }

    [Fact]
    public async Task A_place_that_does_not_tell_its_water_and_wrong_options_are_told_in_one_line_each()
    {
        string least = files.Write("least.toml", "[place]\nname = \"x\"\n");
        (await Cli.RunAsync("forecast", "--place", least)).OneError(1, least);
        (await Cli.RunAsync("forecast", "--place", files.Write("wide.toml", Example), "--days", "0")).OneError(2, "--days");
        (await Cli.RunAsync("forecast", "--place", files.Write("wide.toml", Example), "--fault", "pump-stopped@soon")).OneError(2, "--fault");
        (await Cli.RunAsync("forecast")).OneError(2, "--place");
    }

    [Fact]
    public async Task A_fouled_drain_month_made_by_the_twin_is_diagnosed_for_the_right_reason()
    {
        string place = files.Write("quince.toml", File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", "quince-court.toml"))), log = files.Write("fouled.csv", "");
        var made = await Cli.RunAsync("forecast", "--place", place, "--days", "30", "--fault", "drain-fouling:long-trough@14 d,8 %/d", "--readings", log);
        Assert.Equal(0, made.Code);
        Assert.Contains("Gone wrong: drain-fouling of long-trough", made.Out, StringComparison.Ordinal);

        var found = await Cli.RunAsync("diagnose", "--place", place, log, "--json");
        using var json = JsonDocument.Parse(found.Out);
        var notices = json.RootElement.GetProperty("notices").EnumerateArray().Where(n => n.GetProperty("urgency").GetString() != "record").ToList();
        Assert.Equal("drain-fouling", notices[0].GetProperty("cause").GetString());
        // Begun on the fifteenth; nothing is told before, and the spilling comes later.
        Assert.InRange(notices[0].GetProperty("first_noticed").GetDateTimeOffset(), new DateTimeOffset(2026, 1, 15, 0, 0, 0, TimeSpan.FromHours(11)), new DateTimeOffset(2026, 1, 21, 0, 0, 0, TimeSpan.FromHours(11)));
    }

    [Fact]
    public async Task A_fault_that_does_not_exist_is_told_with_the_nearest_name()
    {
        var ran = await Cli.RunAsync("forecast", "--place", files.Write("wide.toml", Example), "--fault", "pump-weakning@2 d");
        Assert.Contains("pump-weakening", ran.Error, StringComparison.Ordinal);
        ran.OneError(2, "--fault");
    }

    private static string Narrow() => Example.Replace("diameter = \"40 mm\"", "diameter = \"32 mm\"", StringComparison.Ordinal);
}
