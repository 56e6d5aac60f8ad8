using Runnel.Exchange.Mqtt;
using Runnel.Live.View;

namespace Runnel.Live.Outward;

/// <summary>Tells other programs what changed from one view to the next, and all of it after a link came back.</summary>
internal sealed class Announcer : IAsyncDisposable
{
    private readonly LivePlace _live;
    private readonly Func<Announcement, CancellationToken, Task> _tell;
    private readonly CancellationTokenSource _stopping = new();
    private readonly Task _running;
    private int _again;

    public Announcer(LivePlace live, Func<Announcement, CancellationToken, Task> tell)
    {
        (_live, _tell) = (live, tell);
        _running = Task.Run(RunAsync);
    }

    /// <summary>A broker came back: what it kept may be gone.</summary>
    public void TellAllAgain() => Interlocked.Exchange(ref _again, 1);

    public async ValueTask DisposeAsync()
    {
        await _stopping.CancelAsync();
        await _running;
        _stopping.Dispose();
    }

    private async Task RunAsync()
    {
        var known = new Dictionary<string, string>(StringComparer.Ordinal);
        LiveView? last = null;
        try
        {
            using var turns = new PeriodicTimer(TimeSpan.FromSeconds(1));
            do
            {
                bool again = Interlocked.Exchange(ref _again, 0) == 1;
                if (again) known.Clear();
                var view = _live.View;
                if (!again && ReferenceEquals(view, last)) continue;
                last = view;
                foreach (var told in Announcements.Of(view))
                {
                    if (known.TryGetValue(told.Topic, out string? before) && before == told.Payload) continue;
                    if (await ToldAsync(told)) known[told.Topic] = told.Payload;
                }
            }
            while (await turns.WaitForNextTickAsync(_stopping.Token));
        }
        catch (OperationCanceledException) when (_stopping.IsCancellationRequested)
        {
            // That is how it ends.
        }
    }

    /// <summary>False where it could not be told: the next turn tries again.</summary>
    private async Task<bool> ToldAsync(Announcement told)
    {
        try
        {
            await _tell(told, _stopping.Token);
            return true;
        }
#pragma warning disable CA1031 // A broker that breaks must not silence the others for good.
        catch (Exception) when (!_stopping.IsCancellationRequested)
#pragma warning restore CA1031
        {
            return false;
        }
    }
}
