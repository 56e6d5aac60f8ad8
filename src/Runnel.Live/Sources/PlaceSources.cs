using Runnel.Exchange.Intake;
using Runnel.Exchange.Mqtt;
using Runnel.Exchange.Pulled;
using Runnel.Live.Outward;
using Runnel.Place;

namespace Runnel.Live.Sources;

/// <summary>Everything that brings readings to a running place, and takes its findings out: its own broker, the household's, polled and followed sources.</summary>
public sealed class PlaceSources : IAsyncDisposable
{
    private readonly IntakeLine _line;
    private readonly CancellationTokenSource _stopping = new();
    private readonly List<Task> _running = [];
    private readonly List<Func<SourceStanding>> _standings = [];
    private readonly List<BrokerLink> _links = [];
    private readonly HttpClient _http = new(new SocketsHttpHandler { PooledConnectionLifetime = TimeSpan.FromMinutes(5) });
    private int _disposed;
    private EmbeddedBroker? _broker;
    private Announcer? _announcer;

    private PlaceSources(LivePlace live, TimeProvider clock)
    {
        _line = new IntakeLine(live.TakeAsync, clock);
        Payloads = new PayloadReader(new ChannelValues(live.Place));
        Root = new TopicMap(live.Place, null, Payloads).Root;
    }

    /// <summary>Reads what is posted.</summary>
    public PayloadReader Payloads { get; }

    /// <summary>Where everything of this place lies on a broker.</summary>
    public string Root { get; }

    /// <summary>Takes what is posted: one commit serves all that waits.</summary>
    public IntakeLine Line => _line;

    /// <summary>Starts all that the place file names.</summary>
    /// <param name="live">The running place.</param>
    /// <param name="folder">Where the place file lies: its paths count from there.</param>
    /// <param name="clock">The place's clock.</param>
    /// <param name="ownBroker">Runnel's broker; null: as the place file says.</param>
    /// <exception cref="IOException">The broker's port is taken, or a password file cannot be read.</exception>
    public static async Task<PlaceSources> StartAsync(LivePlace live, string folder, TimeProvider clock, OwnBroker? ownBroker)
    {
        var sources = new PlaceSources(live, clock);
        try
        {
            await sources.BeginAsync(live, folder, clock, ownBroker ?? live.Place.Wiring.Broker);
            return sources;
        }
        catch
        {
            await sources.DisposeAsync();
            throw;
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref _disposed, 1) == 1) return;
        await _stopping.CancelAsync();
        if (_announcer is not null) await _announcer.DisposeAsync();
        foreach (var running in _running)
        {
            try
            {
                await running;
            }
            catch (OperationCanceledException)
            {
                // That is how they end.
            }
        }

        foreach (var link in _links) await link.DisposeAsync();
        if (_broker is not null) await _broker.DisposeAsync();
        await _line.DisposeAsync();
        _http.Dispose();
        _stopping.Dispose();
    }

    private async Task BeginAsync(LivePlace live, string folder, TimeProvider clock, OwnBroker own)
    {
        var wiring = live.Place.Wiring;
        var clients = wiring.Clients.Select(c => (c, Password(folder, c.PasswordFile))).ToList();
        _broker = new EmbeddedBroker(own, new TopicMap(live.Place, null, Payloads), new ClientRights(clients, clock), _line);
        await _broker.StartAsync();
        _standings.Add(_broker.Standing);
        var tell = new List<Func<Announcement, CancellationToken, Task>> { _broker.PublishAsync };
        foreach (var source in wiring.Sources)
        {
            if (source.Kind == SourceKind.Broker)
            {
                var link = new BrokerLink(source, source.PasswordFile is { } file ? Password(folder, file) : null, new TopicMap(live.Place, source.Id, Payloads), _line);
                _links.Add(link);
                _standings.Add(link.Standing);
                tell.Add(link.PublishAsync);
            }
            else if (source.Kind == SourceKind.Poll)
            {
                var polled = new PolledJson(source, live.Place, Payloads, _line, _http);
                _standings.Add(polled.Standing);
                _running.Add(Task.Run(() => polled.RunAsync(_stopping.Token)));
            }
            else
            {
                var followed = new FollowedLog(source, Path.GetFullPath(Path.Combine(folder, source.Address)), live.Place, _line);
                _standings.Add(followed.Standing);
                _running.Add(Task.Run(() => followed.RunAsync(_stopping.Token)));
            }
        }

        live.ShowSources(() => [.. _standings.Select(s => s())]);
        _announcer = new Announcer(live, async (told, cancel) =>
        {
            foreach (var teller in tell) await teller(told, cancel);
        });
        foreach (var link in _links)
        {
            link.Connected += _announcer.TellAllAgain;
            link.Start();
        }
    }

    private static string Password(string folder, string file)
    {
        string path = Path.GetFullPath(Path.Combine(folder, file));
        try
        {
            // Without the line break that editors put at the end.
            return File.ReadAllText(path).TrimEnd('\r', '\n');
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new IOException($"the password file {path} cannot be read ({error.Message.TrimEnd('.')})", error);
        }
    }
}
