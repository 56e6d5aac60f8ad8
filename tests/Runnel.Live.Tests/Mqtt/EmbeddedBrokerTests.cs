using MQTTnet;
using MQTTnet.Protocol;
using NodaTime;

namespace Runnel.Live.Tests.Mqtt;

/// <summary>Runnel's own broker with the command-line clients of Debian's mosquitto-clients.</summary>
public sealed class EmbeddedBrokerTests
{
    private static CancellationToken Cancel => TestPlace.Cancel;

    private static Task<(int Code, string Out)> PublishAsync(TestPlace test, string topic, string message, params string[] more) =>
        Tool.RunAsync("mosquitto_pub", ["-h", "127.0.0.1", "-p", $"{test.Port}", "-t", topic, "-m", message, .. more]);

    [Fact]
    public async Task A_plain_publish_without_a_name_is_a_reading()
    {
        await using var test = await TestPlace.StartAsync();
        // Without -i and with MQTT 3.1.1, as anyone tries it first.
        Assert.Equal(0, (await PublishAsync(test, "runnel/test-yard/readings/pump", "1", "-q", "1")).Code);
        Assert.Equal(0, (await PublishAsync(test, "runnel/test-yard/readings/level", "412", "-V", "5", "-q", "2")).Code);
        Assert.Equal(0, (await PublishAsync(test, "runnel/test-yard/readings", """[{"n":"level","u":"m","v":0.5,"t":-1}]""", "-q", "0")).Code);
        var view = await test.SeeAsync(v => v.Intake.Taken == 3);
        Assert.Equal(1, (await test.SeeAsync(v => v.Channels[0].Value is not null)).Channels[0].Value);
        Assert.True(view.Sources[0].Connected);
        Assert.Equal(3, await CountAsync(test));
    }

    [Fact]
    public async Task Topics_and_pointers_of_the_place_file_are_followed()
    {
        await using var test = await TestPlace.StartAsync("topic = \"shed/box/state\"\npointer = \"/water/mm\"\ntime-pointer = \"/at\"");
        string at = Instant.FromUnixTimeSeconds(SystemClock.Instance.GetCurrentInstant().ToUnixTimeSeconds() - 7).ToString();
        await PublishAsync(test, "shed/box/state", $$"""{"water": {"mm": 333}, "at": "{{at}}"}""", "-q", "1");
        await PublishAsync(test, "shed/box/state", "no json", "-q", "1");
        var view = await test.SeeAsync(v => v.Channels[1].Value is not null && v.Intake.Refused.Count > 0);
        Assert.Equal((333, at), (view.Channels[1].Value, view.Channels[1].Time.ToString()));
        Assert.Contains("no JSON", view.Intake.Refused[0].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Clients_need_their_password_and_stay_within_their_topics()
    {
        await using var test = await TestPlace.StartAsync(
            """
            [[client]]
            id = "shed"
            password-file = "shed.password"
            may-write = ["runnel/test-yard/readings/pump", "shed/#"]
            may-read = ["runnel/#"]
            """,
            t => File.WriteAllText(Path.Combine(t.Folder, "shed.password"), "moss and gravel\n"));
        string[] login = ["-u", "shed", "-P", "moss and gravel"];
        Assert.NotEqual(0, (await PublishAsync(test, "runnel/test-yard/readings/pump", "1")).Code);
        Assert.NotEqual(0, (await PublishAsync(test, "runnel/test-yard/readings/pump", "1", "-u", "shed", "-P", "wrong")).Code);
        Assert.Equal(0, (await PublishAsync(test, "runnel/test-yard/readings/pump", "1", [.. login, "-q", "1"])).Code);
        await PublishAsync(test, "runnel/test-yard/readings/level", "400", [.. login, "-q", "1"]);
        await PublishAsync(test, "runnel/test-yard/verdict", "all is lost", [.. login, "-q", "1", "-r"]);
        var view = await test.SeeAsync(v => v.Intake.Refused.Sum(r => r.Count) == 2);
        Assert.Equal(1, view.Intake.Taken);
        Assert.Contains("may not write", view.Intake.Refused[0].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_understood_is_kept_for_whoever_asks()
    {
        await using var test = await TestPlace.StartAsync();
        var now = SystemClock.Instance.GetCurrentInstant();
        await test.Sources.Line.StoreAsync(
            new([.. Enumerable.Range(0, 40).Select(i => new Runnel.Place.Reading(0, now - Duration.FromMinutes(40 - i), i % 2))], []), Cancel);
        await test.SeeAsync(v => v.Findings is not null);
        await using (var other = new Subscribed(test.Port))
        {
            var told = await other.ReadAsync("runnel/test-yard/#", m => m.ContainsKey("runnel/test-yard/verdict") && m.ContainsKey("runnel/test-yard/standing"), Cancel);
            Assert.Equal("running", told["runnel/test-yard/standing"]);
        }

        var (code, text) = await Tool.RunAsync("mosquitto_sub", "-h", "127.0.0.1", "-p", $"{test.Port}", "-t", "runnel/test-yard/verdict", "-C", "1", "-W", "10");
        Assert.Equal(0, code);
        Assert.Equal(test.Live.View.Findings!.Verdict, text.Trim());
    }

    [Fact]
    public async Task An_acknowledged_reading_is_stored_and_one_sent_twice_is_one()
    {
        await using var test = await TestPlace.StartAsync();
        using var client = new MqttClientFactory().CreateMqttClient();
        await client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", test.Port).Build(), Cancel);
        var begin = SystemClock.Instance.GetCurrentInstant() - Duration.FromHours(1);
        const int count = 2000;
        await Task.WhenAll(Enumerable.Range(0, count).Select(i => client.PublishAsync(
            new MqttApplicationMessageBuilder().WithTopic("runnel/test-yard/readings/level")
                .WithPayload($$"""{"value": {{i % 500}}, "time": "{{NodaTime.Text.InstantPattern.ExtendedIso.Format(begin + Duration.FromMilliseconds(i))}}"}""")
                .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build(),
            Cancel)));
        Assert.Equal(count, await CountAsync(test));
        await client.PublishAsync(
            new MqttApplicationMessageBuilder().WithTopic("runnel/test-yard/readings/level").WithPayload($$"""{"value": 7, "time": "{{NodaTime.Text.InstantPattern.ExtendedIso.Format(begin + Duration.FromMilliseconds(7))}}"}""")
                .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build(),
            Cancel);
        Assert.Equal(count, await CountAsync(test));
    }

    private static async Task<long> CountAsync(TestPlace test) => (await test.Live.Records.CountAsync(Cancel)).Sum(c => c.Count);
}
