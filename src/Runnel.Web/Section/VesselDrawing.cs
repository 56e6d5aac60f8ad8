using Runnel.Place;
using Runnel.Web.Charts;

namespace Runnel.Web.Section;

/// <summary>One vessel: its water, what is in it, its walls.</summary>
internal sealed class VesselDrawing
{
    private readonly SvgWriter _svg;
    private readonly PlanVessel _vessel;
    private readonly string _id;
    private readonly double _left, _right, _floor, _rim;

    public VesselDrawing(SvgWriter svg, PlanVessel vessel, (double X, double WidthPx) at, Strip strip, string id)
    {
        (_svg, _vessel, _id) = (svg, vessel, id);
        (_left, _right, _floor, _rim) = (at.X, at.X + at.WidthPx, strip.Y(vessel.FloorM), strip.Y(vessel.RimM));
    }

    private double Width => _right - _left;

    private bool IsCone => _vessel.Kind == VesselKind.SolidsSeparator;

    private double ConeY => _floor - ((_floor - _rim) * 0.35);

    public void Water(WaterStanding? water)
    {
        double height = _floor - _rim, share;
        double whole = _vessel.RimM - _vessel.FloorM;
        if (water?.LevelM is { } level) share = Math.Clamp(SectionLabels.Shown(_vessel, level) / whole, 0, 1);
        else share = _vessel.OutletM is { } outlet ? Math.Clamp((outlet - _vessel.FloorM) / whole, 0.1, 0.95) : 0.6;
        if (share <= 0.005) return;
        double y = _floor - (share * height);
        bool known = water?.LevelM is not null;
        _svg.Raw(known ? "" : $"<g class=\"unknown\" fill=\"url(#{_id}-h)\">");
        _svg.Path(known ? "body" : "dim", Outline(y));
        if (!known) _svg.Raw("</g>");
        if (!known) return;
        _svg.Line(water!.IsStale || water.From == LevelFrom.Reckoned ? "surface about" : "surface", _left + 1, y, _right - 1, y);
        // The triangle that drawings use for a free surface.
        double x = _right - Math.Min(14, Width * 0.25);
        if (Width > 26) _svg.Path("free", new PathText().Move(x - 5, y - 8).Line(x + 5, y - 8).Line(x, y - 1).Close());
    }

    public void Walls(WaterStanding? water)
    {
        switch (_vessel.Kind)
        {
            case VesselKind.Biofilter:
            case VesselKind.MechanicalFilter:
                Rings();
                break;
            case VesselKind.MediaBed:
                Rings();
                Plants(_rim);
                break;
            case VesselKind.Trough:
                // Rafts float.
                Plants(SurfaceY(water));
                break;
            case VesselKind.RainTank:
                _svg.Path("wall", new PathText().Move(_left - 4, _rim).Line(_left + (Width / 2), _rim - 10).Line(_right + 4, _rim).Close());
                break;
        }

        var wall = new PathText().Move(_left, _rim);
        if (IsCone) wall.Line(_left, ConeY).Line(_left + (Width / 2), _floor).Line(_right, ConeY).Line(_right, _rim);
        else wall.Line(_left, _floor).Line(_right, _floor).Line(_right, _rim);
        _svg.Path("wall", wall);
        if (_vessel is { Outlet: OutletKind.Standpipe, OutletM: { } crest })
        {
            double x = _right - Math.Min(13, Width * 0.3), y = _floor - ((crest - _vessel.FloorM) / (_vessel.RimM - _vessel.FloorM) * (_floor - _rim));
            _svg.Path("thin", new PathText().Move(x - 3.5, y).Line(x - 3.5, _floor).Move(x + 3.5, y).Line(x + 3.5, _floor));
        }

        if (!_vessel.IsBroken) return;
        // A break: it is taller than drawn, and its water is drawn by share.
        double middle = _rim + ((_floor - _rim) * 0.22);
        foreach (double x in new[] { _left, _right })
        {
            _svg.Rect("gapmark", x - 4, middle - 3, 8, 6);
            _svg.Path("thin", new PathText().Move(x - 6, middle + 1).Line(x + 6, middle - 5).Move(x - 6, middle + 5).Line(x + 6, middle - 1));
        }
    }

    private PathText Outline(double y)
    {
        var path = new PathText();
        if (!IsCone) return path.Move(_left, y).Line(_right, y).Line(_right, _floor).Line(_left, _floor).Close();
        double middle = _left + (Width / 2);
        if (y < ConeY) return path.Move(_left, y).Line(_right, y).Line(_right, ConeY).Line(middle, _floor).Line(_left, ConeY).Close();
        double half = Width / 2 * (_floor - y) / Math.Max(_floor - ConeY, 0.1);
        return path.Move(middle - half, y).Line(middle + half, y).Line(middle, _floor).Close();
    }

    private void Rings()
    {
        double top = _floor - ((_floor - _rim) * 0.72), step = 13;
        int row = 0;
        for (double y = _floor - 7; y > top; y -= step * 0.8, row++)
        {
            for (double x = _left + 8 + (row % 2 * step / 2); x < _right - 5; x += step) _svg.Circle("media", x, y, 3.2);
        }
    }

    /// <summary>A few leaves over bed or water; they stand for a crop, not for its count.</summary>
    private double SurfaceY(WaterStanding? water) =>
        _floor - (Math.Clamp((water?.LevelM ?? _vessel.OutletM - _vessel.FloorM ?? 0) / (_vessel.RimM - _vessel.FloorM), 0, 1) * (_floor - _rim));

    private void Plants(double y)
    {
        double step = Math.Max(20, Width / Math.Max(1, Math.Floor(Width / 26)));
        for (double x = _left + (step / 2); x < _right - 5; x += step)
        {
            var leaf = new PathText();
            foreach (double lean in new[] { -7.0, -3.5, 0, 3.5, 7 }) leaf.Move(x, y).Line(x + (lean * 0.75), y - 8).Line(x + lean, y - 13 + Math.Abs(lean * 0.6));
            _svg.Path("leaf", leaf);
        }
    }
}
