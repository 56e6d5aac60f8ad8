using Runnel.Web.Charts;
using Runnel.Web.Words;

namespace Runnel.Web.Section;

/// <summary>Pumps as the trade's circle and triangle, solid running and open at rest; valves as its bow-tie.</summary>
internal sealed class MoverDrawing(SvgWriter svg, SectionLayout layout, IReadOnlyList<Strip> strips, SectionStanding standing)
{
    public void Draw(IReadOnlyList<Pipe> pipes)
    {
        foreach (Pipe pipe in pipes.Where(p => p.Run.Kind == RunKind.Pump).DistinctBy(p => p.Run.EquipmentId))
        {
            PipeCorner start = pipe.Corners[0];
            var (x, y) = At(start);
            bool runs = PipeDrawing.Moves(pipe.Run, standing) == true;
            svg.Circle(runs ? "pump on" : "pump", x, y + 10, 11);
            svg.Path(runs ? "pumpmark on" : "pumpmark", new PathText().Move(x - 5.5, y + 14).Line(x + 5.5, y + 14).Line(x, y + 3).Close());
            Mark(pipe, x, y + 10);
        }

        foreach (Pipe pipe in pipes.Where(p => p.Valve is not null))
        {
            var (x, y) = At(pipe.Valve!.Value);
            bool open = PipeDrawing.Moves(pipe.Run, standing) == true;
            svg.Path(open ? "valve on" : "valve", new PathText().Move(x - 8, y - 6).Line(x - 8, y + 6).Line(x + 8, y - 6).Line(x + 8, y + 6).Close());
            Mark(pipe, x, y);
        }
    }

    /// <summary>Air: a circle with a triangle to the side.</summary>
    public static void Air(SvgWriter svg, double x, double y, bool runs)
    {
        svg.Circle(runs ? "pump on" : "pump", x, y, 7.5);
        svg.Path(runs ? "pumpmark on" : "pumpmark", new PathText().Move(x - 2.5, y - 4).Line(x + 4.5, y).Line(x - 2.5, y + 4).Close());
    }

    private void Mark(Pipe pipe, double x, double y)
    {
        if (standing.Trouble is not { } trouble || !trouble.PartIds.Contains(pipe.Run.EquipmentId!)) return;
        svg.Path("bracket " + Urgencies.Rule(trouble.Urgency), new PathText().Move(x - 15, y + 11).Line(x - 15, y + 16).Line(x + 15, y + 16).Line(x + 15, y + 11));
    }

    private (double X, double Y) At(PipeCorner corner)
    {
        int strip = Math.Clamp((int)(corner.X / layout.Size.WidthPx), 0, strips.Count - 1);
        return (corner.X - (strip * layout.Size.WidthPx), corner.Height.Y(strips[strip]));
    }
}
