using System.Net;
using System.Net.Sockets;
using NodaTime;
using Runnel.Cli.Inputs;
using Runnel.Cli.Records;
using Runnel.Live;
using Runnel.Live.Demo;
using Runnel.Live.Sources;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Web.Hosting;

namespace Runnel.Cli.Pages;

/// <summary>How a place is run, as the command line says.</summary>
/// <param name="Host">Address of the pages.</param>
/// <param name="Port">Port of the pages.</param>
/// <param name="MqttPort">Port of Runnel's broker; null: as the place file says.</param>
/// <param name="WorkFolder">Where dropped logs are kept.</param>
internal sealed record RunSettings(string Host, int Port, int? MqttPort, string WorkFolder);

/// <summary>Runs a place: records, intake, steward, pages; until it is stopped.</summary>
internal static class RunningPlace
{
    /// <summary>Age of the demo's records when its pages open.</summary>
    private const int DemoDays = 30;

    public static async Task<int> RunAsync(string placeFile, string? records, RunSettings settings, Terminal terminal, CancellationToken cancel)
    {
        var (place, text) = await PlaceInput.ReadAsync(placeFile, PlaceNeeds.Run, terminal, cancel);
        await using var store = await RecordsInput.OpenAsync(RecordsInput.PathFor(records, placeFile), mustExist: false, cancel);
        return await RecordsInput.RefusingAsync(async () =>
        {
            await store.PlaceTexts.KeepAsync(text, SystemClock.Instance.GetCurrentInstant(), cancel);
            await using var live = await LivePlace.StartAsync(place, store, TimeProvider.System, null, cancel);
            string folder = Path.GetDirectoryName(Path.GetFullPath(placeFile))!;
            await using var sources = await StartSourcesAsync(live, folder, TimeProvider.System, BrokerOf(place, settings));
            await terminal.TellAsync($"{place.Name} runs. Readings may come to {sources.Root}/readings/CHANNEL on port {BrokerOf(place, settings).Port}, or be posted to /api/readings.");
            return await ServeAsync(live, sources, null, folder, settings, terminal, cancel);
        });
    }

    /// <summary>Runs an invented place that the twin plays.</summary>
    /// <param name="placeFile">Its file; records beside it are made anew.</param>
    /// <param name="pace">Seconds of the place to one on the wall.</param>
    /// <param name="fault">A fault that stands from the beginning of the pages on; null: none.</param>
    /// <param name="settings">How.</param>
    /// <param name="terminal">Where to tell it.</param>
    /// <param name="cancel">Stops it.</param>
    public static async Task<int> DemoAsync(string placeFile, double pace, string? fault, RunSettings settings, Terminal terminal, CancellationToken cancel)
    {
        var (place, _) = await PlaceInput.ReadAsync(placeFile, PlaceNeeds.Run with { Hydraulics = true }, terminal, cancel);
        // Whatever listens on the usual port is not the visitor's concern.
        if (settings.MqttPort is null && !IsFree(place.Wiring.Broker.Port)) settings = settings with { MqttPort = FreePort() };
        string folder = Path.GetDirectoryName(Path.GetFullPath(placeFile))!, records = RecordsInput.PathFor(null, placeFile);
        var broker = BrokerOf(place, settings);
        foreach (string old in (string[])[records, records + "-wal", records + "-shm"]) File.Delete(old);
        var now = SystemClock.Instance.GetCurrentInstant();
        var clock = new PacedClock(now - Duration.FromDays(DemoDays), 0);
        await using var demo = new DemoPlace(place, clock, seed: 15);
        if (fault is not null && demo.Faults.All(f => f.Name != fault))
        {
            throw RefusedException.WrongUsage(
                $"--fault {fault}", "there is no such fault in the demo", $"Write one of: {string.Join(", ", demo.Faults.Select(f => f.Name))}");
        }

        await using var store = await RecordsInput.OpenAsync(records, mustExist: false, cancel);
        return await RecordsInput.RefusingAsync(async () =>
        {
            // At a high pace a moment of the wall is hours of the place.
            var options = new LiveOptions { Settling = () => Duration.FromSeconds(2 * Math.Max(1, clock.Pace)), MostAhead = Duration.FromHours(3) };
            await using var live = await LivePlace.StartAsync(place, store, clock, options, cancel);
            await terminal.TellAsync($"{place.Name}, an invented place, lives through its last {DemoDays} days.");
            await demo.LiveThroughAsync(live, now, cancel);
            clock.Pace = pace;
            await using var sources = await StartSourcesAsync(live, folder, clock, broker);
            if (fault is not null) await demo.InjectAsync(fault, cancel);
            demo.Play("127.0.0.1", broker.Port, sources.Root);
            return await ServeAsync(live, sources, demo, folder, settings, terminal, cancel);
        });
    }

    private static bool IsFree(int port)
    {
        try
        {
            using var probe = new TcpListener(IPAddress.Loopback, port);
            probe.Start();
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }

    private static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    private static OwnBroker BrokerOf(PlaceDescription place, RunSettings settings) =>
        settings.MqttPort is { } port ? place.Wiring.Broker with { Port = port } : place.Wiring.Broker;

    private static async Task<PlaceSources> StartSourcesAsync(LivePlace live, string folder, TimeProvider clock, OwnBroker broker)
    {
        try
        {
            return await PlaceSources.StartAsync(live, folder, clock, broker);
        }
        catch (IOException error)
        {
            bool ofPort = error.InnerException is SocketException;
            throw new RefusedException(
                ofPort ? $"--mqtt-port {broker.Port}" : "place file", error.Message,
                ofPort ? "Stop the other program, or take another port with --mqtt-port or port in [broker]" : "Make the file, and let only yourself read it");
        }
    }

    private static async Task<int> ServeAsync(
        LivePlace live, PlaceSources sources, DemoPlace? demo, string keyFolder, RunSettings settings, Terminal terminal, CancellationToken cancel)
    {
        var options = new RunnelPagesOptions { WorkFolder = settings.WorkFolder, Live = live, Sources = sources, Demo = demo };
        return await ServedPages.RunAsync(settings.Host, settings.Port, options, keyFolder, () => new ServiceSupervisor(() => live.IsTurning), terminal, cancel);
    }
}
