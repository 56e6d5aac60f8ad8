using System.Threading.Channels;
using NodaTime;
using Runnel.Place;

namespace Runnel.Exchange.Intake;

/// <summary>
/// Gathers what many senders hand in, so that one commit serves all that waits, and tells each when its own is on the disk. While nothing
/// can be stored (a full disk), what waits is tried again and again and senders are held up: nothing that was taken is dropped.
/// </summary>
public sealed class IntakeLine : IAsyncDisposable
{
    /// <summary>Past this many waiting, senders wait too: a flood must not fill the memory.</summary>
    private const int MostWaiting = 20_000;

    private const int MostAtOnce = 2000;
    private static readonly TimeSpan TryAgainAfter = TimeSpan.FromSeconds(2);

    private readonly Channel<Item> _waiting = System.Threading.Channels.Channel.CreateBounded<Item>(new BoundedChannelOptions(MostWaiting) { SingleReader = true });
    private readonly CancellationTokenSource _stopping = new();
    private readonly TakeReceived _take;
    private readonly TimeProvider _clock;
    private readonly Task _running;

    public IntakeLine(TakeReceived take, TimeProvider clock)
    {
        (_take, _clock) = (take, clock);
        _running = Task.Run(RunAsync);
    }

    /// <summary>The present, as the place has it.</summary>
    public Instant Now => Instant.FromDateTimeOffset(_clock.GetUtcNow());

    /// <summary>Puts something in line; <paramref name="stored"/> is called once it is on the disk.</summary>
    public ValueTask PutAsync(Received received, Action? stored, CancellationToken cancel) => _waiting.Writer.WriteAsync(new(received, stored), cancel);

    /// <summary>Puts something in line and waits until it is on the disk.</summary>
    public async Task StoreAsync(Received received, CancellationToken cancel)
    {
        var done = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        await PutAsync(received, done.SetResult, cancel);
        await done.Task.WaitAsync(cancel);
    }

    /// <summary>Stores what still waits, then stops.</summary>
    public async ValueTask DisposeAsync()
    {
        _waiting.Writer.TryComplete();
        // A disk that stays full would hold the end up for ever.
        _stopping.CancelAfter(TimeSpan.FromSeconds(5));
        await _running;
        _stopping.Dispose();
    }

    private async Task RunAsync()
    {
        var together = new List<Item>();
        try
        {
            while (await _waiting.Reader.WaitToReadAsync(_stopping.Token))
            {
                together.Clear();
                while (together.Count < MostAtOnce && _waiting.Reader.TryRead(out var item)) together.Add(item);
                await StoreAsync(together);
            }
        }
        catch (OperationCanceledException)
        {
            // What waits was never acknowledged: its senders have it still.
        }
    }

    private async Task StoreAsync(List<Item> together)
    {
        var all = together.Count == 1
            ? together[0].Received
            : new Received([.. together.SelectMany(i => i.Received.Readings)], [.. together.SelectMany(i => i.Received.Refused)]);
        while (true)
        {
            try
            {
                await _take(all, _stopping.Token);
                break;
            }
#pragma warning disable CA1031 // Whatever kept it from being stored: it is tried again, and whoever takes it tells people why.
            catch (Exception error) when (error is not OperationCanceledException)
#pragma warning restore CA1031
            {
                all = all with { Refused = [] };
                await Task.Delay(TryAgainAfter, _stopping.Token);
            }
        }

        foreach (var item in together) item.Stored?.Invoke();
    }

    private readonly record struct Item(Received Received, Action? Stored);
}
