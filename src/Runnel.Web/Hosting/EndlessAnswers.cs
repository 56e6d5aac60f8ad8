using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Runnel.Web.Hosting;

/// <summary>Answers that go on while a page is open: they end when the host stops, or it would wait for pages that nobody closes.</summary>
internal static class EndlessAnswers
{
    private static readonly PathString[] Paths = ["/now/changes", "/api/changes"];

    public static void UseEndOfEndlessAnswers(this WebApplication app) => app.Use(async (context, next) =>
    {
        if (!Paths.Contains(context.Request.Path))
        {
            await next(context);
            return;
        }

        using var ends = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, app.Lifetime.ApplicationStopping);
        context.RequestAborted = ends.Token;
        try
        {
            await next(context);
        }
        catch (OperationCanceledException) when (ends.IsCancellationRequested)
        {
            // That is how they end.
        }
    });
}
