using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using MQTTnet;
using MQTTnet.Protocol;
using NodaTime;
using Runnel.Place;
using Runnel.Steward;
using Runnel.Twin.Invented;

namespace Runnel.Live.Tests.Processes;

/// <summary>What only a real process shows: being killed, being asked to stop.</summary>
public sealed class KilledTests
{
    private static CancellationToken Cancel => TestPlace.Cancel;

    [Fact]
    public async Task Killed_under_load_it_loses_no_acknowledged_reading_and_doubles_none()
    {
        using var records = new TemporaryRecords();
        string place = Path.Combine(records.Folder, "place.toml");
        await File.WriteAllTextAsync(place, TestPlace.Toml, Cancel);
        var begin = SystemClock.Instance.GetCurrentInstant() - Duration.FromHours(5);
        var acknowledged = new ConcurrentBag<Instant>();
        int sent = 0;
        foreach (int after in (int[])[60, 700])
        {
            await using var process = await RunningProcess.StartAsync(records.Folder, place);
            using var client = new MqttClientFactory().CreateMqttClient();
            await client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", process.MqttPort).WithClientId("load").Build(), Cancel);
            using var killed = new CancellationTokenSource();
            var senders = Enumerable.Range(0, 50).Select(_ => Task.Run(async () =>
            {
                while (!killed.IsCancellationRequested)
                {
                    int number = Interlocked.Increment(ref sent);
                    var time = begin + Duration.FromMilliseconds(number);
                    var message = new MqttApplicationMessageBuilder().WithTopic("runnel/test-yard/readings/level")
                        .WithPayload($$"""{"value": {{number % 400}}, "time": "{{NodaTime.Text.InstantPattern.ExtendedIso.Format(time)}}"}""")
                        .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build();
                    try
                    {
                        if ((await client.PublishAsync(message, killed.Token)).ReasonCode == MqttClientPublishReasonCode.Success) acknowledged.Add(time);
                    }
#pragma warning disable CA1031 // However the broken connection shows itself: this sender is done.
                    catch (Exception)
#pragma warning restore CA1031
                    {
                        return;
                    }
                }
            })).ToArray();
            // In the midst of it: some are acknowledged, many are on their way.
            using var looks = new PeriodicTimer(TimeSpan.FromMilliseconds(1));
            while (acknowledged.Count < after) await looks.WaitForNextTickAsync(Cancel);
            await process.KillAsync();
            await killed.CancelAsync();
            await Task.WhenAll(senders);
        }

        await using var store = await records.OpenAsync();
        var stored = new List<Instant>();
        await foreach (var reading in store.ReadAllAsync(Cancel)) stored.Add(reading.Time);
        Assert.NotEmpty(acknowledged);
        Assert.Empty(acknowledged.Except(stored));
        Assert.Equal(stored.Count, stored.Distinct().Count());
        Assert.True(stored.Count <= sent);
    }

    [Fact]
    public async Task Killed_and_started_again_it_notices_what_it_would_have_noticed_and_ctrl_c_ends_it_well()
    {
        var made = InventedLogs.Make(LoopKind.SwitchLog, Stories.Find("drain-fouling-8")!, seed: 1, days: 22);
        using var records = new TemporaryRecords();
        string place = Path.Combine(records.Folder, "place.toml");
        await File.WriteAllTextAsync(place, made.PlaceToml, Cancel);
        var readings = made.Log.Readings.GroupBy(r => (r.Time, r.Channel)).Select(g => g.Last()).OrderBy(r => r.Time).ThenBy(r => r.Channel).ToList();
        int half = readings.Count / 2;
        await using (var first = await RunningProcess.StartAsync(records.Folder, place))
        {
            await PostAsync(first, made.Place, readings[..half]);
            await first.KillAsync();
        }

        await using var second = await RunningProcess.StartAsync(records.Folder, place);
        await PostAsync(second, made.Place, readings[half..]);
        var expected = Diagnose.Log(made.Place, new ReadingLog(readings, [], [], []), []).Notices.Select(n => (n.Cause, n.Evidence)).ToList();
        Assert.NotEmpty(expected);
        List<(string, string)> noticed = [];
        using var looks = new PeriodicTimer(TimeSpan.FromMilliseconds(300));
        using var late = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        late.CancelAfter(TimeSpan.FromSeconds(40));
        while (!noticed.SequenceEqual(expected))
        {
            await looks.WaitForNextTickAsync(late.Token);
            using var told = JsonDocument.Parse(await second.Http.GetStringAsync("/api/notices", late.Token));
            noticed = [.. told.RootElement.EnumerateArray()
                .Where(n => DateTimeOffset.Parse(n.GetProperty("first_noticed").GetString()!, CultureInfo.InvariantCulture) <= readings[^1].Time.ToDateTimeOffset())
                .Select(n => (n.GetProperty("cause").GetString()!, n.GetProperty("evidence").GetString()!))];
        }

        Assert.Equal(0, await second.StopAsync());
    }

    [Fact]
    public async Task Beyond_this_machine_pages_and_calls_ask_for_the_key()
    {
        using var records = new TemporaryRecords();
        string place = Path.Combine(records.Folder, "place.toml");
        await File.WriteAllTextAsync(place, TestPlace.Toml, Cancel);
        await using var process = await RunningProcess.StartAsync(records.Folder, place, "--host", "0.0.0.0");
        string key = (await File.ReadAllTextAsync(Path.Combine(records.Folder, "access-key"), Cancel)).Trim();
        using var http = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = new Uri(process.Http.BaseAddress!, "/") };
        Assert.Equal(HttpStatusCode.Unauthorized, (await http.GetAsync("/api/now", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await http.GetAsync("/", Cancel)).StatusCode);
        using var asked = new HttpRequestMessage(HttpMethod.Get, "/api/now");
        asked.Headers.Authorization = new AuthenticationHeaderValue("Bearer", key);
        Assert.Equal(HttpStatusCode.OK, (await http.SendAsync(asked, Cancel)).StatusCode);
        var entered = await http.GetAsync($"/enter?key={key}", Cancel);
        Assert.Equal(HttpStatusCode.Redirect, entered.StatusCode);
        using var page = new HttpRequestMessage(HttpMethod.Get, "/api/now");
        page.Headers.Add("Cookie", entered.Headers.GetValues("Set-Cookie").Single().Split(';')[0]);
        Assert.Equal(HttpStatusCode.OK, (await http.SendAsync(page, Cancel)).StatusCode);
        for (int i = 0; i < 10; i++) await http.GetAsync("/enter?key=guess", Cancel);
        Assert.Equal(HttpStatusCode.TooManyRequests, (await http.GetAsync($"/enter?key={key}", Cancel)).StatusCode);
    }

    private static async Task PostAsync(RunningProcess process, PlaceDescription place, List<Reading> readings)
    {
        var csv = new StringBuilder("time,channel,value\n");
        foreach (var reading in readings)
            csv.AppendLine(CultureInfo.InvariantCulture, $"{NodaTime.Text.InstantPattern.ExtendedIso.Format(reading.Time)},{place.Channels[reading.Channel].Id},{reading.Value:R}");
        using var content = new StringContent(csv.ToString(), Encoding.UTF8, "text/csv");
        using var answer = await process.Http.PostAsync("/api/readings", content, Cancel);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }
}
