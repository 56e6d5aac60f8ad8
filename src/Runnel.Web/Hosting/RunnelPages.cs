using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Runnel.Web.Findings;
using Runnel.Web.Shell;

namespace Runnel.Web.Hosting;

/// <summary>Composes the pages: `await using var app = RunnelPages.Build(args, options); await app.RunAsync();`</summary>
public static class RunnelPages
{
    public static WebApplication Build(string[] args, RunnelPagesOptions options)
    {
        WebApplicationBuilder builder = WebApplication.CreateBuilder(new WebApplicationOptions { Args = args, ContentRootPath = AppContext.BaseDirectory });
        if (options.Urls is { } urls) builder.WebHost.UseUrls(urls);
        builder.Logging.AddFilter("Microsoft.AspNetCore", LogLevel.Warning);
        builder.Services.AddRunnelPages(options);
        WebApplication app = builder.Build();
        app.UseRunnelPages();
        return app;
    }

    public static IServiceCollection AddRunnelPages(this IServiceCollection services, RunnelPagesOptions options)
    {
        // A form carries a little more than its file.
        long largestForm = options.LargestLogBytes + (1024 * 1024);
        services.Configure<Microsoft.AspNetCore.Server.Kestrel.Core.KestrelServerOptions>(k => k.Limits.MaxRequestBodySize = largestForm);
        services.Configure<FormOptions>(f => f.MultipartBodyLengthLimit = largestForm);
        services.AddSingleton(options);
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<InventedLog>();
        services.AddRazorComponents();
        services.AddAntiforgery(a => a.Cookie.Name = "runnel-form");
        services.AddProblemDetails();
        services.AddResponseCompression(c =>
        {
            c.EnableForHttps = true;
            c.MimeTypes = [.. Microsoft.AspNetCore.ResponseCompression.ResponseCompressionDefaults.MimeTypes, "image/svg+xml"];
        });
        return services;
    }

    public static void UseRunnelPages(this WebApplication app)
    {
        app.UseResponseCompression();
        app.UsePageHeaders();
        app.UseExceptionHandler("/fault", createScopeForErrors: true);
        app.UseStatusCodePagesWithReExecute("/missing", createScopeForStatusCodePages: true);
        app.UseAntiforgery();
        app.MapPageAssets();
        app.MapLook();
        app.MapFindings();
        app.Map("/api/{**rest}", () => TypedResults.Problem(statusCode: StatusCodes.Status404NotFound, title: "There is no such address.")).ExcludeFromDescription();
        app.MapRazorComponents<Shell.Shell>();
    }
}
