using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Runnel.Web.Findings;

namespace Runnel.Web.YourLog;

/// <summary>What a dropped log hands out beside its page.</summary>
public static class LogEndpoints
{
    public static void MapDroppedLogs(this IEndpointRouteBuilder app)
    {
        RouteGroupBuilder group = app.MapGroup("/log/{id:length(32)}");
        group.MapGet("/charts/{chart}", async (string id, string chart, string? from, string? to, string? size, DroppedLogs logs, DroppedFindings findings) =>
            FindingsEndpoints.Drawing(await FindAsync(id, logs, findings), chart, from, to, size));
        group.MapGet("/report.html", async (string id, DroppedLogs logs, DroppedFindings findings) =>
            FindingsEndpoints.Report(await FindAsync(id, logs, findings)));
        group.MapGet("/findings.json", async (string id, DroppedLogs logs, DroppedFindings findings) =>
            FindingsEndpoints.Json(await FindAsync(id, logs, findings)));
        group.MapGet("/place.toml", (string id, DroppedLogs logs) => logs.Find(id) is { HasPlace: true } log
            ? Results.File(log.PlacePath, "text/plain; charset=utf-8", "place.toml") : Results.NotFound());
        group.MapPost("/forget", ForgetAsync);
    }

    private static async Task<FindingsDrawings?> FindAsync(string id, DroppedLogs logs, DroppedFindings findings) =>
        logs.Find(id) is { HasPlace: true } log && await findings.Of(log).Outcome is Found found ? found.Findings : null;

    private static async Task<IResult> ForgetAsync(string id, HttpContext http, IAntiforgery antiforgery, DroppedLogs logs, DroppedFindings findings)
    {
        if (!await antiforgery.IsRequestValidAsync(http)) return Results.BadRequest();
        if (logs.Find(id) is { } log)
        {
            findings.Forget(log);
            DroppedLogs.Forget(log);
        }

        return Results.LocalRedirect("/log/new");
    }
}
