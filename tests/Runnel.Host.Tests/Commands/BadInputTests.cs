using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Runnel.Place;

namespace Runnel.Host.Tests.Commands;

/// <summary>Whatever is handed in: one line that names the place and the remedy, the promised exit code, nothing else.</summary>
public sealed class BadInputTests(InventedFiles files) : IClassFixture<InventedFiles>
{
    private const string Header = "time,channel,value\n";

    private string PumpId => files.Made.Place.Channels.First(c => c.Measures == Quantity.Running).Id;

    [Fact]
    public async Task No_place_file_named() =>
        Assert.Contains("runnel new", (await Cli.RunAsync("diagnose", files.Log)).OneError(2, "--place"), StringComparison.Ordinal);

    [Fact]
    public async Task A_place_file_that_is_not_there()
    {
        string line = (await Cli.RunAsync("diagnose", "--place", files.At("no.toml"), files.Log)).OneError(1, files.At("no.toml"));
        Assert.Contains("runnel new", line, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_wrong_unit_is_named_with_line_and_column()
    {
        string text = await File.ReadAllTextAsync(files.Place, TestContext.Current.CancellationToken);
        string[] lines = text.Split('\n');
        int band = Array.FindIndex(lines, l => l.TrimStart().StartsWith("band", StringComparison.Ordinal));
        lines[band] = "band = \"65 kg\"";
        string place = files.Write("wrong-unit.toml", string.Join('\n', lines));
        string line = (await Cli.RunAsync("diagnose", "--place", place, files.Log)).OneError(1, $"{place}:{band + 1}:");
        Assert.Contains("kg", line, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_problem_of_a_place_file_is_told_at_once()
    {
        string place = files.Write("many.toml", "[place]\nname = \"X\"\nlatitud = \"34 S\"\n[[vessel]]\nid = \"a\"\nkind = \"bucket\"\n");
        var ran = await Cli.RunAsync("diagnose", "--place", place, files.Log);
        Assert.Equal(1, ran.Code);
        string[] told = ran.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.True(told.Length >= 2, ran.Error);
        Assert.All(told, t => Assert.StartsWith($"runnel: {place}:", t, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_log_without_the_pumps_channel()
    {
        string log = files.Write("no-pump.csv", Header + "2026-02-01T00:00:00Z,kettle,1\n2026-02-01T00:10:00Z,kettle,0\n");
        (await Cli.RunAsync("diagnose", "--place", files.Place, log)).OneError(1, log);
    }

    [Fact]
    public async Task A_log_that_is_not_there() =>
        (await Cli.RunAsync("diagnose", "--place", files.Place, files.At("no.csv"))).OneError(1, files.At("no.csv"));

    [Fact]
    public async Task A_folder_in_place_of_a_log() =>
        (await Cli.RunAsync("diagnose", "--place", files.Place, Path.GetDirectoryName(files.Log)!)).OneError(1, Path.GetDirectoryName(files.Log)!);

    [Theory]
    [InlineData("empty.csv", "")]
    [InlineData("header-only.csv", Header)]
    [InlineData("blank.csv", "\n\n\n")]
    public async Task An_empty_log(string name, string text) =>
        (await Cli.RunAsync("diagnose", "--place", files.Place, files.Write(name, text))).OneError(1, files.At(name));

    [Fact]
    public async Task A_picture_named_csv()
    {
        string log = files.At("picture.csv");
        byte[] picture = [0x89, .. "PNG\r\n\u001a\n"u8, 0, 0, 0, 13, .. "IHDR"u8, .. Noise(4000)];
        await File.WriteAllBytesAsync(log, picture, TestContext.Current.CancellationToken);
        (await Cli.RunAsync("diagnose", "--place", files.Place, log)).OneError(1, log);
    }

    [Fact]
    public async Task Every_row_broken()
    {
        var text = new StringBuilder(Header);
        for (int i = 0; i < 200; i++) text.Append(CultureInfo.InvariantCulture, $"yesterday {i},{PumpId},perhaps\n");
        (await Cli.RunAsync("diagnose", "--place", files.Place, files.Write("broken.csv", text.ToString()))).OneError(1, files.At("broken.csv"));
    }

    [Fact]
    public async Task A_log_with_more_readings_than_allowed() =>
        (await Cli.RunAsync("diagnose", "--place", files.Place, files.Log, "--most-readings", "100")).OneError(1, files.Log);

    [Fact]
    public async Task A_file_of_two_gigabytes_that_is_no_log()
    {
        string log = files.At("huge.csv");
        await using (var file = File.Create(log)) file.SetLength(2L * 1024 * 1024 * 1024);
        (await Cli.RunAsync("diagnose", "--place", files.Place, log)).OneError(1, log);
        File.Delete(log);
    }

    [Fact]
    public async Task Times_running_backwards_are_read_and_told()
    {
        string[] rows = await File.ReadAllLinesAsync(files.Log, TestContext.Current.CancellationToken);
        string log = files.Write("backwards.csv", rows[0] + "\n" + string.Join('\n', rows[1..].Reverse()) + "\n");
        var ran = await Cli.RunAsync("diagnose", "--place", files.Place, log);
        Assert.Equal(0, ran.Code);
        ran.NoStackTrace();
    }

    [Theory]
    [InlineData("diagnose")]
    [InlineData("diagnose", "--place", "place.toml", "a.csv", "--until", "soon")]
    [InlineData("diagnose", "--plaice", "place.toml", "a.csv")]
    [InlineData("dagnose")]
    [InlineData("run", "--port", "seven")]
    [InlineData("run", "--port", "70000")]
    public async Task Wrong_usage_ends_with_2(params string[] args)
    {
        var ran = await Cli.RunAsync([.. args.Select(a => a == "place.toml" ? files.Place : a)]);
        Assert.Equal(2, ran.Code);
        Assert.Equal("", ran.Out);
        Assert.All(ran.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries), l => Assert.Matches(@"^runnel: \S.*: .+\. .+\.$", l));
    }

    [Fact]
    public async Task A_page_that_cannot_be_written_is_told_and_nothing_is_printed() =>
        (await Cli.RunAsync("diagnose", "--place", files.Place, files.Log, "--html", files.At("no/such/folder.html"))).OneError(1, files.At("no/such"));

    [Fact]
    public async Task A_full_disk_for_the_page() =>
        (await Cli.RunAsync("diagnose", "--place", files.Place, files.Log, "--html", "/dev/full")).OneError(1, "/dev/full");

    [Fact]
    public async Task A_taken_port()
    {
        using var taken = new TcpListener(IPAddress.Loopback, 0);
        taken.Start();
        string port = ((IPEndPoint)taken.LocalEndpoint).Port.ToString(CultureInfo.InvariantCulture);
        var ran = await Cli.RunAsync("run", "--port", port, "--folder", files.At("work"));
        Assert.Contains("--port 0", ran.OneError(1, $"--port {port}"), StringComparison.Ordinal);
    }

    private static byte[] Noise(int length)
    {
        byte[] bytes = new byte[length];
        new Random(2).NextBytes(bytes);
        return bytes;
    }
}
