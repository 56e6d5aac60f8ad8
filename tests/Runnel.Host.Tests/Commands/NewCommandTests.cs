using Runnel.Place.PlaceFiles;
using Runnel.Twin.Invented;

namespace Runnel.Host.Tests.Commands;

/// <summary>From a bare log to a place file and its findings, by answering or by options.</summary>
public sealed class NewCommandTests : IClassFixture<NewCommandTests.DemoFiles>
{
    /// <summary>One line an answer, in the order of the questions: the columns are right, then name, zone and so on. The demo's bleed stays shut: no rate is asked.</summary>
    public const string Answers = "\nQuince Terrace\nAustralia/Sydney\n33.4 S\n149.6 E\n720\n65 L\n11,5 L/min\n2.5\n7\n1.6\n";

    private readonly DemoFiles _files;

    public NewCommandTests(DemoFiles files) => _files = files;

    [Fact]
    public async Task Answers_become_a_place_file_and_the_findings_follow()
    {
        string place = _files.At("answered.toml");
        var ran = await Cli.RunAsync(Answers, TestContext.Current.CancellationToken, "new", "--from-log", _files.Log, "--to", place);
        Assert.True(ran.Code == 0, ran.Error);
        var read = await ReadAsync(place);
        Assert.Equal(("Quince Terrace", "Australia/Sydney", -33.4), (read.Name, read.Zone.Id, read.LatitudeDeg));
        Assert.Equal(65, read.FindVessel("sump")!.BandL!.Value, 1e-9);
        Assert.Equal(11.5, read.FindEquipment("top-up")!.RateLPerMin!.Value, 1e-9);
        Assert.Contains("Quince Terrace: ", ran.Out, StringComparison.Ordinal);
        Assert.Contains("Water, litres", ran.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Options_do_without_questions()
    {
        string place = _files.At("options.toml");
        var ran = await Cli.RunAsync(Unasked(place, "--no-diagnose"));
        Assert.True(ran.Code == 0, ran.Error);
        Assert.Equal("", ran.Out);
        Assert.Equal("My place", (await ReadAsync(place)).Name);
    }

    [Fact]
    public async Task A_wrong_answer_is_asked_again()
    {
        string place = _files.At("again.toml");
        string answers = Answers.Replace("65 L", "a bathtub", StringComparison.Ordinal) + "65\n";
        var ran = await Cli.RunAsync(answers, TestContext.Current.CancellationToken, "new", "--from-log", _files.Log, "--to", place, "--no-diagnose");
        Assert.True(ran.Code == 0, ran.Error);
        Assert.Contains("a bathtub", ran.Error, StringComparison.Ordinal);
        Assert.Equal(65, (await ReadAsync(place)).FindVessel("sump")!.BandL!.Value, 1e-9);
    }

    [Fact]
    public async Task What_is_missing_at_the_end_of_the_answers_is_named_with_its_option()
    {
        string place = _files.At("missing.toml");
        var ran = await Cli.RunAsync("\n\nAustralia/Sydney\n", TestContext.Current.CancellationToken, "new", "--from-log", _files.Log, "--to", place);
        Assert.Equal(2, ran.Code);
        Assert.Contains("runnel: --band: ", ran.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(place));
    }

    [Fact]
    public async Task A_place_file_that_is_there_stays()
    {
        string place = _files.At("kept.toml");
        await File.WriteAllTextAsync(place, "mine", TestContext.Current.CancellationToken);
        (await Cli.RunAsync(Unasked(place))).OneError(1, place);
        Assert.Equal("mine", await File.ReadAllTextAsync(place, TestContext.Current.CancellationToken));
        Assert.Equal(0, (await Cli.RunAsync(Unasked(place, "--replace", "--no-diagnose"))).Code);
    }

    [Fact]
    public async Task A_channel_can_be_named_or_left_out()
    {
        string place = _files.At("channels.toml");
        var ran = await Cli.RunAsync(Unasked(place, "--no-diagnose", "--channel", "rain=", "--channel", "wind-speed=air-pressure"));
        Assert.True(ran.Code == 0, ran.Error);
        var read = await ReadAsync(place);
        Assert.Equal(-1, read.ChannelIndex("rain"));
        Assert.Equal(Runnel.Place.Quantity.AirPressure, read.Channels[read.ChannelIndex("wind-speed")].Measures);
        (await Cli.RunAsync(Unasked(_files.At("none.toml"), "--channel", "kettle=power:sump-pump"))).OneError(2, "--channel");
        (await Cli.RunAsync(Unasked(_files.At("none.toml"), "--channel", "rain=tea"))).OneError(2, "--channel");
    }

    private string[] Unasked(string place, params string[] more) =>
    [
        "new", "--from-log", _files.Log, "--to", place, "--yes", "--time-zone", "Australia/Sydney", "--band", "65 L", "--top-up-rate", "11.5 L/min",
        "--bleed-rate", "9", .. more,
    ];

    private static async Task<Runnel.Place.PlaceDescription> ReadAsync(string place)
    {
        var read = PlaceFile.Read(await File.ReadAllTextAsync(place, TestContext.Current.CancellationToken), place);
        Assert.Empty(read.Problems);
        return read.Place!;
    }

    /// <summary>The demo's log alone, as a newcomer has theirs.</summary>
    public sealed class DemoFiles : IDisposable
    {
        private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("runnel-new-");

        public DemoFiles()
        {
            using var log = new StreamWriter(Log);
            CsvText.WriteLog(InventedDemo.Make(), log);
        }

        public string Log => At("log.csv");

        public string At(string name) => Path.Combine(_folder.FullName, name);

        public void Dispose() => _folder.Delete(recursive: true);
    }
}
