using System.Text.Json;

namespace Runnel.Host.Tests.Commands;

public sealed class DiagnoseCommandTests(InventedFiles files) : IClassFixture<InventedFiles>
{
    private static readonly string[] Keys =
        ["place", "from", "to", "readings", "skipped", "kit", "cycles", "ledger", "estimates", "notices", "own_rule"];

    [Fact]
    public async Task Text_is_a_page_of_eighty_columns_with_the_verdict_first()
    {
        var ran = await Cli.RunAsync("diagnose", "--place", files.Place, files.Log, "--daybook", files.Daybook);
        Assert.Equal(0, ran.Code);
        string[] lines = ran.Out.Split('\n');
        Assert.Matches("^[A-Z].*[.?]?$", lines[0]);
        Assert.All(lines, l => Assert.True(l.Length <= 80, l));
        Assert.Contains("Water, litres", ran.Out, StringComparison.Ordinal);
        Assert.Contains("Cycles of the pump", ran.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Json_stands_alone_on_the_output()
    {
        var ran = await Cli.RunAsync("diagnose", "--place", files.Place, files.Log, "--json");
        Assert.Equal(0, ran.Code);
        using var json = JsonDocument.Parse(ran.Out);
        Assert.All(Keys, k => Assert.True(json.RootElement.TryGetProperty(k, out _), k));
    }

    [Fact]
    public async Task Nothing_later_than_until_is_used()
    {
        var place = files.Made.Place;
        var log = files.Made.Log.Readings;
        var middle = log[log.Count / 2].Time.InZone(place.Zone).LocalDateTime.Date;
        var ran = await Cli.RunAsync("diagnose", "--place", files.Place, files.Log, "--json", "--until", middle.ToString("uuuu-MM-dd", null));
        Assert.Equal(0, ran.Code);
        using var json = JsonDocument.Parse(ran.Out);
        var to = DateTimeOffset.Parse(json.RootElement.GetProperty("to").GetString()!, null);
        Assert.True(to <= middle.AtStartOfDayInZone(place.Zone).ToDateTimeOffset(), to.ToString());
    }

    [Fact]
    public async Task A_page_is_written_beside_the_text()
    {
        string page = files.At("findings.html");
        var ran = await Cli.RunAsync("diagnose", "--place", files.Place, files.Log, "--html", page);
        Assert.Equal(0, ran.Code);
        string html = await File.ReadAllTextAsync(page, TestContext.Current.CancellationToken);
        Assert.StartsWith("<!doctype html>", html, StringComparison.OrdinalIgnoreCase);
        Assert.Contains(files.Made.Place.Name, html, StringComparison.Ordinal);
        Assert.Contains("<svg", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_log_twice_gives_the_same_output()
    {
        string[] args = ["diagnose", "--place", files.Place, files.Log, "--json"];
        Assert.Equal((await Cli.RunAsync(args)).Out, (await Cli.RunAsync(args)).Out);
    }
}
