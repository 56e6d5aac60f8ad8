using System.Text.Json;

namespace Runnel.Host.Tests.Commands;

public sealed class ImportAndExportTests(InventedFiles files) : IClassFixture<InventedFiles>
{
    [Fact]
    public async Task What_is_exported_and_taken_in_again_is_the_same()
    {
        string records = files.At("round.sqlite");
        Assert.Equal(0, (await Cli.RunAsync("import", "--place", files.Place, files.Log, "--records", records, "--daybook", files.Daybook)).Code);
        string exported = files.At("round.csv");
        Assert.Equal(0, (await Cli.RunAsync("export", "--records", records, "--to", exported)).Code);

        string second = files.At("second.sqlite");
        Assert.Equal(0, (await Cli.RunAsync("import", "--place", files.Place, exported, "--records", second, "--scaled")).Code);
        Assert.Equal(
            await File.ReadAllTextAsync(exported, TestContext.Current.CancellationToken),
            (await Cli.RunAsync("export", "--records", second)).Out);
    }

    [Fact]
    public async Task Importing_again_tells_that_everything_was_known()
    {
        string records = files.At("again.sqlite");
        string[] args = ["import", "--place", files.Place, files.Log, "--records", records, "--json"];
        var first = Counts((await Cli.RunAsync(args)).Out);
        var second = Counts((await Cli.RunAsync(args)).Out);
        Assert.True(first.New > 1000);
        Assert.Equal((0, 0), (second.New, second.Changed));
        Assert.Equal(first.New + first.Changed + first.Known, second.Known);
    }

    [Fact]
    public async Task The_records_lie_beside_the_place_file_unless_named()
    {
        string folder = Directory.CreateDirectory(files.At("beside")).FullName;
        string place = Path.Combine(folder, "place.toml");
        File.Copy(files.Place, place);
        Assert.Equal(0, (await Cli.RunAsync("import", "--place", place, files.Log)).Code);
        Assert.True(File.Exists(Path.Combine(folder, "records.sqlite")));
    }

    [Fact]
    public async Task One_channel_and_a_stretch_of_time_can_be_chosen()
    {
        string records = files.At("part.sqlite");
        await Cli.RunAsync("import", "--place", files.Place, files.Log, "--records", records);
        string id = files.Made.Place.Channels[0].Id;
        var all = Rows((await Cli.RunAsync("export", "--records", records, "--channel", id)).Out);
        Assert.NotEmpty(all);
        Assert.All(all, r => Assert.Equal(id, r.Split(',')[1]));
        string middle = all[all.Count / 2].Split(',')[0];
        var before = Rows((await Cli.RunAsync("export", "--records", records, "--channel", id, "--until", middle)).Out);
        var after = Rows((await Cli.RunAsync("export", "--records", records, "--channel", id, "--from", middle)).Out);
        Assert.Equal(all, before.Concat(after));
    }

    [Fact]
    public async Task A_scaled_channel_is_not_scaled_twice_on_the_way_out_and_in()
    {
        string place = files.Write(
            "scaled.toml",
            """
            [place]
            name = "Scaled"
            time-zone = "Australia/Sydney"
            [[channel]]
            id = "gauge"
            measures = "rain"
            scale = 0.2
            """);
        string log = files.Write("scaled.csv", "time,gauge\n2026-02-01 10:00,3\n");
        string records = files.At("scaled.sqlite"), exported = files.At("scaled-out.csv"), again = files.At("scaled-again.sqlite");
        Assert.Equal(0, (await Cli.RunAsync("import", "--place", place, log, "--records", records)).Code);
        Assert.Equal(0, (await Cli.RunAsync("export", "--records", records, "--to", exported)).Code);
        string text = await File.ReadAllTextAsync(exported, TestContext.Current.CancellationToken);
        Assert.Matches("^time,channel,value,unit\r\n2026-01-31T23:00:00Z,gauge,0.6[0-9]*,mm\r\n$", text);
        Assert.Equal(0, (await Cli.RunAsync("import", "--place", place, exported, "--records", again)).Code);
        Assert.Equal(text, (await Cli.RunAsync("export", "--records", again)).Out);
    }

    [Fact]
    public async Task The_daybook_comes_out_as_it_went_in()
    {
        string records = files.At("daybook.sqlite");
        string daybook = files.Write(
            "entries.csv",
            "time,entry,of,amount,unit,by,note\r\n2026-02-03T10:00:00Z,drained,,12,L,Ada,\"a, b\"\r\n2026-02-04T10:00:00Z,cleaned,,,,,\r\n");
        Assert.Equal(0, (await Cli.RunAsync("import", "--place", files.Place, files.Log, "--records", records, "--daybook", daybook)).Code);
        Assert.Equal(
            await File.ReadAllTextAsync(daybook, TestContext.Current.CancellationToken),
            (await Cli.RunAsync("export", "--records", records, "--daybook")).Out);
    }

    [Fact]
    public async Task No_records_yet() => (await Cli.RunAsync("export", "--records", files.At("none.sqlite"))).OneError(1, files.At("none.sqlite"));

    [Fact]
    public async Task A_channel_the_records_do_not_hold()
    {
        string records = files.At("unknown.sqlite");
        await Cli.RunAsync("import", "--place", files.Place, files.Log, "--records", records);
        (await Cli.RunAsync("export", "--records", records, "--channel", "kettle")).OneError(1, "--channel");
    }

    private static List<string> Rows(string csv) => [.. csv.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Skip(1)];

    private static (long New, long Changed, long Known) Counts(string json)
    {
        using var parsed = JsonDocument.Parse(json);
        var log = parsed.RootElement.GetProperty("logs")[0];
        return (log.GetProperty("new").GetInt64(), log.GetProperty("changed").GetInt64(), log.GetProperty("known").GetInt64());
    }
}
