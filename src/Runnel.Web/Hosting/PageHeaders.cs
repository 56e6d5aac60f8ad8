using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;

namespace Runnel.Web.Hosting;

/// <summary>What every answer says to browsers about trust.</summary>
public static class PageHeaders
{
    // No inline script or style anywhere, and nothing from another host: a log may carry any text into a page.
    private const string Policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
        + "form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    public static void UsePageHeaders(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        http.Response.OnStarting(() =>
        {
            IHeaderDictionary headers = http.Response.Headers;
            headers.TryAdd("Content-Security-Policy", Policy);
            headers.TryAdd("X-Content-Type-Options", "nosniff");
            headers.TryAdd("Referrer-Policy", "same-origin");
            return Task.CompletedTask;
        });
        return next(http);
    });

    /// <summary>A refused post is answered with a page, and that page is no form: it must not be refused for the same reason again.</summary>
    public static void UseGetForErrorPages(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        if (http.Features.Get<IStatusCodeReExecuteFeature>() is not null || http.Features.Get<IExceptionHandlerFeature>() is not null)
            http.Request.Method = HttpMethods.Get;
        return next(http);
    });

    /// <summary>Answers a post without its mark of origin before a page half begins to; the page for refused posts then says so in words.</summary>
    public static void UseRefusalOfForeignPosts(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        if (!HttpMethods.IsPost(http.Request.Method) || http.Features.Get<IAntiforgeryValidationFeature>() is not { IsValid: false }) return next(http);
        http.Response.StatusCode = StatusCodes.Status400BadRequest;
        return Task.CompletedTask;
    });
}
