using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Web.Charts;

/// <summary>Draws the layers of a time chart into its plot.</summary>
internal sealed class LayerDrawing(SvgWriter svg, LinearScale x, LinearScale y, Interval range, DateTimeZone zone, ChartSize size)
{
    public void Draw(TimeLayer layer)
    {
        switch (layer)
        {
            case BandLine line: DrawLine(line); break;
            case BandMarks marks: DrawMarks(marks); break;
            case DayBars bars: DrawBars(bars); break;
            case Dots dots: DrawDots(dots); break;
        }
    }

    public void DrawLane(PulseLane lane, double topPx, double heightPx)
    {
        var path = new PathText();
        foreach (WaterPulse pulse in lane.Pulses)
        {
            double start = Px(pulse.Start), width = Math.Max(2.5, Px(pulse.Start + pulse.Length) - start);
            if (start + width < x.AtLowPx || start > x.AtHighPx) continue;
            (double top, double bottom) = (topPx + 9, topPx + heightPx - 3);
            path.Move(start, top).Line(start + width, top).Line(start + width, bottom).Line(start, bottom).Close();
        }

        if (!path.IsEmpty) svg.Path(lane.Style, path);
    }

    /// <summary>Writes each named series' name at its end, over the line unless that would leave the plot.</summary>
    public void DrawNames(IReadOnlyList<TimeLayer> layers)
    {
        foreach (TimeLayer line in layers.Where(l => l.Name.Length > 0))
        {
            IReadOnlyList<TimeBand> points = line switch { BandLine l => l.Points, Dots d => d.Points, _ => [] };
            TimeBand[] seen = [.. points.Where(p => Seen(p.Time) && double.IsFinite(p.Value))];
            if (seen.Length == 0) continue;
            // Above the highest of the last stretch, so that the name does not lie on its own line.
            double nameWidth = TimeChartDrawing.TextWidth(line.Name);
            double top = seen.Where(p => Px(p.Time) > x.AtHighPx - nameWidth - 20).Append(seen[^1]).Min(p => y.Px(p.Value));
            top = Math.Max(top, Math.Min(y.AtLowPx, y.AtHighPx) + 22);
            svg.Text("an b", x.AtHighPx - 4, top - 9, line.Name, "end");
        }
    }

    private bool Seen(Instant time) => time >= range.Start && time <= range.End;

    private double Px(Instant time) => x.Px(time.ToUnixTimeMilliseconds());

    private void DrawLine(BandLine line)
    {
        foreach (IReadOnlyList<TimeBand> piece in LinePieces.Of(line.Points, line.Longest, range, size.WidthPx))
        {
            DrawBand(piece);
            if (piece.Count == 1)
            {
                svg.Circle(line.Style + " dot", Px(piece[0].Time), y.Px(piece[0].Value), 2);
                continue;
            }

            var path = new PathText();
            for (int i = 0; i < piece.Count; i++) AddPoint(path, i == 0, piece[i].Time, piece[i].Value);
            svg.Path(line.Style, path);
        }
    }

    private void DrawDots(Dots dots)
    {
        var path = new PathText();
        // A line of no length with round ends is the shortest way to write a dot.
        foreach (TimeBand p in dots.Points.Where(p => Seen(p.Time))) path.Move(Px(p.Time), y.Px(p.Value)).Line(Px(p.Time), y.Px(p.Value));
        if (!path.IsEmpty) svg.Path(dots.Style, path);
    }

    private void DrawBand(IReadOnlyList<TimeBand> piece)
    {
        if (piece.All(p => p.High == p.Low)) return;
        var band = new PathText();
        for (int i = 0; i < piece.Count; i++) AddPoint(band, i == 0, piece[i].Time, piece[i].High);
        for (int i = piece.Count - 1; i >= 0; i--) AddPoint(band, false, piece[i].Time, piece[i].Low);
        svg.Path("band", band.Close());
    }

    private void AddPoint(PathText path, bool first, Instant time, double value)
    {
        // Far outside the plot a coordinate says nothing more, and huge ones upset some viewers.
        double py = Math.Clamp(y.Px(value), -2000, 4000);
        if (first) path.Move(Px(time), py);
        else path.Line(Px(time), py);
    }

    private void DrawMarks(BandMarks marks)
    {
        TimeBand[] seen = [.. marks.Points.Where(p => Seen(p.Time) && double.IsFinite(p.Value))];
        var whiskers = new PathText();
        foreach (TimeBand p in seen) whiskers.Move(Px(p.Time), y.Px(p.Low)).Line(Px(p.Time), y.Px(p.High));
        if (!whiskers.IsEmpty) svg.Path("whisker", whiskers);
        foreach (TimeBand p in seen)
        {
            if (marks.MarkedFrom is { } from && p.Time >= from) svg.Rect("since " + marks.Style, Px(p.Time) - 3, y.Px(p.Value) - 3, 6, 6);
            else svg.Circle("before", Px(p.Time), y.Px(p.Value), 2.6);
        }
    }

    private void DrawBars(DayBars bars)
    {
        foreach (DayBar bar in bars.Bars)
        {
            if (bar.From == bar.To) continue;
            Instant start = zone.AtStartOfDay(bar.Date).ToInstant(), end = zone.AtStartOfDay(bar.Date.PlusDays(1)).ToInstant();
            if (end <= range.Start || start >= range.End) continue;
            double left = Px(start), right = Px(end), inset = Math.Min(4, (right - left) * 0.14);
            double top = Math.Min(y.Px(bar.From), y.Px(bar.To)), bottom = Math.Max(y.Px(bar.From), y.Px(bar.To));
            svg.Rect(bars.Style, left + inset, top, right - left - (2 * inset), bottom - top);
        }
    }
}
