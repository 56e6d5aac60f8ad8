using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Runnel.Web.Api;
using Runnel.Web.Daybook;
using Runnel.Web.Findings;
using Runnel.Web.Now;
using Runnel.Web.Reckoner;
using Runnel.Web.Shell;
using Runnel.Web.Water;
using Runnel.Web.YourLog;

namespace Runnel.Web.Hosting;

/// <summary>Composes the pages: `await using var app = RunnelPages.Build(args, options); await app.RunAsync();`</summary>
public static class RunnelPages
{
    /// <summary>A form carries a little more than its log: a place file, a daybook, its own marks.</summary>
    internal const long FormAllowanceBytes = 16 * 1024 * 1024;

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
        long largestForm = options.LargestLogBytes + FormAllowanceBytes;
        services.Configure<Microsoft.AspNetCore.Server.Kestrel.Core.KestrelServerOptions>(k => k.Limits.MaxRequestBodySize = largestForm);
        services.Configure<FormOptions>(f => f.MultipartBodyLengthLimit = largestForm);
        services.AddSingleton(options);
        services.AddSingleton(TimeProvider.System);
        if (options.Live is { } live) services.AddSingleton(live);
        if (options.Sources is { } sources) services.AddSingleton(sources);
        services.AddSingleton<RunningPlace>();
        services.AddSingleton<InventedLog>();
        services.AddSingleton<DroppedLogs>();
        services.AddSingleton<LogSurveys>();
        services.AddSingleton<DroppedFindings>();
        services.AddRazorComponents();
        services.AddAntiforgery(a => a.Cookie.Name = "runnel-form");
        services.AddProblemDetails();
        services.AddReckonerDescription();
        services.AddResponseCompression(c =>
        {
            c.EnableForHttps = true;
            c.MimeTypes = [.. Microsoft.AspNetCore.ResponseCompression.ResponseCompressionDefaults.MimeTypes, "image/svg+xml"];
        });
        return services;
    }

    public static void UseRunnelPages(this WebApplication app)
    {
        var options = app.Services.GetRequiredService<RunnelPagesOptions>();

        // Made while the first visitor is still typing the address. A place that runs needs no invented log until someone asks for it.
        if (options.Live is null) app.Lifetime.ApplicationStarted.Register(() => _ = Task.Run(() => app.Services.GetRequiredService<InventedLog>().Findings));
        app.UseEndOfEndlessAnswers();
        app.UseResponseCompression();
        app.UsePageHeaders();
        app.UseExceptionHandler("/fault", createScopeForErrors: true);
        app.UseStatusCodePagesWithReExecute("/problem/{0}", createScopeForStatusCodePages: true);
        app.UseGetForErrorPages();
        if (options.Key is { } key) new AccessKey(key).Use(app);
        app.UseOwnOriginOnly();
        app.UseUploadLimit(options);
        app.UseAntiforgery();
        app.UseRefusalOfForeignPosts();
        app.MapPageAssets();
        app.MapLook();
        app.MapFindings();
        app.MapChanges();
        app.MapOneTaps();
        app.MapDaybook();
        app.MapWaterCharts();
        app.MapDroppedLogs();
        app.MapReckoner();
        if (options is { Live: not null, Sources: not null })
        {
            app.MapLive();
            app.MapPostedReadings();
            app.MapPeople();
        }

        app.Map("/api/{**rest}", () => TypedResults.Problem(statusCode: StatusCodes.Status404NotFound, title: "There is no such address.")).ExcludeFromDescription();
        app.MapRazorComponents<Shell.Shell>();
    }
}
