using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Runnel.Web.Hosting;

namespace Runnel.Web.YourLog;

/// <summary>Answers a too large upload with a page that says so. Without this the connection would just break off.</summary>
public static class UploadLimit
{
    public const string TooLarge = "too-large";

    public static void UseUploadLimit(this IApplicationBuilder app, RunnelPagesOptions options) => app.Use(async (http, next) =>
    {
        long most = options.LargestLogBytes + RunnelPages.FormAllowanceBytes;
        if (!HttpMethods.IsPost(http.Request.Method) || http.Request.ContentLength is not { } length || length <= most)
        {
            await next(http);
            return;
        }

        // Browsers show the answer only when they could send all they had to send.
        if (http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit) limit.MaxRequestBodySize = null;
        await http.Request.Body.CopyToAsync(Stream.Null, http.RequestAborted);
        http.Response.StatusCode = StatusCodes.Status303SeeOther;
        http.Response.Headers.Location = $"/log/new?problem={TooLarge}";
    });
}
