using Microsoft.AspNetCore.Builder;
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
}
