using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using NodaTime;
using Runnel.Exchange.Findings;
using Runnel.Place.Findings;
using Runnel.Web.Charts;
using Runnel.Web.Report;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

/// <summary>Drawings alone for another stretch of time, and the report as one file.</summary>
public static class FindingsEndpoints
{
    public static void MapFindings(this IEndpointRouteBuilder app)
    {
        RouteGroupBuilder invented = app.MapGroup("/log/invented");
        invented.MapGet("/charts/{chart}", (string chart, string? from, string? to, string? size, InventedLog log) =>
            Drawing(log.Findings, chart, from, to, size));
        invented.MapGet("/report.html", (InventedLog log) => Report(log.Findings));
        invented.MapGet("/findings.json", (InventedLog log) => Json(log.Findings));
    }

    internal static IResult Drawing(FindingsDrawings? findings, string chart, string? from, string? to, string? size)
    {
        if (findings is null || ChartSize.Find(size ?? "wide") is not { } chartSize || findings.Find(chart) is not { } found)
            return Results.Problem(statusCode: StatusCodes.Status404NotFound, title: "There is no such drawing.");
        Interval range = FindingsView.RangeOf(findings.Diagnosis, from, to);
        return Results.Text(findings.Draw(found, chartSize, range), "image/svg+xml", Encoding.UTF8);
    }

    internal static IResult Report(FindingsDrawings? findings) => findings is null
        ? Results.NotFound()
        : Results.File(Encoding.UTF8.GetBytes(HtmlReport.Render(findings.Diagnosis)), "text/html; charset=utf-8", $"{FileStem(findings.Diagnosis)}.html");

    internal static IResult Json(FindingsDrawings? findings) => findings is null
        ? Results.Problem(statusCode: StatusCodes.Status404NotFound, title: "There are no findings at this address.")
        : Results.Text(DiagnosisJson.Write(findings.Diagnosis), "application/json", Encoding.UTF8);

    /// <summary>"lower-terrace-2026-03-05": what it is about and until when.</summary>
    private static string FileStem(Diagnosis findings)
    {
        string name = string.Concat(findings.PlaceName.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')).Trim('-');
        return $"{(name.Length == 0 ? "log" : name)}-{Stretch.LastDay(findings.To, findings.Zone):uuuu'-'MM'-'dd}";
    }
}
