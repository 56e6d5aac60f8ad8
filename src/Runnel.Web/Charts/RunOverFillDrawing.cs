using Runnel.Place.Findings;
using Runnel.Web.Words;

namespace Runnel.Web.Charts;

/// <summary>Draws a <see cref="RunOverFillChart"/> in one size.</summary>
public sealed class RunOverFillDrawing
{
    private const double LeftPx = 40, TopPx = 26;

    private readonly RunOverFillChart _chart;
    private readonly SvgWriter _svg = new();
    private readonly RoundSteps _fills, _runs;
    private readonly LinearScale _x, _y;
    private readonly double _widthPx, _heightPx;
    private readonly string _id;

    private RunOverFillDrawing(RunOverFillChart chart, ChartSize size)
    {
        _chart = chart;
        _id = $"{chart.Id}-{size.Name}";
        (_widthPx, _heightPx) = size == ChartSize.Phone ? (358, 236) : (420, 280);
        FillAndRun[] marks = [.. chart.Before.Concat(chart.Since)];
        (double low, double high) = Extent(marks.Select(m => m.Fill), chart.Scatter.Select(c => c.Fill));
        _fills = RoundSteps.Covering(low, high);
        // The curve counts only where the plot shows it.
        BandPoint[] curve = [.. chart.Expected.Where(p => p.X >= _fills.Low && p.X <= _fills.High)];
        (low, high) = Extent(marks.Select(m => m.Run).Concat(curve.Select(p => p.Value)), chart.Scatter.Select(c => c.Run));
        _runs = RoundSteps.Covering(low, high);
        _x = new(_fills.Low, _fills.High, LeftPx, _widthPx - 10);
        _y = new(_runs.Low, _runs.High, TopPx + _heightPx, TopPx);
    }

    /// <summary>The drawing as SVG text.</summary>
    public static string Draw(RunOverFillChart chart, ChartSize size) => new RunOverFillDrawing(chart, size).Draw(size);

    /// <summary>All the marks, and the middle 96 % of the single cycles.</summary>
    private static (double Low, double High) Extent(IEnumerable<double> marks, IEnumerable<double> scatter)
    {
        double[] all = [.. scatter.Order()];
        IEnumerable<double> ends = all.Length == 0 ? marks : marks.Append(all[all.Length / 50]).Append(all[^(1 + (all.Length / 50))]);
        double[] values = [.. ends.Where(double.IsFinite).DefaultIfEmpty(0)];
        return (values.Min(), values.Max());
    }

    private string Draw(ChartSize size)
    {
        double bottom = TopPx + _heightPx;
        _svg.Open(_id, "ch ev " + size.Name, _widthPx, bottom + 44, _chart.Title, _chart.Description);
        _svg.Raw($"<clipPath id=\"{_id}-c\"><rect x=\"{SvgWriter.N(LeftPx)}\" y=\"{SvgWriter.N(TopPx - 6)}\" width=\"{SvgWriter.N(_widthPx - LeftPx)}\" height=\"{SvgWriter.N(_heightPx + 6)}\"/></clipPath>");
        DrawAxes(bottom);
        _svg.Raw($"<g clip-path=\"url(#{_id}-c)\">");
        DrawScatter();
        DrawExpected();
        foreach (FillAndRun m in _chart.Before) _svg.Circle("before", _x.Px(m.Fill), _y.Px(m.Run), 2.8);
        foreach (FillAndRun m in _chart.Since) _svg.Rect("since " + _chart.SinceStyle, _x.Px(m.Fill) - 3, _y.Px(m.Run) - 3, 6, 6);
        _svg.Raw("</g>");
        DrawWords();
        _svg.Raw("</svg>");
        return _svg.ToString();
    }

