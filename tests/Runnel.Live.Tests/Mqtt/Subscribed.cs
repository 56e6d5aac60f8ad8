using System.Collections.Concurrent;
using MQTTnet;

namespace Runnel.Live.Tests.Mqtt;

/// <summary>A client that gathers what it is told.</summary>
internal sealed class Subscribed(int port) : IAsyncDisposable
{
    private readonly IMqttClient _client = new MqttClientFactory().CreateMqttClient();
    private readonly ConcurrentDictionary<string, string> _told = new(StringComparer.Ordinal);

    /// <summary>What was told once that is enough, by topic.</summary>
    public async Task<IReadOnlyDictionary<string, string>> ReadAsync(string filter, Func<IReadOnlyDictionary<string, string>, bool> enough, CancellationToken cancel)
    {
        _client.ApplicationMessageReceivedAsync += e =>
        {
            _told[e.ApplicationMessage.Topic] = e.ApplicationMessage.ConvertPayloadToString();
            return Task.CompletedTask;
        };
        await _client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port).Build(), cancel);
        await _client.SubscribeAsync(filter, cancellationToken: cancel);
        using var late = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        late.CancelAfter(TimeSpan.FromSeconds(15));
        using var looks = new PeriodicTimer(TimeSpan.FromMilliseconds(50));
        while (!enough(_told)) await looks.WaitForNextTickAsync(late.Token);
        return _told;
    }

    public ValueTask DisposeAsync()
    {
        _client.Dispose();
        return ValueTask.CompletedTask;
    }
}
