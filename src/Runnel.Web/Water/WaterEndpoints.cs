using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Runnel.Web.Findings;
using Runnel.Web.Now;

namespace Runnel.Web.Water;

/// <summary>Charts of the running place for another stretch of time, and what can be taken away.</summary>
public static class WaterEndpoints
{
    public static void MapWaterCharts(this IEndpointRouteBuilder app)
    {
        RouteGroupBuilder group = app.MapGroup("/water").ExcludeFromDescription();
        group.MapGet("/charts/{chart}", (string chart, string? from, string? to, string? size, RunningPlace place) => FindingsEndpoints.Drawing(place.Drawings, chart, from, to, size));
        group.MapGet("/report.html", (RunningPlace place) => FindingsEndpoints.Report(place.Drawings));
        group.MapGet("/findings.json", (RunningPlace place) => FindingsEndpoints.Json(place.Drawings));
    }
}
