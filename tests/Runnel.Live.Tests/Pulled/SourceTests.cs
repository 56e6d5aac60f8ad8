using System.Net;
using NodaTime;
using Runnel.Live.Tests.Mqtt;

namespace Runnel.Live.Tests.Pulled;

/// <summary>Sources of the place file: a broker of the household (Debian's), polled JSON, a file that another process writes, a folder.</summary>
public sealed class SourceTests
{
    private static CancellationToken Cancel => TestPlace.Cancel;

    [Fact]
    public async Task The_households_broker_is_listened_to_told_and_come_back_to()
    {
        int port = TestPlace.FreePort();
        await using var test = await TestPlace.StartAsync(
            $"""
            source = "house"
            topic = "cellar/level"
            [[source]]
            id = "house"
            kind = "broker"
            address = "127.0.0.1:{port}"
            """);
        var away = await test.SeeAsync(v => v.Sources.Count == 2 && v.Sources[1].Trouble is not null);
        Assert.False(away.Sources[1].Connected);
        Assert.Contains("cannot be reached", away.Sources[1].Trouble, StringComparison.Ordinal);

        using var broker = Tool.Start("mosquitto", "-p", $"{port}");
        try
        {
            await test.SeeAsync(v => v.Sources[1].Connected);
            Assert.Equal(0, (await Tool.RunAsync("mosquitto_pub", "-p", $"{port}", "-t", "cellar/level", "-m", "421", "-q", "1")).Code);
            Assert.Equal(421, (await test.SeeAsync(v => v.Channels[1].Value is not null)).Channels[1].Value);
            await using var other = new Subscribed(port);
            var told = await other.ReadAsync("runnel/#", m => m.ContainsKey("runnel/test-yard/standing"), Cancel);
            Assert.Equal("running", told["runnel/test-yard/standing"]);
        }
        finally
        {
            broker.Kill();
            await broker.WaitForExitAsync(CancellationToken.None);
        }

        Assert.False((await test.SeeAsync(v => !v.Sources[1].Connected)).Sources[1].Connected);
    }

    [Fact]
    public async Task Json_is_asked_for_and_a_server_that_fails_is_told()
    {
        int port = TestPlace.FreePort();
        using var server = new HttpListener();
        server.Prefixes.Add($"http://127.0.0.1:{port}/");
        server.Start();
        int asked = 0;
        _ = Task.Run(
            async () =>
            {
                while (server.IsListening)
                {
                    var context = await server.GetContextAsync();
                    context.Response.StatusCode = ++asked > 1 ? 500 : 200;
                    if (asked == 1) context.Response.OutputStream.Write("""{"sump": [{"mm": 377}]}"""u8);
                    context.Response.Close();
                }
            },
            Cancel);
        await using var test = await TestPlace.StartAsync(
            $"""
            source = "box"
            pointer = "/sump/0/mm"
            [[source]]
            id = "box"
            kind = "poll"
            address = "http://127.0.0.1:{port}/readings"
            every = "1 s"
            """);
        Assert.Equal(377, (await test.SeeAsync(v => v.Channels[1].Value is not null)).Channels[1].Value);
        Assert.Contains("answers 500", (await test.SeeAsync(v => v.Sources[1].Trouble?.Contains("500", StringComparison.Ordinal) == true)).Sources[1].Trouble, StringComparison.Ordinal);
        server.Stop();
    }

    [Fact]
    public async Task A_log_that_another_process_writes_is_followed_through_rotation_and_a_folder_is_watched()
    {
        await using var test = await TestPlace.StartAsync(
            """
            [[source]]
            id = "logger"
            kind = "file"
            address = "FOLDER/pump.csv"
            every = "1 s"
            [[source]]
            id = "dropped"
            kind = "folder"
            address = "FOLDER/in"
            every = "1 s"
            """,
            t => Directory.CreateDirectory(Path.Combine(t.Folder, "in")));
        var now = Instant.FromUnixTimeSeconds(SystemClock.Instance.GetCurrentInstant().ToUnixTimeSeconds());
        string Row(int minutes, int value) => $"{now - Duration.FromMinutes(minutes)},pump,{value}";
        string path = Path.Combine(test.Folder, "pump.csv");
        string script = $"""
            echo time,channel,value > {path}; echo {Row(50, 1)} >> {path}; sleep 1.3
            echo {Row(40, 0)} >> {path}; sleep 1.3
            mv {path} {path}.1; echo {Row(30, 1)} >> {path}.1
            echo time,channel,value > {path}; echo {Row(20, 0)} >> {path}; sleep 1.3; echo {Row(10, 1)} >> {path}
            """;
        File.WriteAllText(Path.Combine(test.Folder, "in", "old.csv"), $"time,channel,value\n{Row(90, 0)}\n{Row(80, 1)}\n");
        Assert.Equal(0, (await Tool.RunAsync("bash", "-c", script)).Code);
        var view = await test.SeeAsync(v => v.Intake.Taken == 7);
        Assert.All(view.Sources, s => Assert.Null(s.Trouble));
        Assert.Equal(now - Duration.FromMinutes(10), (await test.SeeAsync(v => v.Channels[0].Time == now - Duration.FromMinutes(10))).Channels[0].Time);
    }
}
