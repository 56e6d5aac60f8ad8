using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Runnel.Web.Now;

/// <summary>Tells open pages which of their parts have changed; they fetch those. A mark a part, some hundred bytes, and a beat when nothing happens.</summary>
public static class ChangeEndpoint
{
    /// <summary>More often nobody could read it.</summary>
    private static readonly TimeSpan Between = TimeSpan.FromSeconds(1), Beat = TimeSpan.FromSeconds(15);

    public static void MapChanges(this IEndpointRouteBuilder app) =>
        app.MapGet("/now/changes", (RunningPlace place, TimeProvider clock, CancellationToken cancel) => place.Live is null
            ? Results.NotFound() : TypedResults.ServerSentEvents(ChangesAsync(place, clock, cancel))).ExcludeFromDescription();

    private static async IAsyncEnumerable<SseItem<IReadOnlyDictionary<string, string>>> ChangesAsync(RunningPlace place, TimeProvider clock, [EnumeratorCancellation] CancellationToken cancel)
    {
        IReadOnlyDictionary<string, string> sent = new Dictionary<string, string>();
        long seen = -1, saidAt = clock.GetTimestamp();
        // Looking at a number costs nothing; a stream that waits would have to be woken to be ended.
        using var looks = new PeriodicTimer(Between, clock);
        do
        {
            if (place.Live!.View.Number is var number && number != seen)
            {
                seen = number;
                IReadOnlyDictionary<string, string> marks = (await place.ModelAsync(cancel)).Marks;
                if (marks.Any(m => sent.GetValueOrDefault(m.Key) != m.Value))
                {
                    (sent, saidAt) = (marks, clock.GetTimestamp());
                    yield return new(marks, "marks") { ReconnectionInterval = TimeSpan.FromSeconds(3) };
                }
            }

            if (clock.GetElapsedTime(saidAt) >= Beat)
            {
                saidAt = clock.GetTimestamp();
                yield return new(new Dictionary<string, string>(), "beat");
            }
        }
        while (await looks.WaitForNextTickAsync(cancel));
    }
}
