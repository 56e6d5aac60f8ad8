using System.Buffers;
using System.Text;
using MQTTnet;
using MQTTnet.Packets;
using MQTTnet.Protocol;
using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Place;

namespace Runnel.Exchange.Mqtt;

/// <summary>
/// A link to the household's own broker: subscribes to the topics of the place file, acknowledges only what is on the disk, publishes what
/// Runnel has to tell, and comes back by itself whenever the broker does. The broker tells others when the link breaks (last will).
/// </summary>
public sealed class BrokerLink : IAsyncDisposable
{
    private static readonly TimeSpan TryAgainAfter = TimeSpan.FromSeconds(3);

    /// <summary>A broker that does not answer is not waited for.</summary>
    private static readonly TimeSpan LongestGoodbye = TimeSpan.FromSeconds(2);

    private readonly Source _source;
    private readonly TopicMap _topics;
    private readonly IntakeLine _line;
    private readonly IMqttClient _client = new MqttClientFactory().CreateMqttClient();
    private readonly MqttClientOptions _options;
    private readonly CancellationTokenSource _stopping = new();
    private Task _running = Task.CompletedTask;
    private Instant? _lastHeard;
    private string? _trouble;

    /// <param name="source">Where it is.</param>
    /// <param name="password">For its user; null: none.</param>
    /// <param name="topics">What to listen to.</param>
    /// <param name="line">Takes what comes.</param>
    public BrokerLink(Source source, string? password, TopicMap topics, IntakeLine line)
    {
        (_source, _topics, _line) = (source, topics, line);
        var at = new Uri("mqtt://" + source.Address);
        var options = new MqttClientOptionsBuilder()
            .WithTcpServer(at.Host, at.Port > 0 ? at.Port : 1883)
            // The same name after a restart: the broker keeps for us what came meanwhile.
            .WithClientId($"{topics.Root.Replace('/', '-')}")
            .WithCleanSession(false)
            .WithTimeout(TimeSpan.FromSeconds(10))
            .WithWillTopic($"{topics.Root}/standing").WithWillPayload("stopped").WithWillRetain().WithWillQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce);
        if (source.User is not null) options = options.WithCredentials(source.User, password);
        _options = options.WithProtocolVersion(MQTTnet.Formatter.MqttProtocolVersion.V311).Build();
        _client.ApplicationMessageReceivedAsync += ReceivedAsync;
    }

    /// <summary>Told after each connection, so that what is retained is there again.</summary>
    public event Action? Connected;

    public SourceStanding Standing() => new(_source.Id, $"the broker at {_source.Address}", _client.IsConnected, _lastHeard, _client.IsConnected ? null : _trouble);

    public void Start() => _running = Task.Run(RunAsync);

    /// <summary>Publishes below the root of the place, retained; dropped while the link is down, since all of it is told again after.</summary>
    public async Task PublishAsync(Announcement told, CancellationToken cancel)
    {
        if (!_client.IsConnected) return;
        try
        {
            await _client.PublishAsync(told.MessageBelow(_topics.Root), cancel);
        }
#pragma warning disable CA1031 // The link broke meanwhile, which cancels what was under way: the next connection tells it again.
        catch (Exception error) when (!cancel.IsCancellationRequested)
#pragma warning restore CA1031
        {
            _trouble = error.Message;
        }
    }

    public async ValueTask DisposeAsync()
    {
        await SayGoodbyeAsync();
        await _stopping.CancelAsync();
        await _running;
        if (_client.IsConnected)
        {
            try
            {
                await _client.DisconnectAsync(new MqttClientDisconnectOptions(), CancellationToken.None);
            }
#pragma warning disable CA1031 // It is going anyway.
            catch (Exception)
#pragma warning restore CA1031
            {
                // Nothing to do.
            }
        }

        _client.Dispose();
        _stopping.Dispose();
    }

    private async Task SayGoodbyeAsync()
    {
        using var patience = new CancellationTokenSource(LongestGoodbye);
        try
        {
            await PublishAsync(new Announcement("standing", "stopped"), patience.Token);
        }
        catch (OperationCanceledException)
        {
            // Its last will says the same.
        }
    }

    private async Task RunAsync()
    {
        while (!_stopping.IsCancellationRequested)
        {
            try
            {
                if (!_client.IsConnected) await ConnectAsync();
                await Task.Delay(TryAgainAfter, _stopping.Token);
            }
            catch (OperationCanceledException) when (_stopping.IsCancellationRequested)
            {
                return;
            }
        }
    }

    private async Task ConnectAsync()
    {
        try
        {
            var answer = await _client.ConnectAsync(_options, _stopping.Token);
            if (answer.ResultCode != MqttClientConnectResultCode.Success)
            {
                _trouble = $"The broker at {_source.Address} refuses Runnel ({answer.ResultCode}). Check user and password-file of [[source]] {_source.Id}.";
                return;
            }

            var topics = new MqttClientSubscribeOptions();
            foreach (string topic in _topics.Topics)
                topics.TopicFilters.Add(new MqttTopicFilter { Topic = topic, QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce });
            if (topics.TopicFilters.Count > 0) await _client.SubscribeAsync(topics, _stopping.Token);
            _trouble = null;
            Connected?.Invoke();
        }
#pragma warning disable CA1031 // Whatever it was, it is told and tried again.
        catch (Exception error) when (!_stopping.IsCancellationRequested)
#pragma warning restore CA1031
        {
            _trouble = $"The broker at {_source.Address} cannot be reached ({error.GetBaseException().Message.TrimEnd('.')}). It is tried again every few seconds.";
        }
    }

    private async Task ReceivedAsync(MqttApplicationMessageReceivedEventArgs e)
    {
        e.AutoAcknowledge = false;
        var now = _line.Now;
        _lastHeard = now;
        var message = e.ApplicationMessage;
        var payload = message.Payload;
        var received = payload.Length > PayloadReader.MostBytes
            ? new Received([], [new Refusal($"a message of more than {PayloadReader.MostBytes / 1024} kB", message.Topic)])
            : _topics.Read(message.Topic, payload.ToArray(), now);
        // Kept by the broker from some time before: only a value that carries its own time can be trusted to be of now.
        if (message.Retain && received.Readings.Any(r => r.Time == now))
        {
            received = new Received(
                [.. received.Readings.Where(r => r.Time != now)],
                [.. received.Refused, new Refusal("a retained message without a time of its own: its value may be old", message.Topic)]);
        }

        await _line.PutAsync(received, () => _ = AcknowledgeAsync(e), _stopping.Token);
    }

    private async Task AcknowledgeAsync(MqttApplicationMessageReceivedEventArgs e)
    {
        try
        {
            await e.AcknowledgeAsync(_stopping.Token);
        }
#pragma warning disable CA1031 // The link broke: the broker sends it again, and a reading that is there already is known.
        catch (Exception)
#pragma warning restore CA1031
        {
            // Nothing to do.
        }
    }
}
