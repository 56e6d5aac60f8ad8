using Runnel.Place.Findings;
using Runnel.Web.Charts;

namespace Runnel.Web.Section;

/// <summary>Pipes: an ink outline, filled where water runs, with dashes that travel at a pace by flow; hollow at rest. Cut at the edges of strips, with match marks.</summary>
internal sealed class PipeDrawing(SvgWriter svg, SectionLayout layout, IReadOnlyList<Strip> strips, SectionStanding standing)
{
    private readonly List<(int Strip, bool AtRight, double Y, string Mark)> _marks = [];
    private int _letters;

    /// <summary>Pipes begin beside the heights, not under them.</summary>
    private double LeftPx => layout.LeftPx + 2;

    public void Draw(IReadOnlyList<Pipe> pipes)
    {
        // Hollow ones first: where two cross or meet, the one that runs is seen.
        foreach (Pipe pipe in pipes.OrderBy(p => Runs(p.Run) == true)) DrawPipe(pipe);
        foreach (var (strip, atRight, y, mark) in _marks.DistinctBy(m => (m.Strip, m.AtRight, Math.Round(m.Y))))
        {
            double x = atRight ? layout.Size.WidthPx - 9 : LeftPx + 7;
            svg.Circle("match", x, y, 8);
            svg.Text("ax b", x, y + 4.5, mark, "middle");
        }
    }

    internal static bool? Moves(PlanRun run, SectionStanding standing) => run.Kind == RunKind.Gravity
        ? standing.ReturnsFlow
        : standing.Running.TryGetValue(run.EquipmentId!, out bool on) ? on : null;

    private bool? Runs(PlanRun run) => Moves(run, standing);

    /// <summary>One step of pace for each doubling of flow from 5 L/min on.</summary>
    private int Pace() => standing.FlowLPerMin is { } flow and > 0 ? Math.Clamp((int)Math.Round(Math.Log2(flow / 5)), 0, 5) : 2;

    private void DrawPipe(Pipe pipe)
    {
        bool runs = Runs(pipe.Run) == true;
        List<(int Strip, PathText Path)> pieces = [];
        (double X, double Y, double Dx, double Dy, double Length) arrow = default;
        int at = StripOf(pipe.Corners[0].X);
        var path = new PathText().Move(Local(pipe.Corners[0].X, at), pipe.Corners[0].Height.Y(strips[at]));
        for (int i = 1; i < pipe.Corners.Count; i++)
        {
            PipeCorner from = pipe.Corners[i - 1], to = pipe.Corners[i];
            int end = StripOf(to.X);
            while (at != end)
            {
                bool right = end > at;
                // Level pieces alone reach from strip to strip.
                double y = to.Height.Y(strips[at]);
                path.Line(right ? layout.Size.WidthPx - 2 : LeftPx, y);
                int next = at + (right ? 1 : -1);
                string mark = MarkOf(at, right, y);
                double nextY = to.Height.Y(strips[next]);
                _marks.Add((next, !right, nextY, mark));
                pieces.Add((at, path));
                at = next;
                path = new PathText().Move(right ? LeftPx : layout.Size.WidthPx - 2, nextY);
            }

            double x1 = Local(from.X, at), y1 = from.Height.Y(strips[at]), x2 = Local(to.X, at), y2 = to.Height.Y(strips[at]);
            double length = Math.Abs(x2 - x1) + Math.Abs(y2 - y1);
            if (StripOf(from.X) == at && length > arrow.Length) arrow = (((x1 + x2) / 2), ((y1 + y2) / 2), Math.Sign(Math.Round(x2 - x1)), Math.Sign(Math.Round(y2 - y1)), length);
            path.Line(x2, y2);
        }

        pieces.Add((at, path));
        foreach (var (_, piece) in pieces)
        {
            svg.Path("pipe", piece);
            svg.Path(runs ? "run" : "rest", piece);
            if (runs) svg.Path($"flow f{Pace()}", piece);
        }

        if (arrow.Length > 34) Arrow(arrow.X, arrow.Y, arrow.Dx, arrow.Dx == 0 ? arrow.Dy : 0);
    }

    private string MarkOf(int strip, bool atRight, double y)
    {
        var known = _marks.FirstOrDefault(m => m.Strip == strip && m.AtRight == atRight && Math.Abs(m.Y - y) < 3);
        if (known.Mark is not null) return known.Mark;
        string mark = ((char)('A' + (_letters++ % 26))).ToString();
        _marks.Add((strip, atRight, y, mark));
        return mark;
    }

    private void Arrow(double x, double y, double dx, double dy) =>
        svg.Path("arrow", new PathText().Move(x + (dx * 7), y + (dy * 7)).Line(x - (dx * 4) + (dy * 4.5), y - (dy * 4) + (dx * 4.5)).Line(x - (dx * 4) - (dy * 4.5), y - (dy * 4) - (dx * 4.5)).Close());

    private int StripOf(double x) => Math.Clamp((int)(x / layout.Size.WidthPx), 0, strips.Count - 1);

    private double Local(double x, int strip) => x - (strip * layout.Size.WidthPx);
}
