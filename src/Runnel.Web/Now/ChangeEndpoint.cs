using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Runnel.Live.View;

namespace Runnel.Web.Now;

/// <summary>Tells open pages which of their parts have changed; they fetch those. A mark a part, some hundred bytes, and a beat when nothing happens.</summary>
public static class ChangeEndpoint
{
    /// <summary>More often nobody could read it.</summary>
    private static readonly TimeSpan Between = TimeSpan.FromSeconds(2), Beat = TimeSpan.FromSeconds(15);

    public static void MapChanges(this IEndpointRouteBuilder app) =>
        app.MapGet("/now/changes", (RunningPlace place, TimeProvider clock, CancellationToken cancel) => place.Live is null
            ? Results.NotFound() : TypedResults.ServerSentEvents(ChangesAsync(place, clock, cancel))).ExcludeFromDescription();

    private static async IAsyncEnumerable<SseItem<IReadOnlyDictionary<string, string>>> ChangesAsync(RunningPlace place, TimeProvider clock, [EnumeratorCancellation] CancellationToken cancel)
    {
        IReadOnlyDictionary<string, string> sent = new Dictionary<string, string>();
        await using IAsyncEnumerator<LiveView> views = place.Live!.ChangesAsync(cancel).GetAsyncEnumerator(cancel);
        Task<bool> next = views.MoveNextAsync().AsTask();
        while (!cancel.IsCancellationRequested)
        {
            if (!await CameWithinAsync(next, clock, cancel))
            {
                yield return new(new Dictionary<string, string>(), "beat");
                continue;
            }

            if (!await next) yield break;
            next = views.MoveNextAsync().AsTask();
            IReadOnlyDictionary<string, string> marks = (await place.ModelAsync(cancel)).Marks();
            if (marks.All(m => sent.GetValueOrDefault(m.Key) == m.Value)) continue;
            sent = marks;
            yield return new(marks, "marks") { ReconnectionInterval = TimeSpan.FromSeconds(3) };
            await Task.Delay(Between, clock, cancel);
        }
    }

    private static async Task<bool> CameWithinAsync(Task next, TimeProvider clock, CancellationToken cancel)
    {
        using var enough = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        Task beat = Task.Delay(Beat, clock, enough.Token);
        bool came = await Task.WhenAny(next, beat) == next;
        await enough.CancelAsync();
        return came;
    }
}
