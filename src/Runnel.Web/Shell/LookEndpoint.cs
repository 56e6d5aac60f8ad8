using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Runnel.Web.Shell;

/// <summary>Takes the choice of a look and returns to the page it was made on.</summary>
public static class LookEndpoint
{
    public static void MapLook(this IEndpointRouteBuilder app) => app.MapPost("/look", Choose).ExcludeFromDescription();

    private static RedirectHttpResult Choose([FromForm] string? look, [FromForm] string? back, HttpContext http)
    {
        Look.Choose(http, look);
        // Only to a page of our own: an address with a host in it could lead anywhere.
        bool own = back is not null && back.StartsWith('/') && !back.StartsWith("//", StringComparison.Ordinal) && !back.Contains('\\');
        return TypedResults.LocalRedirect(own ? back! : "/");
    }
}
