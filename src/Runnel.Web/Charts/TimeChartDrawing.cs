using System.Globalization;
using NodaTime;
using Runnel.Web.Words;

namespace Runnel.Web.Charts;

/// <summary>Draws a <see cref="TimeChart"/> over a range in one size.</summary>
public sealed class TimeChartDrawing
{
    private const double LeftPx = 52, TopPx = 26, LanePx = 24, AxisRowPx = 19;

    private readonly TimeChart _chart;
    private readonly ChartSize _size;
    private readonly Interval _range;
    private readonly SvgWriter _svg = new();
    private readonly RoundSteps _values;
    private readonly LinearScale _x, _y;
    private readonly string _id;
    private readonly IReadOnlyList<TimeStep> _steps;
    private readonly IReadOnlyList<TimeLayer> _layers;
    private readonly string _valueName;

    private TimeChartDrawing(TimeChart chart, ChartSize size, Interval range)
    {
        _chart = chart;
        _size = size;
        _range = range;
        _id = $"{chart.Id}-{size.Name}";
        _x = new(range.Start.ToUnixTimeMilliseconds(), range.End.ToUnixTimeMilliseconds(), LeftPx, size.WidthPx - 4);
        (_valueName, _layers) = chart.Close is { } close && range.Duration <= CloseView.Longest
            ? (close.ValueName, close.Layers) : (chart.ValueName, chart.Layers);
        _values = ValueSteps(chart.ZeroShown, _layers);
        (double lowPx, double highPx) = (TopPx + size.PlotHeightPx, TopPx);
        _y = new(_values.Low, _values.High, chart.Downward ? highPx : lowPx, chart.Downward ? lowPx : highPx);
        _steps = TimeSteps.Within(range, chart.Zone, Math.Max(2, (int)((size.WidthPx - LeftPx) / size.LabelGapPx)));
    }

    private double BottomPx => TopPx + _size.PlotHeightPx;

    /// <summary>The drawing as SVG text.</summary>
    public static string Draw(TimeChart chart, ChartSize size, Interval? range = null) =>
        new TimeChartDrawing(chart, size, range ?? chart.Whole).Draw();

    private static RoundSteps ValueSteps(bool zeroShown, IReadOnlyList<TimeLayer> layers)
    {
        double low = zeroShown ? 0 : double.PositiveInfinity, high = zeroShown ? 0 : double.NegativeInfinity;
        foreach ((double from, double to) in layers.SelectMany(LayerExtent.Of))
        {
            low = Math.Min(low, Math.Min(from, to));
            high = Math.Max(high, Math.Max(from, to));
        }

        return RoundSteps.Covering(low, high);
    }

    private string Draw()
    {
        bool twoRows = _steps.Any(s => s.Day is not null);
        double axisY = BottomPx + (_chart.Lanes.Count * LanePx);
        double height = axisY + AxisRowPx + (twoRows ? AxisRowPx : 0) + 4;
        string data = string.Create(CultureInfo.InvariantCulture,
            $" data-left=\"{_x.AtLowPx}\" data-right=\"{_x.AtHighPx}\" data-from=\"{_x.Low}\" data-to=\"{_x.High}\" data-words=\"{Stretch.InWords(_range, _chart.Zone)}\"");
        _svg.Open(_id, "ch " + _size.Name, _size.WidthPx, height, _chart.Title, _chart.Description, data);
        Clip("c", TopPx - 3, BottomPx + 3);
        Clip("l", BottomPx, axisY);

        DrawGaps(axisY);
        DrawValueAxis();
        OpenMoving("c");
        var layers = new LayerDrawing(_svg, _x, _y, _range, _chart.Zone, _size);
        foreach (TimeLayer layer in _layers) layers.Draw(layer);
        _svg.Raw("</g></g>");
        OpenMoving("l");
        for (int i = 0; i < _chart.Lanes.Count; i++) layers.DrawLane(_chart.Lanes[i], BottomPx + (i * LanePx), LanePx);
        _svg.Raw("</g></g>");
        for (int i = 0; i < _chart.Lanes.Count; i++)
            _svg.Text("ax", LeftPx - 6, BottomPx + (i * LanePx) + 20, _chart.Lanes[i].Name, "end");
        DrawEvents();
        layers.DrawNames(_layers);
        DrawTimeAxis(axisY, twoRows);
        _svg.Raw("</svg>");
        return _svg.ToString();
    }

