using System.Collections.Concurrent;
using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Charts;

namespace Runnel.Web.Findings;

/// <summary>The charts of one diagnosis, made on first need and kept: the same page is looked at again and again.</summary>
public sealed class FindingsDrawings(Diagnosis diagnosis)
{
    private readonly ConcurrentDictionary<string, TimeChart?> _charts = new();
    private readonly ConcurrentDictionary<(string Id, ChartSize Size), string> _whole = new();
    private readonly Lazy<RunOverFillChart?> _runOverFill = new(() =>
    {
        Notice? top = TopNotice.Of(diagnosis);
        return RunOverFillOf.Chart(diagnosis, top is not null && Words.Causes.ShowsInRunOverFill(top.Cause) ? top : null);
    });

    public Diagnosis Diagnosis => diagnosis;

    /// <summary>Run against fill, split at the notice that the page leads with if it shows there; null where no cycles were seen.</summary>
    public RunOverFillChart? RunOverFill => _runOverFill.Value;

    /// <summary>Those that have something to show, in the order of the page.</summary>
    public IEnumerable<TimeChart> TimeCharts => TimeChartsOf.Ids.Select(Find).OfType<TimeChart>();

    /// <summary>The chart of that short name, or null.</summary>
    public TimeChart? Find(string id) => TimeChartsOf.Ids.Contains(id) ? _charts.GetOrAdd(id, TimeChartsOf.Find, diagnosis) : null;

    /// <summary>A chart drawn over a stretch of time.</summary>
    public string Draw(TimeChart chart, ChartSize size, Interval range) => range == chart.Whole
        ? _whole.GetOrAdd((chart.Id, size), static (key, c) => TimeChartDrawing.Draw(c, key.Size), chart)
        : TimeChartDrawing.Draw(chart, size, range);

    /// <summary>Run against fill, drawn.</summary>
    public string Draw(RunOverFillChart chart, ChartSize size) =>
        _whole.GetOrAdd((chart.Id, size), static (key, c) => RunOverFillDrawing.Draw(c, key.Size), chart);
}
