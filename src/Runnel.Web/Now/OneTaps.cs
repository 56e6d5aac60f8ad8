using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using NodaTime;
using Runnel.Live;
using Runnel.Place;
using Runnel.Place.Findings;

namespace Runnel.Web.Now;

/// <summary>What people say with one tap: seen, what it was, working on it, all as before. Each returns to the page it came from.</summary>
public static class OneTaps
{
    private static readonly HashSet<string> Pages = ["/", "/round", "/daybook", "/add", "/place"];

    public static void MapOneTaps(this IEndpointRouteBuilder app)
    {
        RouteGroupBuilder group = app.MapGroup("/say").ExcludeFromDescription();
        group.MapPost("/seen", async ([FromForm] string key, [FromForm] string? back, RunningPlace place, HttpContext http, CancellationToken cancel) =>
        {
            if (place.Live is not { } live || live.View.Notices.All(n => n.Key != key)) return Results.NotFound();
            await live.AcknowledgeAsync(key, Person.Of(http), cancel);
            return Back(back);
        });
        group.MapPost("/was", async ([FromForm] string key, [FromForm] string was, [FromForm] string? note, [FromForm] string? back, RunningPlace place, HttpContext http, CancellationToken cancel) =>
        {
            if (place.Live is not { } live || live.View.Notices.FirstOrDefault(n => n.Key == key) is not { } notice) return Results.NotFound();
            if (was is not ("nothing" or "other" or "yes") && notice.Notice.Causes.All(c => c.Name != was)) return Results.BadRequest();
            await live.AnswerAsync(key, was == "yes" ? notice.Notice.Cause : was, Person.Of(http), Short(note), cancel);
            return Back(back);
        });
        group.MapPost("/relearn", async ([FromForm] string key, [FromForm] string? back, RunningPlace place, HttpContext http, CancellationToken cancel) =>
        {
            if (place.Live is not { } live || live.View.Notices.All(n => n.Key != key)) return Results.NotFound();
            await live.WriteAsync(new DaybookEntry(live.Now, "relearn", null, null, Person.Of(http), null), null, cancel);
            await live.AnswerAsync(key, CauseNames.LoopChanged, Person.Of(http), "learn anew", cancel);
            return Back(back);
        });
        group.MapPost("/work", async ([FromForm] int minutes, [FromForm] string? note, [FromForm] string? back, RunningPlace place, HttpContext http, CancellationToken cancel) =>
        {
            if (place.Live is not { } live) return Results.NotFound();
            if (minutes is < 1 or > 120) return Results.BadRequest();
            await live.BeginWorkAsync(live.Now + Duration.FromMinutes(minutes), Person.Of(http), Short(note), cancel);
            return Back(back);
        });
        group.MapPost("/done", async ([FromForm] string? back, RunningPlace place, HttpContext http, CancellationToken cancel) =>
        {
            if (place.Live is not { } live) return Results.NotFound();
            await live.EndWorkAsync(Person.Of(http), null, cancel);
            return Back(back);
        });
        group.MapPost("/closing", async ([FromForm] string key, [FromForm] string was, [FromForm] string? note, [FromForm] string? back, RunningPlace place, HttpContext http, CancellationToken cancel) =>
        {
            if (place.Live is not { } live) return Results.NotFound();
            if (was is not ("as-before" or "changed")) return Results.BadRequest();
            await live.AnswerAsync(key, was, Person.Of(http), Short(note), cancel);
            return Back(back);
        });
        group.MapPost("/break", async ([FromForm] string name, RunningPlace place, CancellationToken cancel) =>
        {
            if (place.Faults is not { } bench || bench.List().All(f => f.Name != name)) return Results.NotFound();
            await bench.BreakAsync(name, cancel);
            return Results.LocalRedirect("/");
        });
        group.MapPost("/mend", async ([FromForm] string name, RunningPlace place, CancellationToken cancel) =>
        {
            if (place.Faults is not { } bench || bench.List().All(f => f.Name != name)) return Results.NotFound();
            await bench.MendAsync(name, cancel);
            return Results.LocalRedirect("/");
        });
        group.MapPost("/pace", ([FromForm] double pace, RunningPlace place) =>
        {
            if (place.Faults?.SetPace is not { } set) return Results.NotFound();
            if (!(pace is >= 1 and <= 3600)) return Results.BadRequest();
            set(pace);
            return Results.LocalRedirect("/");
        });
    }

    private static string? Short(string? words) => string.IsNullOrWhiteSpace(words) ? null : words.Trim() is { Length: > 500 } long_ ? long_[..500] : words.Trim();

    private static IResult Back(string? back) => Results.LocalRedirect(back is not null && Pages.Contains(back) ? back : "/");
}
