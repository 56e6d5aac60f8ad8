using System.Globalization;
using System.Net.Sockets;
using System.Text;

namespace Runnel.Cli.Pages;

/// <summary>Tells the service supervisor (systemd's notification protocol, sd_notify(3)) that all is ready, that it still turns, and that it ends.
/// Says nothing where nobody listens.</summary>
internal sealed class ServiceSupervisor : IAsyncDisposable
{
    private readonly string? _address = Environment.GetEnvironmentVariable("NOTIFY_SOCKET");
    private readonly CancellationTokenSource _stopping = new();
    private readonly Task _running;

    /// <param name="turns">Whether the work still goes on; only then is the watchdog kept quiet.</param>
    public ServiceSupervisor(Func<bool> turns)
    {
        Tell("READY=1");
        _running = _address is not null
            && long.TryParse(Environment.GetEnvironmentVariable("WATCHDOG_USEC"), NumberStyles.None, CultureInfo.InvariantCulture, out long microseconds) && microseconds > 0
            ? Task.Run(() => KeepQuietAsync(TimeSpan.FromMicroseconds(microseconds / 2.0), turns))
            : Task.CompletedTask;
    }

    public async ValueTask DisposeAsync()
    {
        Tell("STOPPING=1");
        await _stopping.CancelAsync();
        await _running;
        _stopping.Dispose();
    }

    private async Task KeepQuietAsync(TimeSpan every, Func<bool> turns)
    {
        using var timer = new PeriodicTimer(every);
        try
        {
            while (await timer.WaitForNextTickAsync(_stopping.Token))
            {
                if (turns()) Tell("WATCHDOG=1");
            }
        }
        catch (OperationCanceledException)
        {
            // That is how it ends.
        }
    }

    private void Tell(string state)
    {
        if (_address is null) return;
        try
        {
            using var socket = new Socket(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified);
            // A leading @ stands for the abstract namespace.
            socket.SendTo(Encoding.UTF8.GetBytes(state), new UnixDomainSocketEndPoint(_address[0] == '@' ? '\0' + _address[1..] : _address));
        }
        catch (SocketException)
        {
            // A supervisor that does not listen is no reason to stop.
        }
    }
}
