using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;

namespace Runnel.Web.Hosting;

/// <summary>Posts that are not taken are answered with a page in words, never with an empty one.</summary>
public static class RefusedPosts
{
    /// <summary>A refused post is answered with a page, and that page is no form: it must not be refused for the same reason again.</summary>
    public static void UseGetForErrorPages(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        if (http.Features.Get<IStatusCodeReExecuteFeature>() is not null || http.Features.Get<IExceptionHandlerFeature>() is not null)
            http.Request.Method = HttpMethods.Get;
        return next(http);
    });

    /// <summary>Calls that change something and come from another site's page are refused: a browser says where they come from, programs need not.</summary>
    public static void UseOwnOriginOnly(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        string? origin = http.Request.Headers.Origin;
        bool reads = HttpMethods.IsGet(http.Request.Method) || HttpMethods.IsHead(http.Request.Method);
        if (reads || !http.Request.Path.StartsWithSegments("/api") || string.IsNullOrEmpty(origin)
            || (Uri.TryCreate(origin, UriKind.Absolute, out var from) && from.Authority == http.Request.Host.Value))
        {
            return next(http);
        }

        return TypedResults.Problem(statusCode: StatusCodes.Status403Forbidden, title: "Another site's page may not change anything here.").ExecuteAsync(http);
    });

    /// <summary>Answers a post without its mark of origin before a page half begins to; the page for refused posts then says so in words.</summary>
    public static void UseRefusalOfForeignPosts(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        if (!HttpMethods.IsPost(http.Request.Method) || http.Features.Get<IAntiforgeryValidationFeature>() is not { IsValid: false }) return next(http);
        http.Response.StatusCode = StatusCodes.Status400BadRequest;
        return Task.CompletedTask;
    });
}
