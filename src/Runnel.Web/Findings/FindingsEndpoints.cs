using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Charts;
using Runnel.Web.Report;

namespace Runnel.Web.Findings;

/// <summary>Drawings alone for another stretch of time, and the report as one file.</summary>
public static class FindingsEndpoints
{
    public static void MapFindings(this IEndpointRouteBuilder app)
    {
        RouteGroupBuilder invented = app.MapGroup("/log/invented");
        invented.MapGet("/charts/{chart}", (string chart, string? from, string? to, string? size, InventedLog log) =>
            Drawing(log.Findings, chart, from, to, size));
        invented.MapGet("/report.html", (InventedLog log) => Report(log.Findings, "invented"));
    }

    internal static IResult Drawing(Diagnosis? findings, string chart, string? from, string? to, string? size)
    {
        if (findings is null || ChartSize.Find(size ?? "wide") is not { } chartSize || TimeChartsOf.Find(findings, chart) is not { } found)
            return Results.Problem(statusCode: StatusCodes.Status404NotFound, title: "There is no such drawing.");
        Interval range = FindingsView.RangeOf(findings, from, to);
        return Results.Text(TimeChartDrawing.Draw(found, chartSize, range), "image/svg+xml", Encoding.UTF8);
    }

    internal static IResult Report(Diagnosis? findings, string name) => findings is null
        ? Results.NotFound()
        : Results.File(Encoding.UTF8.GetBytes(HtmlReport.Render(findings)), "text/html; charset=utf-8", $"runnel-{name}.html");
}
