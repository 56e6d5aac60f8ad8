using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Runnel.Live.Demo;

namespace Runnel.Web.Api;

/// <summary>Trying a fault by one click. Mapped in the demo only; forms return to the page they were sent from.</summary>
public static class DemoEndpoints
{
    public static void MapDemo(this IEndpointRouteBuilder app)
    {
        var forms = app.MapGroup("/demo").ExcludeFromDescription();
        forms.MapPost("/fault", InjectAsync);
        forms.MapPost("/mend", MendAsync);
        forms.MapPost("/pace", Pace);
    }

    private static async Task<RedirectHttpResult> InjectAsync([FromForm] string? name, [FromForm] string? back, DemoPlace demo, CancellationToken cancel)
    {
        if (name is not null && demo.Faults.Any(f => f.Name == name && !f.Stands)) await demo.InjectAsync(name, cancel);
        return Back(back);
    }

    private static async Task<RedirectHttpResult> MendAsync([FromForm] string? name, [FromForm] string? back, DemoPlace demo, CancellationToken cancel)
    {
        if (name is not null) await demo.MendAsync(name, cancel);
        return Back(back);
    }

    private static RedirectHttpResult Pace([FromForm] double? pace, [FromForm] string? back, DemoPlace demo)
    {
        if (pace is { } told && double.IsFinite(told)) demo.Pace = told;
        return Back(back);
    }

    private static RedirectHttpResult Back(string? back) => TypedResults.LocalRedirect(
        back is not null && back.StartsWith('/') && !back.StartsWith("//", StringComparison.Ordinal) && !back.Contains('\\') ? back : "/");
}
