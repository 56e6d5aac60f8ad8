using System.Buffers;
using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Text;
using MQTTnet;
using MQTTnet.Packets;
using MQTTnet.Protocol;
using MQTTnet.Server;
using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Place;

namespace Runnel.Exchange.Mqtt;

/// <summary>
/// The broker that Runnel runs (MQTT 3.1.1 and 5). A reading sent with quality of service 1 or 2 is acknowledged only when it is on the
/// disk. Other topics pass through as on any broker, within each client's rights; nobody but Runnel writes where it publishes.
/// </summary>
public sealed class EmbeddedBroker : IAsyncDisposable
{
    private readonly TopicMap _topics;
    private readonly IntakeLine _line;
    private readonly ClientRights _rights;
    private readonly OwnBroker _settings;
    private readonly MqttServer _server;
    private readonly ConcurrentDictionary<string, ClientLink> _links = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, BrokerClient> _clients = new(StringComparer.Ordinal);
    private Instant? _lastHeard;

    public EmbeddedBroker(OwnBroker settings, TopicMap topics, ClientRights rights, IntakeLine line)
    {
        if (settings.OnHomeNetwork && rights.AnyoneMayConnect) throw new ArgumentException("a broker open to the network needs clients with passwords", nameof(rights));
        (_settings, _topics, _rights, _line) = (settings, topics, rights, line);
        var options = new MqttServerOptionsBuilder()
            .WithDefaultEndpoint()
            .WithDefaultEndpointBoundIPAddress(settings.OnHomeNetwork ? IPAddress.Any : IPAddress.Loopback)
            .WithDefaultEndpointBoundIPV6Address(IPAddress.None)
            .WithDefaultEndpointPort(settings.Port)
            .WithDefaultEndpointReuseAddress()
            .WithPersistentSessions()
            .WithMaxPendingMessagesPerClient(1000)
            .Build();
        _server = new MqttServerFactory().CreateMqttServer(options, [new NamedClients()]);
        _server.ValidatingConnectionAsync += ValidateAsync;
        _server.ClientDisconnectedAsync += DisconnectedAsync;
        _server.InterceptingInboundPacketAsync += InboundAsync;
        _server.InterceptingPublishAsync += PublishedAsync;
        _server.InterceptingSubscriptionAsync += SubscribingAsync;
    }

    /// <exception cref="IOException">The port is taken, or kept for the system.</exception>
    public async Task StartAsync()
    {
        try
        {
            await _server.StartAsync();
        }
        catch (SocketException error)
        {
            throw new IOException($"the broker cannot listen on port {_settings.Port}: {error.SocketErrorCode switch
            {
                SocketError.AddressAlreadyInUse => "another program listens there",
                SocketError.AccessDenied => "it is kept for the system",
                _ => error.Message,
            }}", error);
        }
    }

    public SourceStanding Standing() => new(
        "own-broker",
        _settings.OnHomeNetwork ? $"Runnel's own broker, port {_settings.Port}, open to the home network" : $"Runnel's own broker on this machine, port {_settings.Port}",
        _server.IsStarted, _lastHeard, null);

    /// <summary>Publishes below the root of the place, retained.</summary>
    public Task PublishAsync(Announcement told, CancellationToken cancel) => InjectAsync(told.MessageBelow(_topics.Root), cancel);

    public async ValueTask DisposeAsync()
    {
        if (_server.IsStarted) await _server.StopAsync(new MqttServerStopOptions());
        foreach (var link in _links.Values) link.Dispose();
        _server.Dispose();
    }

    private Task ValidateAsync(ValidatingConnectionEventArgs e)
    {
        if (!_rights.AnyoneMayConnect)
        {
            if (_rights.Check(e.UserName, e.RawPassword, (e.RemoteEndPoint as IPEndPoint)?.Address) is not { } client)
            {
                e.ReasonCode = MqttConnectReasonCode.BadUserNameOrPassword;
                return Task.CompletedTask;
            }

            _clients[e.ClientId] = client;
        }

        if (string.IsNullOrEmpty(e.ClientId)) return Task.CompletedTask;
        var link = new ClientLink(e.ChannelAdapter);
        _links.AddOrUpdate(e.ClientId, link, (_, old) =>
        {
            old.Dispose();
            return link;
        });
        return Task.CompletedTask;
    }

