using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using NodaTime;
using Runnel.Exchange.Findings;
using Runnel.Live;
using Runnel.Place;
using Runnel.Records;

namespace Runnel.Web.Api;

/// <summary>An entry as it is posted. Times are RFC 3339, or civil time of the place.</summary>
public sealed record PostedEntry(string? Entry, string? Time, string? Of, double? Litres, string? By, string? Note);

/// <summary>Work as it is announced.</summary>
public sealed record PostedWork(double? Minutes, string? By, string? Note);

/// <summary>What somebody says to a notice or a closing question.</summary>
public sealed record PostedWord(string? Was, string? By, string? Note);

/// <summary>What people tell the running place, for programs that speak for them.</summary>
public static class PeopleEndpoints
{
    private const int LongestText = 2000;

    public static void MapPeople(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/api").WithTags("People").DisableAntiforgery();
        group.MapGet("/daybook", ListAsync).WithSummary("The daybook, with how corrected entries read before");
        group.MapPost("/daybook", WriteAsync).WithSummary("Writes an entry into the daybook");
        group.MapPut("/daybook/{number:long}", CorrectAsync).WithSummary("Corrects an entry; how it read before is kept");
        group.MapDelete("/daybook/{number:long}", StrikeAsync).WithSummary("Takes an entry back; it stays to be seen");
        group.MapPost("/work", BeginWorkAsync).WithSummary("Hands are in the loop for so many minutes: notices held, learning paused");
        group.MapDelete("/work", EndWorkAsync).WithSummary("Hands are out of the loop again");
        group.MapPost("/notices/{key}/acknowledged", AcknowledgeAsync).WithSummary("Somebody has seen this notice");
        group.MapPost("/notices/{key}/answer", AnswerAsync).WithSummary("What it was: a cause, 'nothing' or 'other'; or 'as-before' to a closing question");
    }

    private static async Task<IResult> ListAsync(LivePlace live, CancellationToken cancel)
    {
        var rows = await live.DaybookAsync(cancel);
        var zone = live.Place.Zone;
        return LiveEndpoints.Text(NowJson.Text(json =>
        {
            json.WriteStartArray();
            foreach (var row in rows)
            {
                json.WriteStartObject();
                json.WriteNumber("number", row.Number);
                WriteEntry(row.Entry);
                json.WriteBoolean("struck", row.Struck);
                json.WriteStartArray("before");
                foreach (var before in row.Before)
                {
                    json.WriteStartObject();
                    WriteEntry(before.Entry);
                    json.WriteString("changed", FindingJson.Time(before.Changed, zone));
                    json.WriteString("changed_by", before.ChangedBy);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
                json.WriteEndObject();
            }

            json.WriteEndArray();

            void WriteEntry(DaybookEntry entry)
            {
                json.WriteString("time", FindingJson.Time(entry.Time, zone));
                json.WriteString("entry", entry.Entry);
                json.WriteString("of", entry.Of);
                if (entry.Litres is { } litres) json.WriteNumber("litres", litres);
                else json.WriteNull("litres");
                json.WriteString("by", entry.By);
                json.WriteString("note", entry.Note);
            }
        }));
    }

    private static async Task<IResult> WriteAsync(PostedEntry posted, LivePlace live, CancellationToken cancel)
    {
        if (Read(posted, live) is not { } entry) return NotUnderstood();
        long? number = await live.WriteAsync(entry, null, cancel);
        return number is { } written
            ? TypedResults.Created($"/api/daybook/{written}", new Dictionary<string, long> { ["number"] = written })
            : TypedResults.Problem(statusCode: StatusCodes.Status409Conflict, title: "The same entry stands already.");
    }

    private static async Task<IResult> CorrectAsync(long number, PostedEntry posted, LivePlace live, CancellationToken cancel)
    {
        if (Read(posted, live) is not { } entry) return NotUnderstood();
        return await live.CorrectAsync(number, entry, posted.By, cancel) ? TypedResults.NoContent() : NoEntry(number);
    }

    private static async Task<IResult> StrikeAsync(long number, string? by, LivePlace live, CancellationToken cancel) =>
        await live.StrikeAsync(number, by, cancel) ? TypedResults.NoContent() : NoEntry(number);

    private static async Task<IResult> BeginWorkAsync(PostedWork work, LivePlace live, CancellationToken cancel)
    {
        if (work.Minutes is not (> 0 and <= 120) || TooLong(work.By) || TooLong(work.Note))
            return TypedResults.Problem(statusCode: StatusCodes.Status422UnprocessableEntity, title: "Work lasts from 1 to 120 minutes.", detail: "Tell it again when it takes longer.");
        await live.BeginWorkAsync(live.Now + Duration.FromMinutes((long)Math.Ceiling(work.Minutes.Value)), work.By, work.Note, cancel);
        return TypedResults.NoContent();
    }

    private static async Task<IResult> EndWorkAsync(string? by, LivePlace live, CancellationToken cancel)
    {
        await live.EndWorkAsync(by, null, cancel);
        return TypedResults.NoContent();
    }

    private static async Task<IResult> AcknowledgeAsync(string key, PostedWord word, LivePlace live, CancellationToken cancel)
    {
        if (!live.View.Notices.Any(n => n.Key == key)) return NoNotice(key);
        await live.AcknowledgeAsync(key, word.By, cancel);
        return TypedResults.NoContent();
    }

    private static async Task<IResult> AnswerAsync(string key, PostedWord word, LivePlace live, CancellationToken cancel)
    {
        if (!live.View.Notices.Any(n => n.Key == key) && live.View.Closing?.Key != key) return NoNotice(key);
        if (string.IsNullOrWhiteSpace(word.Was) || TooLong(word.Was) || TooLong(word.Note) || TooLong(word.By))
            return TypedResults.Problem(statusCode: StatusCodes.Status422UnprocessableEntity, title: "Say what it was.", detail: "Give was: a cause, nothing, other, or as-before.");
        await live.AnswerAsync(key, word.Was, word.By, word.Note, cancel);
        return TypedResults.NoContent();
    }

    private static DaybookEntry? Read(PostedEntry posted, LivePlace live)
    {
        if (string.IsNullOrWhiteSpace(posted.Entry) || TooLong(posted.Entry) || TooLong(posted.Note) || TooLong(posted.By) || TooLong(posted.Of)) return null;
        if (posted.Litres is { } litres && !(double.IsFinite(litres) && Math.Abs(litres) < 1e9)) return null;
        var time = posted.Time is null ? live.Now : Moments.Read(posted.Time, live.Place.Zone);
        if (time is not { } at || at > live.Now + Duration.FromMinutes(5)) return null;
        bool known = posted.Of is { } of && (live.Place.FindVessel(of) is not null || live.Place.FindEquipment(of) is not null);
        return new DaybookEntry(at, posted.Entry.Trim(), known ? posted.Of : null, posted.Litres, posted.By, posted.Note);
    }

    private static bool TooLong(string? text) => text?.Length > LongestText;

    private static ProblemHttpResult NotUnderstood() => TypedResults.Problem(
        statusCode: StatusCodes.Status422UnprocessableEntity, title: "This entry is not understood.",
        detail: "Give entry, and if you like time (RFC 3339, not in the future), of, litres, by and note.");

    private static ProblemHttpResult NoEntry(long number) => TypedResults.Problem(statusCode: StatusCodes.Status404NotFound, title: $"There is no entry {number}.");

    private static ProblemHttpResult NoNotice(string key) => TypedResults.Problem(statusCode: StatusCodes.Status404NotFound, title: "There is no such notice.", detail: key.Length > 100 ? null : key);
}