    private void DrawAxes(double bottom)
    {
        _svg.Text("axn", 0, 13, $"run time, {_chart.Unit}");
        foreach (double run in _runs.Values())
        {
            _svg.Line("grid", LeftPx, _y.Px(run), _widthPx - 10, _y.Px(run));
            _svg.Text("ax", LeftPx - 6, _y.Px(run) + 5, Figures.Number(run, _runs.Decimals), "end");
        }

        _svg.Line("base", LeftPx, bottom, _widthPx - 10, bottom);
        foreach (double fill in _fills.Values())
        {
            _svg.Line("tick", _x.Px(fill), bottom, _x.Px(fill), bottom + 5);
            _svg.Text("ax", _x.Px(fill), bottom + 20, Figures.Number(fill, _fills.Decimals), "middle");
        }

        _svg.Text("axn", _widthPx - 10, bottom + 39, $"fill time, {_chart.Unit}", "end");
    }

    private void DrawScatter()
    {
        var dots = new PathText();
        // A line of no length with round ends is the shortest way to write a dot.
        foreach (FillAndRun c in _chart.Scatter) dots.Move(_x.Px(c.Fill), _y.Px(c.Run)).Line(_x.Px(c.Fill), _y.Px(c.Run));
        if (!dots.IsEmpty) _svg.Path("scatter", dots);
    }

    private void DrawExpected()
    {
        if (_chart.Expected.Count < 2) return;
        PathText band = new(), line = new();
        for (int i = 0; i < _chart.Expected.Count; i++)
        {
            BandPoint p = _chart.Expected[i];
            _ = i == 0 ? band.Move(_x.Px(p.X), _y.Px(p.High)) : band.Line(_x.Px(p.X), _y.Px(p.High));
            _ = i == 0 ? line.Move(_x.Px(p.X), _y.Px(p.Value)) : line.Line(_x.Px(p.X), _y.Px(p.Value));
        }

        for (int i = _chart.Expected.Count - 1; i >= 0; i--) band.Line(_x.Px(_chart.Expected[i].X), _y.Px(_chart.Expected[i].Low));
        _svg.Path("band", band.Close());
        _svg.Path("trace", line);
    }

    private void DrawWords()
    {
        if (_chart.Last is { } last && _chart.ExpectedAt(last.Fill) is { } expected)
        {
            double x = _x.Px(last.Fill), from = _y.Px(last.Run), to = _y.Px(expected.Value);
            bool under = from > to;
            _svg.Line("leader", x, from + (under ? -5 : 5), x, to);
            int decimals = Figures.DecimalsFor(expected.Value);
            Beside($"expected {Figures.Number(expected.Value, decimals)}", "an", x, to + (under ? -14 : 24));
            Beside($"last day {Figures.Number(last.Run, decimals)}", "an b", x, from + (under ? 22 : -12));
        }

        NameCloud(_chart.Since, _chart.SinceName, below: true);
        NameCloud(_chart.Before, _chart.BeforeName, below: false);
    }

    private void Beside(string words, string style, double x, double y)
    {
        double half = TimeChartDrawing.TextWidth(words) / 2;
        _svg.Text(style, Math.Clamp(x, LeftPx + half, _widthPx - half), Math.Clamp(y, TopPx + 12, TopPx + _heightPx - 6), words, "middle");
    }

    /// <summary>Names a cloud of marks beside its middle, on the side away from the other cloud.</summary>
    private void NameCloud(IReadOnlyList<FillAndRun> cloud, string name, bool below)
    {
        if (cloud.Count == 0 || name.Length == 0) return;
        FillAndRun[] byFill = [.. cloud.OrderBy(m => m.Fill)];
        FillAndRun middle = byFill[byFill.Length / 2];
        double width = TimeChartDrawing.TextWidth(name), x = _x.Px(middle.Fill) + (below ? -14 - width : 16);
        double y = _y.Px(middle.Run) + (below ? 26 : -16);
        _svg.Text("an", Math.Clamp(x, LeftPx + 4, _widthPx - width - 4), Math.Clamp(y, TopPx + 12, TopPx + _heightPx - 8), name);
    }
}
