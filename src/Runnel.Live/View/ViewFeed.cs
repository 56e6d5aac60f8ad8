using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using System.Threading.Channels;

namespace Runnel.Live.View;

/// <summary>Hands every new view to those who look; who is slow misses views, never the last one.</summary>
internal sealed class ViewFeed(LiveView first)
{
    private readonly ConcurrentDictionary<Channel<LiveView>, bool> _lookers = new();
    private volatile LiveView _current = first;

    public LiveView Current => _current;

    public void Publish(LiveView view)
    {
        _current = view;
        foreach (var looker in _lookers.Keys) looker.Writer.TryWrite(view);
    }

    /// <summary>The present view, then each that follows.</summary>
    public async IAsyncEnumerable<LiveView> ChangesAsync([EnumeratorCancellation] CancellationToken cancel)
    {
        var mine = Channel.CreateBounded<LiveView>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropOldest, SingleReader = true });
        _lookers[mine] = true;
        try
        {
            var seen = _current;
            yield return seen;
            await foreach (var view in mine.Reader.ReadAllAsync(cancel))
            {
                if (view.Number <= seen.Number) continue;
                seen = view;
                yield return view;
            }
        }
        finally
        {
            _lookers.TryRemove(mine, out _);
        }
    }
}
