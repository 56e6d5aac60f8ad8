using System.Net;
using System.Net.Sockets;
using NodaTime;
using Runnel.Live.Sources;
using Runnel.Live.View;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Records;

namespace Runnel.Live.Tests;

/// <summary>A small running place of its own, with a broker on a free port.</summary>
public sealed class TestPlace : IAsyncDisposable
{
    public const string Toml = """
        [place]
        name = "Test Yard"
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
        """;

    private readonly TemporaryRecords _records = new();
    private ReadingStore? _store;

    public static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public int Port { get; } = FreePort();

    public string Folder => _records.Folder;

    public LivePlace Live { get; private set; } = null!;

    public PlaceSources Sources { get; private set; } = null!;

    /// <param name="more">Added to the place file.</param>
    /// <param name="prepare">Makes what the place file names, in the place's folder.</param>
    public static async Task<TestPlace> StartAsync(string more = "", Action<TestPlace>? prepare = null)
    {
        var test = new TestPlace();
        prepare?.Invoke(test);
        var read = PlaceFile.Read(Toml + "\n" + more.Replace("FOLDER", test.Folder, StringComparison.Ordinal), "place.toml", PlaceNeeds.Run);
        Assert.Empty(read.Problems.Select(p => p.ToString()));
        test._store = await test._records.OpenAsync();
        var options = new LiveOptions { Settling = () => Duration.FromMilliseconds(100), BetweenViews = TimeSpan.FromMilliseconds(50) };
        test.Live = await LivePlace.StartAsync(read.Place!, test._store, TimeProvider.System, options, Cancel);
        test.Sources = await PlaceSources.StartAsync(test.Live, test.Folder, TimeProvider.System, read.Place!.Wiring.Broker with { Port = test.Port });
        return test;
    }

    /// <summary>The first view of which that is true.</summary>
    public async Task<LiveView> SeeAsync(Func<LiveView, bool> seen)
    {
        using var late = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        late.CancelAfter(TimeSpan.FromSeconds(20));
        try
        {
            await foreach (var view in Live.ChangesAsync(late.Token))
            {
                if (seen(view)) return view;
            }
        }
        catch (OperationCanceledException)
        {
            // Told below, with what was seen last.
        }

        throw new InvalidOperationException("not seen; last: " + Runnel.Web.Api.NowJson.Write(Live.View));
    }

    public static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    public async ValueTask DisposeAsync()
    {
        if (Sources is not null) await Sources.DisposeAsync();
        if (Live is not null) await Live.DisposeAsync();
        if (_store is not null) await _store.DisposeAsync();
        _records.Dispose();
    }
}
