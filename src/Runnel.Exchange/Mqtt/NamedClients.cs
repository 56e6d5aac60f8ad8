using MQTTnet.Adapter;
using MQTTnet.Diagnostics.Logger;
using MQTTnet.Formatter;
using MQTTnet.Packets;
using MQTTnet.Server;
using MQTTnet.Server.Internal.Adapter;

namespace Runnel.Exchange.Mqtt;

/// <summary>
/// Listens as the library does, and gives clients that come without an identifier one. MQTT 3.1.1 allows them (3.1.3-6) and the library
/// does not; command-line clients come so.
/// </summary>
internal sealed class NamedClients : IMqttServerAdapter
{
    private readonly MqttTcpServerAdapter _tcp = new();
    private long _unnamed;

    public Func<IMqttChannelAdapter, Task>? ClientHandler { get; set; }

    public Task StartAsync(MqttServerOptions options, IMqttNetLogger logger)
    {
        _tcp.ClientHandler = channel => ClientHandler?.Invoke(new NamedChannel(channel, NextName)) ?? Task.CompletedTask;
        return _tcp.StartAsync(options, logger);
    }

    public Task StopAsync() => _tcp.StopAsync();

    public void Dispose() => _tcp.Dispose();

    private string NextName() => $"unnamed-{Interlocked.Increment(ref _unnamed)}";

    private sealed class NamedChannel(IMqttChannelAdapter inner, Func<string> nextName) : IMqttChannelAdapter
    {
        public long BytesReceived => inner.BytesReceived;

        public long BytesSent => inner.BytesSent;

        public System.Security.Cryptography.X509Certificates.X509Certificate2? ClientCertificate => inner.ClientCertificate;

        public System.Net.EndPoint? RemoteEndPoint => inner.RemoteEndPoint;

        public System.Net.EndPoint? LocalEndPoint => inner.LocalEndPoint;

        public bool IsSecureConnection => inner.IsSecureConnection;

        public MqttPacketFormatterAdapter PacketFormatterAdapter => inner.PacketFormatterAdapter;

        public Task ConnectAsync(CancellationToken cancellationToken) => inner.ConnectAsync(cancellationToken);

        public Task DisconnectAsync(CancellationToken cancellationToken) => inner.DisconnectAsync(cancellationToken);

        public async Task<MqttPacket?> ReceivePacketAsync(CancellationToken cancellationToken)
        {
            var packet = await inner.ReceivePacketAsync(cancellationToken);
            if (packet is MqttConnectPacket { CleanSession: true } connect && string.IsNullOrEmpty(connect.ClientId)) connect.ClientId = nextName();
            return packet;
        }

        public void ResetStatistics() => inner.ResetStatistics();

        public Task SendPacketAsync(MqttPacket packet, CancellationToken cancellationToken) => inner.SendPacketAsync(packet, cancellationToken);

        public void Dispose() => inner.Dispose();
    }
}
