using Microsoft.AspNetCore.Builder;
using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Live;
using Runnel.Live.Demo;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Records;
using Runnel.Twin.Faults;
using Runnel.Twin.Playing;
using Runnel.Web.Hosting;
using Runnel.Web.Now;

namespace Runnel.Browser.Tests.Now;

/// <summary>A running place whose last weeks were played by the twin, with its pages on a free port. Its clock goes on as the one on the wall.</summary>
public sealed class PlayedSite : IAsyncDisposable
{
    private static readonly Instant Begin = Instant.FromUtc(2026, 1, 10, 3, 0);

    private readonly string _folder = Directory.CreateTempSubdirectory("runnel-played-").FullName;
    private readonly MovedClock _clock;
    private readonly PlayedPlace _world;
    private ReadingStore _store = null!;
    private WebApplication _app = null!;

    private PlayedSite(PlaceDescription place, int days)
    {
        _world = new PlayedPlace(place, Begin, 5);
        _clock = new MovedClock(Begin + Duration.FromDays(days) - Instant.FromDateTimeOffset(TimeProvider.System.GetUtcNow()));
    }

    public LivePlace Live { get; private set; } = null!;

    public string Address { get; private set; } = "";

    /// <param name="days">How long it has been running.</param>
    /// <param name="port">0: a free one.</param>
    /// <param name="faults">What broke, and how many days before the end.</param>
    public static async Task<PlayedSite> StartAsync(int days, int port = 0, params (Fault Fault, double DaysBefore)[] faults)
    {
        string path = Path.Combine(AppContext.BaseDirectory, "places", "quince-court.toml");
        var place = PlaceFile.Read(await File.ReadAllTextAsync(path), path).Place!;
        var site = new PlayedSite(place, days);
        foreach (var (fault, before) in faults) site._world.Inject(fault, Begin + Duration.FromDays(days - before));
        site._store = await ReadingStore.OpenAsync(Path.Combine(site._folder, "readings.db"), CancellationToken.None);
        List<ChannelReading> readings = [];
        site._world.AdvanceTo(Begin + Duration.FromDays(days), r => readings.Add(new(place.Channels[r.Channel].Id, r.Time, r.Value)));
        await site._store.AddAsync(readings, CancellationToken.None);
        site.Live = await LivePlace.StartAsync(place, site._store, site._clock, new LiveOptions { Settling = () => Duration.FromMilliseconds(300), BetweenViews = TimeSpan.FromMilliseconds(200) }, CancellationToken.None);
        site._app = RunnelPages.Build(["--Logging:LogLevel:Default=Warning"], new RunnelPagesOptions
        {
            WorkFolder = Path.Combine(site._folder, "work"),
            Urls = $"http://127.0.0.1:{port}",
            Live = site.Live,
            InventedLog = MadeUpFindings.FoulingDrains,
            Faults = new FaultBench(site.List, (name, _) => site.Break(name), (name, _) => site.Mend(name)),
        });
        await site._app.StartAsync();
        site.Address = site._app.Urls.Single();
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        await foreach (var view in site.Live.ChangesAsync(patience.Token))
        {
            if (view.Findings is not null) break;
        }

        return site;
    }

    /// <summary>The world goes on at once, and its kit is heard.</summary>
    public async Task GoOnAsync(Duration by)
    {
        _clock.Move(by);
        List<Reading> readings = [];
        _world.AdvanceTo(Instant.Max(_world.Now, Live.Now), readings.Add);
        await Live.TakeAsync(new Received(readings, []), CancellationToken.None);
    }

    public async ValueTask DisposeAsync()
    {
        await _app.DisposeAsync();
        await Live.DisposeAsync();
        await _store.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    private IReadOnlyList<DemoFault> List() => [Triable("pump-stopped", "The pump stops"), Triable("drain-fouling", "A drain fouls")];

    private DemoFault Triable(string name, string words) => new(name, words, _world.Faults.Any(f => f.Fault.Name == name));

    private async Task Break(string name)
    {
        _world.Inject(new Fault(name));
        await GoOnAsync(Duration.FromHours(3));
    }

    private async Task Mend(string name)
    {
        _world.Mend(name);
        await GoOnAsync(Duration.FromHours(3));
    }

    private sealed class MovedClock(Duration by) : TimeProvider
    {
        private Duration _by = by;

        public void Move(Duration more) => _by += more;

        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + _by.ToTimeSpan();
    }
}
