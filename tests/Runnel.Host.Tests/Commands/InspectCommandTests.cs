using System.Text.Json;

namespace Runnel.Host.Tests.Commands;

public sealed class InspectCommandTests(InventedFiles files) : IClassFixture<InventedFiles>
{
    [Fact]
    public async Task A_sound_file_is_told_with_its_channels()
    {
        var ran = await Cli.RunAsync("inspect", files.Place);
        Assert.Equal((0, ""), (ran.Code, ran.Error));
        Assert.All(files.Made.Place.Channels, c => Assert.Contains(c.Id, ran.Out, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Json_lists_every_problem_and_ends_with_1()
    {
        var ran = await Cli.RunAsync("inspect", files.Write("unsound.toml", "[place]\nname = 3\nlatitud = \"34 S\"\n"), "--json");
        Assert.Equal((1, ""), (ran.Code, ran.Error));
        using var json = JsonDocument.Parse(ran.Out);
        var problems = json.RootElement.GetProperty("problems").EnumerateArray().ToList();
        Assert.Contains(problems, p => p.GetProperty("line").GetInt32() == 3 && p.GetProperty("nearest").GetString() == "latitude");
    }
}
