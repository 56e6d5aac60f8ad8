using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Runnel.Place.Findings;
using Runnel.Web.Findings;

namespace Runnel.Web.Report;

/// <summary>The findings as one self-contained HTML file: no requests, works offline, prints well.</summary>
public static class HtmlReport
{
    /// <summary>The file's text.</summary>
    public static string Render(Diagnosis diagnosis)
    {
        var view = new FindingsView(new(diagnosis), TimeChartsOf.Whole(diagnosis), PagePath: null);
        using ServiceProvider services = new ServiceCollection().BuildServiceProvider();
        using var renderer = new HtmlRenderer(services, NullLoggerFactory.Instance);
        // The sheet waits for nothing, so that the task is done when it is handed back.
        Task<string> rendered = renderer.Dispatcher.InvokeAsync(() => "<!doctype html>\n" + renderer
            .BeginRenderingComponent<ReportSheet>(ParameterView.FromDictionary(new Dictionary<string, object?> { [nameof(ReportSheet.View)] = view }))
            .ToHtmlString());
        return rendered.GetAwaiter().GetResult();
    }
}
