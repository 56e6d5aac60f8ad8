using System.Threading.Channels;
using MQTTnet.Adapter;
using MQTTnet.Packets;

namespace Runnel.Exchange.Mqtt;

/// <summary>One connected client: sends its acknowledgements in order, beside everyone else's, and knows again what it sends twice.</summary>
internal sealed class ClientLink : IDisposable
{
    private const int Remembered = 2048;
    private readonly Channel<ushort> _stored = System.Threading.Channels.Channel.CreateUnbounded<ushort>(new() { SingleReader = true });
    private readonly Dictionary<ushort, int> _taken = [];
    private readonly Queue<ushort> _order = [];

    public ClientLink(IMqttChannelAdapter channel) => _ = Task.Run(() => SendAsync(channel));

    /// <summary>A message of that number is on the disk.</summary>
    public void Acknowledge(ushort packet) => _stored.Writer.TryWrite(packet);

    /// <summary>Whether this message was taken before: it comes again under its number, marked as such, with the same content.</summary>
    public bool IsKnown(MqttPublishPacket packet)
    {
        var hash = new HashCode();
        hash.Add(packet.Topic, StringComparer.Ordinal);
        foreach (var part in packet.Payload) hash.AddBytes(part.Span);
        int content = hash.ToHashCode();
        lock (_taken)
        {
            if (packet.Dup && _taken.TryGetValue(packet.PacketIdentifier, out int before) && before == content) return true;
            if (!_taken.ContainsKey(packet.PacketIdentifier)) _order.Enqueue(packet.PacketIdentifier);
            _taken[packet.PacketIdentifier] = content;
            if (_order.Count > Remembered) _taken.Remove(_order.Dequeue());
            return false;
        }
    }

    /// <summary>What waits is still sent where it can be; the sending ends by itself.</summary>
    public void Dispose() => _stored.Writer.TryComplete();

    private async Task SendAsync(IMqttChannelAdapter channel)
    {
        try
        {
            await foreach (ushort packet in _stored.Reader.ReadAllAsync())
                await channel.SendPacketAsync(new MqttPubAckPacket { PacketIdentifier = packet }, CancellationToken.None);
        }
#pragma warning disable CA1031 // Whatever broke the connection: the client comes back and sends again what was not acknowledged.
        catch (Exception)
#pragma warning restore CA1031
        {
            // Nothing to do.
        }
    }
}
