using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Runnel.Place;
using Runnel.Records;
using Runnel.Web.Now;
using Runnel.Web.Round;

namespace Runnel.Web.Daybook;

/// <summary>Taking entries back, and ticking jobs.</summary>
public static class DaybookEndpoints
{
    public static void MapDaybook(this IEndpointRouteBuilder app)
    {
        app.MapPost("/daybook/{number:long}/strike", async (long number, [FromForm(Name = "__RequestVerificationToken")] string? token, RunningPlace place, HttpContext http, CancellationToken cancel) =>
        {
            _ = token;
            return place.Live is { } live && await live.StrikeAsync(number, Person.Of(http), cancel) ? Results.LocalRedirect("/daybook") : Results.NotFound();
        }).ExcludeFromDescription();
        app.MapPost("/round/tick", async ([FromForm] string job, RunningPlace place, HttpContext http, CancellationToken cancel) =>
        {
            if (place.Live is not { } live) return Results.NotFound();
            IReadOnlyList<DaybookRow> rows = await live.DaybookAsync(cancel);
            if (RoundJobs.Of(live.View, rows).FirstOrDefault(j => j.Key == job) is not { } found) return Results.NotFound();
            if (found.DoneAs is { } number) await live.StrikeAsync(number, Person.Of(http), cancel);
            else await live.WriteAsync(new DaybookEntry(live.Now, "done", null, null, Person.Of(http), found.NoteOfTick), null, cancel);
            return Results.LocalRedirect("/round");
        }).ExcludeFromDescription();
    }
}
