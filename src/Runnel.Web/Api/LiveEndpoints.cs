using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using NodaTime;
using Runnel.Exchange.Findings;
using Runnel.Live;

namespace Runnel.Web.Api;

/// <summary>What the running place tells other programs.</summary>
public static class LiveEndpoints
{
    private const string Json = "application/json";

    public static void MapLive(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/api").WithTags("The running place");
        group.MapGet("/now", (LivePlace live) => Text(NowJson.Write(live.View)))
            .WithSummary("How the place stands now: verdict, standing notices, last reading of each channel, what came in, sources")
            .Produces(StatusCodes.Status200OK, contentType: Json);
        group.MapGet("/findings", IResult (LivePlace live) => live.View.Findings is { } findings ? Text(DiagnosisJson.Write(findings)) : NotYet(live))
            .WithSummary("All that is understood, in the form of 'runnel diagnose --json'")
            .Produces(StatusCodes.Status200OK, contentType: Json).ProducesProblem(StatusCodes.Status503ServiceUnavailable);
        group.MapGet("/notices", (LivePlace live) => Text(NowJson.Notices(live.View)))
            .WithSummary("All notices, first noticed first, with what people said to each").Produces(StatusCodes.Status200OK, contentType: Json);
        group.MapGet("/ledger", (LivePlace live) => Text(NowJson.Ledger(live.View)))
            .WithSummary("The water of each civil day").Produces(StatusCodes.Status200OK, contentType: Json);
        group.MapGet("/estimates", (LivePlace live) => Text(NowJson.Estimates(live.View)))
            .WithSummary("What is understood now, with bands").Produces(StatusCodes.Status200OK, contentType: Json);
        group.MapGet("/changes", (LivePlace live, CancellationToken cancel) => TypedResults.ServerSentEvents(ChangesAsync(live, cancel)))
            .ExcludeFromDescription();
        group.MapGet("/channels/{id}/readings", BucketsAsync)
            .WithSummary("Readings of a channel in a stretch of time, summed up in at most so many equal parts; empty parts are left out");
    }

    internal static ContentHttpResult Text(string json) => TypedResults.Text(json, Json);

    private static ProblemHttpResult NotYet(LivePlace live) =>
        TypedResults.Problem(statusCode: StatusCodes.Status503ServiceUnavailable, title: "There are no findings yet.", detail: live.View.NotYet);

    private static async IAsyncEnumerable<SseItem<string>> ChangesAsync(LivePlace live, [EnumeratorCancellation] CancellationToken cancel)
    {
        await foreach (var view in live.ChangesAsync(cancel))
            yield return new SseItem<string>(NowJson.Write(view), "now") { EventId = view.Number.ToString(System.Globalization.CultureInfo.InvariantCulture) };
    }

    private static async Task<IResult> BucketsAsync(string id, string? from, string? to, int? count, LivePlace live, CancellationToken cancel)
    {
        int channel = live.Place.ChannelIndex(id);
        if (channel < 0) return TypedResults.Problem(statusCode: StatusCodes.Status404NotFound, title: $"There is no channel {id}.");
        var end = to is null ? live.Now : Moments.Read(to, live.Place.Zone);
        var begin = from is null ? end - Duration.FromDays(1) : Moments.Read(from, live.Place.Zone);
        if (begin is not { } start || end is not { } stop || stop <= start || count is < 1 or > 10_000)
        {
            return TypedResults.Problem(
                statusCode: StatusCodes.Status400BadRequest, title: "This stretch of time is not understood.",
                detail: "Give from and to as RFC 3339 times, from before to, and count from 1 to 10000.");
        }

        var buckets = await live.Records.BucketsAsync(live.Place.Channels[channel].Id, start, stop, count ?? 500, cancel);
        return Text(NowJson.Text(json =>
        {
            json.WriteStartArray();
            foreach (var bucket in buckets)
            {
                json.WriteStartObject();
                json.WriteString("time", FindingJson.Time(bucket.Start, live.Place.Zone));
                json.WriteNumber("count", bucket.Count);
                json.WriteNumber("low", bucket.Low);
                json.WriteNumber("high", bucket.High);
                json.WriteNumber("mean", bucket.Mean);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }));
    }
}
