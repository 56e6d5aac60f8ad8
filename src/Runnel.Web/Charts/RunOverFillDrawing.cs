using Runnel.Place.Findings;
using Runnel.Web.Words;

namespace Runnel.Web.Charts;

/// <summary>Draws a <see cref="RunOverFillChart"/> in one size.</summary>
public sealed class RunOverFillDrawing
{
    private const double LeftPx = 40, TopPx = 26;

    /// <summary>So many times the middle half of the single cycles, either way of their middle, is shown at most.</summary>
    private const double FenceSpreads = 6;

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
        (double low, double high) = Extent(chart, m => m.Fill, []);
        (_fills, _x) = Axis(low, high, LeftPx, _widthPx - 10);
        // The curve counts only where the plot shows it.
        BandPoint[] curve = [.. chart.Expected.Where(p => p.X >= _x.Low && p.X <= _x.High)];
        (low, high) = Extent(chart, m => m.Run, curve.Select(p => p.Value));
        (_runs, _y) = Axis(low, high, TopPx + _heightPx, TopPx);
    }

    /// <summary>The drawing as SVG text.</summary>
    public static string Draw(RunOverFillChart chart, ChartSize size) => new RunOverFillDrawing(chart, size).Draw(size);

    /// <summary>A little more than the data need, so that the clouds fill the plot; round ends only where too few round values lie inside.</summary>
    private static (RoundSteps Steps, LinearScale Scale) Axis(double low, double high, double atLowPx, double atHighPx)
    {
        RoundSteps steps = RoundSteps.Covering(low, high);
        double pad = Math.Max(0.04 * (high - low), 1e-6);
        if (steps.Within(low - pad, high + pad).Count() >= 3) return (steps, new(low - pad, high + pad, atLowPx, atHighPx));
        return (steps, new(steps.Low, steps.High, atLowPx, atHighPx));
    }

    /// <summary>
    /// The marks, the curve, and the middle 96 % of the single cycles. Of what was usual, a few days far off (a loop that stood still) must not
    /// press all the rest together; what a notice is about is shown wherever it lies.
    /// </summary>
    private static (double Low, double High) Extent(RunOverFillChart chart, Func<FillAndRun, double> of, IEnumerable<double> curve)
    {
        double[] single = [.. chart.Scatter.Select(of).Order()];
        IEnumerable<double> usual = chart.Before.Select(of).Concat(curve);
        if (single.Length > 0)
        {
            usual = usual.Append(single[single.Length / 50]).Append(single[^(1 + (single.Length / 50))]);
            double middle = single[single.Length / 2];
            double reach = Math.Max(FenceSpreads * (single[single.Length * 3 / 4] - single[single.Length / 4]), middle / 4);
            usual = usual.Select(v => Math.Clamp(v, middle - reach, middle + reach));
        }

        double[] values = [.. usual.Concat(chart.Since.Select(of)).Where(double.IsFinite).DefaultIfEmpty(0)];
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
        foreach (double run in _runs.Within(_y.Low, _y.High))
        {
            _svg.Line("grid", LeftPx, _y.Px(run), _widthPx - 10, _y.Px(run));
            _svg.Text("ax", LeftPx - 6, _y.Px(run) + 5, Figures.Number(run, _runs.Decimals), "end");
        }

        _svg.Line("base", LeftPx, bottom, _widthPx - 10, bottom);
        foreach (double fill in _fills.Within(_x.Low, _x.High))
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
        var places = new LabelPlaces(LeftPx + 4, TopPx, _widthPx - 4, TopPx + _heightPx - 2);
        foreach (FillAndRun m in _chart.Before.Concat(_chart.Since)) places.AddMark(_x.Px(m.Fill), _y.Px(m.Run));
        foreach (BandPoint p in _chart.Expected) places.AddMark(_x.Px(p.X), _y.Px(p.Value));
        if (_chart.Last is { } last && _chart.ExpectedAt(last.Fill) is { } expected)
        {
            double x = _x.Px(last.Fill), from = _y.Px(last.Run), to = _y.Px(expected.Value);
            int away = from > to ? 1 : -1; // down the page, or up
            if (Math.Abs(from - to) > 12)
            {
                _svg.Line("leader", x, from - (5 * away), x, to);
                places.AddStroke(x, from, x, to);
            }

            int decimals = Figures.DecimalsFor(expected.Value);
            Write("an b", $"last day {Figures.Number(last.Run, decimals)}", places, Around(x, from, away));
            Write("an", $"expected {Figures.Number(expected.Value, decimals)}", places, Around(x, to, -away));
        }

        NameCloud(_chart.Since, _chart.SinceName, places);
        NameCloud(_chart.Before, _chart.BeforeName, places);
    }

    /// <summary>Places beyond a point on one side of it, then further out and to its sides.</summary>
    private static IEnumerable<(double X, double Y)> Around(double x, double y, int away)
    {
        double baseLine = y + (away > 0 ? 20 : -10);
        for (int step = 0; step < 5; step++)
        {
            foreach (int side in (int[])[0, -1, 1, -2, 2]) yield return (x + (side * 34), baseLine + (step * 12 * away));
        }
    }

    /// <summary>Names a cloud of marks close to some of them, where there is room.</summary>
    private void NameCloud(IReadOnlyList<FillAndRun> cloud, string name, LabelPlaces places)
    {
        if (cloud.Count == 0 || name.Length == 0) return;
        double half = TimeChartDrawing.TextWidth(name) / 2;
        FillAndRun[] byFill = [.. cloud.OrderBy(m => m.Fill)];
        var near = new List<(double X, double Y)>();
        foreach (FillAndRun m in (FillAndRun[])[byFill[byFill.Length / 2], byFill[byFill.Length / 4], byFill[byFill.Length * 3 / 4], byFill[0], byFill[^1]])
        {
            (double x, double y) = (_x.Px(m.Fill), _y.Px(m.Run));
            for (int step = 0; step < 4; step++)
                near.AddRange([(x, y - 12 - (step * 10)), (x + half + 12 + (step * 10), y + 4), (x - half - 12 - (step * 10), y + 4), (x, y + 22 + (step * 10))]);
        }

        Write("an", name, places, near);
    }

    private void Write(string style, string words, LabelPlaces places, IEnumerable<(double X, double Y)> candidates)
    {
        (double x, double y) = places.Place(words, candidates);
        _svg.Text(style, x, y, words);
    }
}