    private Task DisconnectedAsync(ClientDisconnectedEventArgs e)
    {
        // A client that has already come back under the same name keeps its new link: that one is not finished yet.
        if (e.ReasonCode != MqttDisconnectReasonCode.SessionTakenOver && _links.TryRemove(e.ClientId, out var link)) link.Dispose();
        return Task.CompletedTask;
    }

    /// <summary>The quick way in: quality of service 1 is acknowledged by us, once stored, while the next packets are read already.</summary>
    private async Task InboundAsync(InterceptingPacketEventArgs e)
    {
        if (e.Packet is not MqttPublishPacket { QualityOfServiceLevel: MqttQualityOfServiceLevel.AtLeastOnce, TopicAlias: 0 } packet) return;
        if (!_topics.Brings(packet.Topic) || !MayWrite(e.ClientId, packet.Topic) || !_links.TryGetValue(e.ClientId, out var link)) return;
        e.ProcessPacket = false;
        ushort number = packet.PacketIdentifier;
        if (link.IsKnown(packet))
        {
            await _line.PutAsync(Received.Nothing, () => link.Acknowledge(number), e.CancellationToken);
            return;
        }

        await _line.PutAsync(Read(packet.Topic, packet.Payload), () => link.Acknowledge(number), e.CancellationToken);
        await InjectAsync(
            new MqttApplicationMessage { Topic = packet.Topic, Payload = packet.Payload, Retain = packet.Retain, QualityOfServiceLevel = packet.QualityOfServiceLevel },
            e.CancellationToken);
    }

    /// <summary>Every other message, before it is passed on and acknowledged.</summary>
    private async Task PublishedAsync(InterceptingPublishEventArgs e)
    {
        if (e.ClientId.Length == 0) return; // our own
        string topic = e.ApplicationMessage.Topic;
        if (!MayWrite(e.ClientId, topic))
        {
            e.ProcessPublish = false;
            e.Response.ReasonCode = MqttPubAckReasonCode.NotAuthorized;
            // A client of 3.1.1 is told success all the same: its owner must be able to see it here.
            await _line.PutAsync(new Received([], [new Refusal("a topic that this client may not write", $"{topic} by {_clients.GetValueOrDefault(e.ClientId)?.Id ?? e.ClientId}")]), null, e.CancellationToken);
            return;
        }

        if (!_topics.Brings(topic)) return;
        var received = Read(topic, e.ApplicationMessage.Payload);
        if (e.ApplicationMessage.QualityOfServiceLevel == MqttQualityOfServiceLevel.AtMostOnce) await _line.PutAsync(received, null, e.CancellationToken);
        else await _line.StoreAsync(received, e.CancellationToken);
    }

    private Task SubscribingAsync(InterceptingSubscriptionEventArgs e)
    {
        if (_rights.AnyoneMayConnect) return Task.CompletedTask;
        if (_clients.TryGetValue(e.ClientId, out var client) && ClientRights.AllowsFilter(client.MayRead, e.TopicFilter.Topic)) return Task.CompletedTask;
        e.ProcessSubscription = false;
        e.Response.ReasonCode = MqttSubscribeReasonCode.NotAuthorized;
        return Task.CompletedTask;
    }

    private bool MayWrite(string clientId, string topic)
    {
        // What Runnel tells must be Runnel's word.
        if (topic.StartsWith(_topics.Root + "/", StringComparison.Ordinal) && !_topics.Brings(topic)) return false;
        return _rights.AnyoneMayConnect || (_clients.TryGetValue(clientId, out var client) && ClientRights.Allows(client.MayWrite, topic));
    }

    private Received Read(string topic, in ReadOnlySequence<byte> payload)
    {
        var now = _line.Now;
        _lastHeard = now;
        if (payload.Length > PayloadReader.MostBytes) return new Received([], [new Refusal($"a message of more than {PayloadReader.MostBytes / 1024} kB", $"{topic}: {payload.Length} bytes")]);
        return payload.IsSingleSegment ? _topics.Read(topic, payload.FirstSpan, now) : _topics.Read(topic, payload.ToArray(), now);
    }

    private Task InjectAsync(MqttApplicationMessage message, CancellationToken cancel) =>
        _server.InjectApplicationMessage(new InjectedMqttApplicationMessage(message) { SenderClientId = "" }, cancel);
}
