using System.Globalization;
using System.Text;
using MQTTnet;
using MQTTnet.Protocol;
using NodaTime;
using NodaTime.Text;
using Runnel.Exchange.Intake;
using Runnel.Place;
using Runnel.Twin.Faults;
using Runnel.Twin.Playing;
using Runnel.Twin.Solving;

namespace Runnel.Live.Demo;

/// <summary>A fault that can be tried in the demo.</summary>
/// <param name="Name">Its name in the catalogue.</param>
/// <param name="Words">For people.</param>
/// <param name="Stands">It has been put in and not mended.</param>
public sealed record DemoFault(string Name, string Words, bool Stands);

/// <summary>
/// The demo: the twin plays an invented place's hardware. Its last days are lived through the same intake in seconds; from then on its kit
/// speaks over MQTT, as real kit does, at the pace of the clock.
/// </summary>
public sealed class DemoPlace : IAsyncDisposable
{
    private static readonly Duration Step = Duration.FromHours(2);

    /// <summary>What a visitor can understand within a minute, and this place can show.</summary>
    private static readonly (string Name, string Words)[] Offered =
    [
        ("pump-stopped", "The pump stops"),
        ("drain-fouling", "A drain fouls, a little every day"),
        ("leak", "A leak"),
        ("top-up-stuck-open", "The top-up does not shut"),
        ("pump-weakening", "The pump wears"),
        ("sensor-silent", "A sensor falls silent"),
    ];

    private readonly PlaceDescription _place;
    private readonly PlayedPlace _world;
    private readonly PacedClock _clock;
    private readonly SemaphoreSlim _turn = new(1, 1);
    private readonly CancellationTokenSource _stopping = new();
    private Task _running = Task.CompletedTask;

    public DemoPlace(PlaceDescription place, PacedClock clock, int seed)
    {
        (_place, _clock) = (place, clock);
        _world = new PlayedPlace(place, clock.Now, seed);
    }

    /// <summary>Seconds of the place to one on the wall, 1 to 3600.</summary>
    public double Pace
    {
        get => _clock.Pace;
        set => _clock.Pace = Math.Clamp(value, 1, 3600);
    }

    /// <summary>What can be tried.</summary>
    public IReadOnlyList<DemoFault> Faults
    {
        get
        {
            var standing = _world.Faults.Select(f => f.Fault.Name).ToHashSet(StringComparer.Ordinal);
            var offered = Offered.Where(o => FaultCatalogue.Find(o.Name)?.Fits(_place).Count > 0).Select(o => new DemoFault(o.Name, o.Words, standing.Contains(o.Name)));
            return [.. offered, .. standing.Where(n => Offered.All(o => o.Name != n)).Select(n => new DemoFault(n, n.Replace('-', ' '), true))];
        }
    }

    /// <summary>Lives through the time up to <paramref name="until"/>: the clock moves along, the readings go through the place's intake.</summary>
    public async Task LiveThroughAsync(LivePlace live, Instant until, CancellationToken cancel)
    {
        var readings = new List<Reading>();
        while (_world.Now < until)
        {
            cancel.ThrowIfCancellationRequested();
            readings.Clear();
            if (_world.AdvanceTo(Instant.Min(_world.Now + Step, until), readings.Add) != StopReason.Reached) break;
            await live.TakeAsync(new Received([.. readings], []), cancel);
            _clock.MoveTo(_world.Now);
        }
    }

    /// <summary>From now on the world goes on with the clock, and its kit speaks to that broker.</summary>
    public void Play(string host, int port, string root) => _running = Task.Run(() => PlayAsync(host, port, root));

    /// <summary>Breaks something now.</summary>
    /// <exception cref="ArgumentException">There is no such fault here.</exception>
    public async Task InjectAsync(string name, CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            _world.Inject(new Fault(name));
        }
        finally
        {
            _turn.Release();
        }
    }

    /// <summary>Mends it; false where it did not stand.</summary>
    public async Task<bool> MendAsync(string name, CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            return _world.Mend(name);
        }
        finally
        {
            _turn.Release();
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _stopping.CancelAsync();
        await _running;
        _turn.Dispose();
        _stopping.Dispose();
    }

    private async Task PlayAsync(string host, int port, string root)
    {
        using var client = new MqttClientFactory().CreateMqttClient();
        var options = new MqttClientOptionsBuilder().WithTcpServer(host, port).WithClientId("demo-kit").WithCleanSession(false).Build();
        var said = new List<Reading>();
        try
        {
            using var turns = new PeriodicTimer(TimeSpan.FromMilliseconds(250));
            while (await turns.WaitForNextTickAsync(_stopping.Token))
            {
                await _turn.WaitAsync(_stopping.Token);
                try
                {
                    var now = _clock.Now;
                    if (now > _world.Now) _world.AdvanceTo(now, said.Add);
                }
                finally
                {
                    _turn.Release();
                }

                // Sent together and acknowledged each: what was not is sent again next turn. The broker may be gone for a while, as when all stops.
                try
                {
                    if (!client.IsConnected) await client.ConnectAsync(options, _stopping.Token);
                    await Task.WhenAll(said.Select(r => client.PublishAsync(Message(root, r), _stopping.Token)));
                    said.Clear();
                }
#pragma warning disable CA1031 // Whatever it was, the world goes on.
                catch (Exception) when (!_stopping.IsCancellationRequested)
#pragma warning restore CA1031
                {
                    // The next turn tries again.
                }
            }
        }
#pragma warning disable CA1031 // The broker and the wait end in one moment, whichever is first.
        catch (Exception) when (_stopping.IsCancellationRequested)
#pragma warning restore CA1031
        {
            // That is how it ends.
        }
    }

    private MqttApplicationMessage Message(string root, in Reading reading)
    {
        var channel = _place.Channels[reading.Channel];
        // The kit speaks raw values; scale and offset of the place file make them what they are.
        double raw = (reading.Value - channel.Offset) / channel.Scale;
        string text = string.Create(CultureInfo.InvariantCulture, $"{{\"time\":\"{InstantPattern.ExtendedIso.Format(reading.Time)}\",\"value\":{raw:R}}}");
        return new MqttApplicationMessage
        {
            Topic = $"{root}/readings/{channel.Id}",
            PayloadSegment = Encoding.UTF8.GetBytes(text),
            QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce,
        };
    }
}
