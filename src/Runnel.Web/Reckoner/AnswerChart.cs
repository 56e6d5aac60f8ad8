using Runnel.Science.Reckoning;
using Runnel.Web.Charts;
using Runnel.Web.Words;

namespace Runnel.Web.Reckoner;

/// <summary>How an answer moves with one input, drawn on the server.</summary>
public sealed class AnswerChart
{
    private const double TopPx = 28, RightPx = 14;
    private const int Steps = 80;

    private readonly AskedSum _asked;
    private readonly Input _along;
    private readonly Output _output;
    private readonly UnitChoice _unit;
    private readonly (double X, double Y)[] _points;

    private AnswerChart(AskedSum asked, Input along, (double X, double Y)[] points)
    {
        _asked = asked;
        _along = along;
        _points = points;
        _output = asked.Relation.MainOutput;
        _unit = asked.UnitOf(along) ?? new UnitChoice(along.Unit, 1);
    }

    /// <summary>Name of the value axis, in words.</summary>
    public string Title => $"{_output.Words}, by {Short(_along.Words)}";

    /// <summary>The chart of an answer; null where none would say anything.</summary>
    public static AnswerChart? Of(AskedSum asked)
    {
        if (asked.Answer is not { } answer || asked.Relation.Along is not { } name || !answer.Given.Has(name)) return null;
        Input along = asked.Relation.Find(name)!;
        double here = answer.Given[name];
        (double from, double to) = asked.Relation.Shown ?? (along.Least, along.Greatest);
        // The figure given lies in the picture, with some room beyond it.
        if (here < from) from = Math.Max(along.Least, here - (0.1 * (to - here)));
        if (here > to) to = Math.Min(along.Greatest, here + (0.1 * (here - from)));
        UnitChoice unit = asked.UnitOf(along) ?? new UnitChoice(along.Unit, 1);
        string main = asked.Relation.MainOutput.Name;
        var points = new (double X, double Y)[Steps + 1];
        for (int i = 0; i <= Steps; i++)
        {
            double x = from + ((to - from) * i / Steps);
            points[i] = (AskedSum.Shown(x, unit), asked.Relation.Solve(answer.Given.With(name, x)).Answer?[main] ?? double.NaN);
        }

        double[] drawn = [.. points.Select(p => p.Y).Where(double.IsFinite)];
        return drawn.Length < 10 || drawn.Max() - drawn.Min() < 1e-9 ? null : new AnswerChart(asked, along, points);
    }

    /// <summary>The drawing as SVG text.</summary>
    public string Draw(ChartSize size)
    {
        double widthPx = size == ChartSize.Phone ? 358 : 560, plotPx = size == ChartSize.Phone ? 190 : 230;
        double[] drawn = [.. _points.Select(p => p.Y).Where(double.IsFinite)];
        RoundSteps values = RoundSteps.Covering(Math.Min(0, drawn.Min()) == 0 && drawn.Min() < 0.4 * drawn.Max() ? 0 : drawn.Min(), drawn.Max());
        double left = 12 + values.Values().Max(v => TimeChartDrawing.TextWidth(Figures.Number(v, values.Decimals)));
        double bottom = TopPx + plotPx;
        LinearScale x = new(_points[0].X, _points[^1].X, left, widthPx - RightPx), y = new(values.Low, values.High, bottom, TopPx);

        var svg = new SvgWriter();
        string id = $"move-{size.Name}";
        svg.Open(id, "ch ev " + size.Name, widthPx, bottom + 44, Title, Description());
        svg.Text("axn", 0, 13, Named(_output.Words, _output.Unit, size == ChartSize.Phone ? 44 : 74));
        foreach (double value in values.Values())
        {
            svg.Line("grid", left, y.Px(value), widthPx - RightPx, y.Px(value));
            svg.Text("ax", left - 6, y.Px(value) + 5, Figures.Number(value, values.Decimals), "end");
        }

        svg.Line("base", left, bottom, widthPx - RightPx, bottom);
        RoundSteps marks = RoundSteps.Covering(_points[0].X, _points[^1].X);
        foreach (double mark in marks.Within(_points[0].X - 1e-12, _points[^1].X + 1e-12))
        {
            svg.Line("tick", x.Px(mark), bottom, x.Px(mark), bottom + 5);
            svg.Text("ax", x.Px(mark), bottom + 20, Figures.Number(mark, marks.Decimals), x.Px(mark) > widthPx - 26 ? "end" : "middle");
        }

        svg.Text("axn", widthPx - RightPx, bottom + 40, Named(Short(_along.Words), _unit.Symbol, 48), "end");
        DrawLine(svg, x, y);
        DrawHere(svg, x, y, left, widthPx);
        svg.Raw("</svg>");
        return svg.ToString();
    }

    private void DrawLine(SvgWriter svg, LinearScale x, LinearScale y)
    {
        var line = new PathText();
        bool apart = true;
        foreach ((double at, double value) in _points)
        {
            if (double.IsFinite(value)) _ = apart ? line.Move(x.Px(at), y.Px(value)) : line.Line(x.Px(at), y.Px(value));
            apart = !double.IsFinite(value);
        }

        svg.Path("trace", line);
    }

    private void DrawHere(SvgWriter svg, LinearScale x, LinearScale y, double left, double widthPx)
    {
        double here = AskedSum.Shown(_asked.Answer!.Given[_along.Name], _unit), value = _asked.Answer[_output.Name];
        if (!double.IsFinite(value)) return;
        double px = x.Px(here), py = y.Px(value);
        svg.Circle("trace", px, py, 5);
        string words = Figure.Say(value, _output.Unit);
        double width = TimeChartDrawing.TextWidth(words) + 6;
        // Away from the side to which the line climbs.
        int at = Array.FindIndex(_points, p => p.X >= here);
        bool climbs = at < 0 || _points[Math.Min(Steps, at + 3)].Y >= _points[Math.Max(0, at - 3)].Y;
        bool toLeft = climbs ? px - 10 - width > left : px + 10 + width > widthPx - RightPx;
        double y0 = py > TopPx + 26 ? py - 10 : py + 24;
        svg.Text("an b", toLeft ? px - 8 : px + 8, y0, words, toLeft ? "end" : "start");
    }

    private string Description() =>
        $"From {Figure.Say(_points[0].X, _unit.Symbol)} to {Figure.Say(_points[^1].X, _unit.Symbol)} it goes from {Figure.Say(_points[0].Y, _output.Unit)} to {Figure.Say(_points[^1].Y, _output.Unit)}.";

    private static string Short(string words) => words.Split(" (")[0].Split(": ")[0].Split(", ")[0];

    private static string Named(string words, string unit, int most)
    {
        string bare = Short(words), tail = unit is "1" or "" ? "" : ", " + Figure.Pretty(unit);
        return bare.Length + tail.Length <= most ? bare + tail : string.Concat(bare.AsSpan(0, Math.Max(8, most - tail.Length - 1)).TrimEnd(), "…", tail);
    }
}
