using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using MQTTnet;
using MQTTnet.Protocol;
using NodaTime;
using NodaTime.Text;
using Runnel.Exchange.Intake;
using Runnel.Live;
using Runnel.Live.Sources;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Records;

namespace Runnel.Benchmarks;

/// <summary>Intake over MQTT with quality of service 1: rate and time to the acknowledgement, kills under load, and payloads of noise.</summary>
internal static class IntakeCommand
{
    private const string Topic = "runnel/bench-yard/readings/";

    private const string Toml = """
        [place]
        name = "Bench yard"
        latitude = "34.2 S"
        longitude = "150.6 E"
        altitude = "80 m"
        time-zone = "Australia/Sydney"
        [[vessel]]
        id = "sump"
        kind = "sump"
        band = "65 L"
        [[equipment]]
        id = "pump"
        kind = "pump"
        from = "sump"
        [[channel]]
        id = "pump"
        measures = "running"
        of = "pump"
        [[channel]]
        id = "level"
        measures = "level"
        of = "sump"
        [[channel]]
        id = "air"
        measures = "air-temperature"
        """;

    public static async Task<int> RunAsync(string[] args)
    {
        string? Text(string name) => Array.IndexOf(args, "--" + name) is >= 0 and var at && at + 1 < args.Length ? args[at + 1] : null;
        int Whole(string name, int usual) => Text(name) is { } text ? int.Parse(text, CultureInfo.InvariantCulture) : usual;
        int seconds = Whole("seconds", 10), rate = Whole("rate", 5000), clients = Whole("clients", 8), kills = Whole("kills", 0), fuzz = Whole("fuzz", 0);
        if (seconds > 0) await LoadAsync(seconds, rate, clients);
        if (kills > 0) await KillAsync(kills, Text("runnel") ?? "runnel");
        if (fuzz > 0) Fuzz(fuzz);
        return 0;
    }

    /// <summary>Clients and broker share this process, so that the figures are for both.</summary>
    private static async Task LoadAsync(int seconds, int rate, int clients)
    {
        var folder = Directory.CreateTempSubdirectory("runnel-bench-");
        var place = PlaceFile.Read(Toml, "place.toml", PlaceNeeds.Run).Place!;
        int port = FreePort();
        await using var store = await ReadingStore.OpenAsync(Path.Combine(folder.FullName, "records.sqlite"), CancellationToken.None);
        await using var live = await LivePlace.StartAsync(place, store, TimeProvider.System, null, CancellationToken.None);
        await using var sources = await PlaceSources.StartAsync(live, folder.FullName, TimeProvider.System, new OwnBroker(port));
        var waits = new ConcurrentBag<double>();
        long begun = Stopwatch.GetTimestamp();
        await Task.WhenAll(Enumerable.Range(0, clients).Select(c => Task.Run(() => SendAsync(port, c, seconds, rate / (double)clients, waits))));
        double took = Stopwatch.GetElapsedTime(begun).TotalSeconds;
        double[] sorted = [.. waits.Order()];
        Console.WriteLine($"asked {rate} readings/s by {clients} clients for {seconds} s: {sorted.Length / took:0} acknowledged/s, "
            + $"median {sorted[sorted.Length / 2]:0.0} ms, p99 {sorted[(int)(sorted.Length * 0.99)]:0.0} ms, longest {sorted[^1]:0} ms");
        var counts = await store.CountAsync(CancellationToken.None);
        Console.WriteLine($"stored {counts.Sum(c => c.Count)} of {sorted.Length} acknowledged; "
            + $"{new FileInfo(Path.Combine(folder.FullName, "records.sqlite")).Length / (double)sorted.Length:0.0} bytes each, {Environment.WorkingSet / 1e6:0} MB in memory");
        await sources.DisposeAsync();
        await live.DisposeAsync();
        await store.DisposeAsync();
        folder.Delete(recursive: true);
    }