    private void Clip(string name, double top, double bottom) => _svg.Raw(
        $"<clipPath id=\"{_id}-{name}\"><rect x=\"{SvgWriter.N(_x.AtLowPx)}\" y=\"{SvgWriter.N(top)}\" width=\"{SvgWriter.N(_x.AtHighPx - _x.AtLowPx)}\" height=\"{SvgWriter.N(bottom - top)}\"/></clipPath>");

    /// <summary>What moves at once while a stretch is dragged, cut off at the plot's edges.</summary>
    private void OpenMoving(string clip) => _svg.Raw($"<g clip-path=\"url(#{_id}-{clip})\"><g class=\"move\">");

    private void DrawValueAxis()
    {
        _svg.Text("axn", 0, 13, _valueName);
        foreach (double value in _values.Values())
        {
            double y = _y.Px(value);
            bool zero = Math.Abs(value) < _values.Step / 1000;
            _svg.Line(zero && _chart.ZeroShown ? "zero" : "grid", LeftPx, y, _x.AtHighPx, y);
            _svg.Text("ax", LeftPx - 6, y + 5, zero && _chart.ZeroName is { } name ? name : Figures.Number(value, _values.Decimals), "end");
        }
    }

    private void DrawTimeAxis(double axisY, bool twoRows)
    {
        _svg.Line("base", LeftPx, axisY, _x.AtHighPx, axisY);
        double lastLabelEnd = double.NegativeInfinity, lastDayEnd = double.NegativeInfinity;
        foreach (TimeStep step in _steps)
        {
            double x = _x.Px(step.Time.ToUnixTimeMilliseconds());
            _svg.Line("tick", x, axisY, x, axisY + 5);
            double half = TextWidth(step.Label) / 2;
            if (x - half > lastLabelEnd + 8 && x + half <= _size.WidthPx)
            {
                _svg.Text("ax", x, axisY + AxisRowPx, step.Label, "middle");
                lastLabelEnd = x + half;
            }

            if (!twoRows || step.Day is null) continue;
            double dayStart = Math.Max(LeftPx - 8, x - half), dayWidth = TextWidth(step.Day);
            if (dayStart < lastDayEnd + 12 || dayStart + dayWidth > _size.WidthPx) continue;
            _svg.Text("ax b", dayStart, axisY + (2 * AxisRowPx), step.Day);
            lastDayEnd = dayStart + dayWidth;
        }
    }

    private void DrawGaps(double axisY)
    {
        double lastEnd = TextWidth(_valueName);
        foreach (Interval gap in _chart.Gaps)
        {
            Instant start = Instant.Max(gap.Start, _range.Start), end = Instant.Min(gap.End, _range.End);
            if (start >= end) continue;
            double x1 = _x.Px(start.ToUnixTimeMilliseconds()), x2 = _x.Px(end.ToUnixTimeMilliseconds());
            if (x2 - x1 >= 0.75) _svg.Rect("gap", x1, TopPx, x2 - x1, axisY - TopPx);
            if (gap.Duration <= Duration.FromHours(1)) continue;
            // Named above the plot, in the row of the axis name, where no line or bar can run through the words.
            string words = $"no readings, {Times.Span(gap.Duration)}";
            double width = TextWidth(words), middle = (x1 + x2) / 2, left = Math.Clamp(middle - (width / 2), LeftPx, _x.AtHighPx - width);
            if (left < lastEnd + 10) left = middle - 6;
            if (left < lastEnd + 10 || left + width > _size.WidthPx) continue;
            _svg.Line("tick", middle, TopPx - 8, middle, TopPx);
            _svg.Text("ax", left, 13, words);
            lastEnd = left + width;
        }
    }

    private void DrawEvents()
    {
        double lastEnd = double.NegativeInfinity;
        foreach (TimeEvent happened in _chart.Events.OrderBy(e => e.Time))
        {
            if (happened.Time < _range.Start || happened.Time > _range.End) continue;
            double x = _x.Px(happened.Time.ToUnixTimeMilliseconds()), width = TextWidth(happened.Words);
            _svg.Line("event", x, TopPx - 6, x, BottomPx);
            bool leftOf = x + 6 + width > _x.AtHighPx;
            double start = leftOf ? x - 6 - width : x + 6;
            if (start < lastEnd + 8) continue;
            _svg.Text("an", start, TopPx + 8, happened.Words);
            lastEnd = start + width;
        }
    }

    /// <summary>About how wide words are at 14 px: enough to keep labels apart.</summary>
    internal static double TextWidth(string words) => words.Length * 7.4;
}
