using System.Text.RegularExpressions;
using System.Xml.Linq;
using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Charts;
using Runnel.Web.Findings;
using Runnel.Web.Report;

namespace Runnel.Browser.Tests.Charts;

public sealed partial class TimeChartDrawingTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 2, 1, 0, 0);

    [Fact]
    public void A_missing_stretch_is_never_bridged_by_a_line()
    {
        TimeBand[] points = [.. Enumerable.Range(0, 240).Where(h => h is < 100 or > 130).Select(h => new TimeBand(Start + Duration.FromHours(h), h % 24, (h % 24) - 1, (h % 24) + 1))];
        Assert.Equal(2, TracePath().Count(Draw(points)));
        Assert.Equal(1, TracePath().Count(Draw([.. points.Take(100)])));
    }

    [Fact]
    public void A_value_that_is_no_number_is_a_gap()
    {
        TimeBand[] points = [.. Enumerable.Range(0, 48).Select(h => new TimeBand(Start + Duration.FromHours(h), h == 20 ? double.NaN : 3, 2, 4))];
        string svg = Draw(points);
        Assert.Equal(2, TracePath().Count(svg));
        Assert.DoesNotContain("NaN", svg, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_chart_of_a_diagnosis_is_well_formed_names_itself_and_its_unit()
    {
        Diagnosis found = MadeUpFindings.FoulingDrains();
        foreach (TimeChart chart in new FindingsDrawings(found).TimeCharts)
        {
            foreach (ChartSize size in (ChartSize[])[ChartSize.Phone, ChartSize.Wide])
            {
                XElement svg = XDocument.Parse(TimeChartDrawing.Draw(chart, size)).Root!;
                XNamespace space = svg.Name.Namespace;
                Assert.Equal(chart.Title, svg.Element(space + "title")!.Value);
                Assert.NotEmpty(svg.Element(space + "desc")!.Value);
                Assert.Contains(svg.Elements(space + "text"), t => t.Value == chart.ValueName);
                Assert.Matches("L|%|min|mm", chart.ValueName);
            }
        }
    }

    [Fact]
    public void From_close_by_every_cycle_is_drawn()
    {
        Diagnosis found = MadeUpFindings.FoulingDrains();
        TimeChart cycles = new FindingsDrawings(found).Find("cycles")!;
        var day = new Interval(found.From + Duration.FromDays(10), found.From + Duration.FromDays(11));
        string svg = TimeChartDrawing.Draw(cycles, ChartSize.Wide, day);
        int expected = found.Evidence.Cycles.Count(c => c.Start >= day.Start && c.Start <= day.End);
        string fills = FillDots().Match(svg).Groups[1].Value;
        Assert.Equal(expected, fills.Count(c => c == 'M'));
        Assert.Contains("each cycle, min", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("each cycle", TimeChartDrawing.Draw(cycles, ChartSize.Wide), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void A_log_that_shows_almost_nothing_still_gives_a_report(int points)
    {
        Diagnosis full = MadeUpFindings.Quiet();
        Diagnosis sparse = full with
        {
            To = full.From,
            Kit = [],
            Cycles = new(0, null, null, []),
            Ledger = [.. full.Ledger.Take(points)],
            Estimates = [],
            Notices = [],
            OwnRule = null,
            Remarks = [],
            Evidence = new()
            {
                Cycles = [.. full.Evidence.Cycles.Take(points)],
                RunOverFill = [.. full.Evidence.RunOverFill.Take(points)],
                LitresShort = [.. full.Evidence.LitresShort.Take(points)],
                RunDeparturePercent = [.. full.Evidence.RunDeparturePercent.Take(points)],
                LevelMm = [],
                Pulses = [.. full.Evidence.Pulses.Take(points)],
                Gaps = [],
            },
        };
        string html = HtmlReport.Render(sparse);
        Assert.Contains("</html>", html, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", html, StringComparison.Ordinal);
    }

    private static string Draw(TimeBand[] points) => TimeChartDrawing.Draw(new()
    {
        Id = "test",
        Title = "Test",
        Description = "Test.",
        ValueName = "value, L",
        Whole = new(points[0].Time, points[^1].Time),
        Zone = DateTimeZone.Utc,
        Layers = [new BandLine("", "trace", points, Duration.FromHours(3))],
        Table = new([], []),
    }, ChartSize.Wide);

    [GeneratedRegex("<path class=\"each wet\" d=\"([^\"]*)\"")]
    private static partial Regex FillDots();

    [GeneratedRegex("<path class=\"trace\"")]
    private static partial Regex TracePath();
}