    private static async Task SendAsync(int port, int number, int seconds, double rate, ConcurrentBag<double> waits)
    {
        using var client = new MqttClientFactory().CreateMqttClient();
        await client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port).WithClientId($"bench-{number}").Build());
        var began = SystemClock.Instance.GetCurrentInstant();
        long start = Stopwatch.GetTimestamp();
        var under = new SemaphoreSlim(500);
        var all = new List<Task>();
        for (int i = 0; i < seconds * rate; i++)
        {
            double ahead = (i / rate) - Stopwatch.GetElapsedTime(start).TotalSeconds;
            if (ahead > 0.002) await Task.Delay(TimeSpan.FromSeconds(ahead));
            await under.WaitAsync();
            // Each client has times of its own, a tenth of a microsecond apart, so that none stands for another.
            var time = began + Duration.FromSeconds(i / rate) + Duration.FromTicks(number);
            all.Add(PublishAsync(client, number % 2 == 0 ? "level" : "air", 20 + (i % 10), time, () => under.Release(), waits));
        }

        await Task.WhenAll(all);
    }

    private static async Task PublishAsync(IMqttClient client, string channel, int value, Instant time, Action done, ConcurrentBag<double> waits)
    {
        long sent = Stopwatch.GetTimestamp();
        await client.PublishAsync(Message(channel, value, time));
        waits.Add(Stopwatch.GetElapsedTime(sent).TotalMilliseconds);
        done();
    }

    private static MqttApplicationMessage Message(string channel, int value, Instant time) => new()
    {
        Topic = Topic + channel,
        PayloadSegment = Encoding.UTF8.GetBytes($$"""{"value":{{value}},"time":"{{InstantPattern.ExtendedIso.Format(time)}}"}"""),
        QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce,
    };

    /// <summary>Starts the command, loads it, kills it at a moment drawn by chance; at the end everything acknowledged must be there, once.</summary>
    private static async Task KillAsync(int kills, string runnel)
    {
        var folder = Directory.CreateTempSubdirectory("runnel-bench-");
        string place = Path.Combine(folder.FullName, "place.toml");
        await File.WriteAllTextAsync(place, Toml);
        var acknowledged = new ConcurrentBag<Instant>();
        var random = new Random(7);
        var began = SystemClock.Instance.GetCurrentInstant() - Duration.FromHours(20);
        int sent = 0;
        for (int kill = 0; kill < kills; kill++)
        {
            int port = FreePort();
            var start = new ProcessStartInfo(runnel, ["run", place, "--port", "0", "--mqtt-port", $"{port}", "--folder", folder.FullName])
            {
                RedirectStandardError = true,
            };
            using var process = Process.Start(start)!;
            while (await process.StandardError.ReadLineAsync() is { } line && !line.Contains("pages are at", StringComparison.Ordinal))
            {
            }

            using var client = new MqttClientFactory().CreateMqttClient();
            await client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port).WithClientId("bench").Build());
            var senders = Enumerable.Range(0, 50).Select(_ => Task.Run(async () =>
            {
                try
                {
                    while (true)
                    {
                        int number = Interlocked.Increment(ref sent);
                        var time = began + Duration.FromMilliseconds(number);
                        await client.PublishAsync(Message("level", number % 400, time));
                        acknowledged.Add(time);
                    }
                }
#pragma warning disable CA1031 // However the broken connection shows itself.
                catch (Exception)
#pragma warning restore CA1031
                {
                    return;
                }
            })).ToArray();
            await Task.Delay(random.Next(20, 700));
            process.Kill();
            await process.WaitForExitAsync();
            client.Dispose();
            await Task.WhenAll(senders);
        }

        await using var store = await ReadingStore.OpenAsync(Path.Combine(folder.FullName, "records.sqlite"), CancellationToken.None);
        var stored = new List<Instant>();
        await foreach (var reading in store.ReadAllAsync(CancellationToken.None)) stored.Add(reading.Time);
        Console.WriteLine($"{kills} kills: {acknowledged.Count} acknowledged, {acknowledged.Except(stored).Count()} of them lost, "
            + $"{stored.Count - stored.Distinct().Count()} doubled, {stored.Count} stored of {sent} sent");
        await store.DisposeAsync();
        folder.Delete(recursive: true);
    }

    private static void Fuzz(int count)
    {
        var place = PlaceFile.Read(Toml, "place.toml", PlaceNeeds.Run).Place!;
        var reader = new PayloadReader(new ChannelValues(place));
        var random = new Random(11);
        byte[][] seeds =
        [
            .. ((string[])["""[{"bn":"a:","bt":1.27e9,"u":"Cel","n":"air","v":23.1,"t":-5},{"n":"pump","vb":true}]""", """{"time":"2026-02-01T10:00:00Z","pump":0,"level":55.5}""", "21.5 degC", "ON", """{"value":1,"time":1e9}"""])
                .Select(Encoding.UTF8.GetBytes),
        ];
        var now = Instant.FromUtc(2026, 2, 1, 0, 0);
        long taken = 0, refused = 0;
        long begun = Stopwatch.GetTimestamp();
        for (int i = 0; i < count; i++)
        {
            byte[] payload = [.. seeds[random.Next(seeds.Length)]];
            for (int edits = random.Next(6); edits > 0; edits--) payload[random.Next(payload.Length)] = (byte)random.Next(256);
            var received = i % 2 == 0 ? reader.ReadNamed(payload, now, "x") : reader.Read(payload, [new ChannelFeed(i % 3, null, "x", i % 5 == 0 ? "/0/v" : null, null)], now, "x");
            taken += received.Readings.Count;
            refused += received.Refused.Count;
        }

        Console.WriteLine($"{count} payloads of noise in {Stopwatch.GetElapsedTime(begun).TotalSeconds:0.0} s: none threw; {taken} readings, {refused} refusals");
    }

    private static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }
}
