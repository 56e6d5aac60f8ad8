using Runnel.Place;

namespace Runnel.Web.Section;

/// <summary>A height on the paper that is known only when the strip is: metres above the lowest floor, or a lane of pipes.</summary>
internal readonly record struct PipeHeight(double HeightM, double DownPx, int? Header = null)
{
    public double Y(Strip strip) => Header is { } lane ? strip.HeaderPx + (lane * SectionLayout.HeaderStepPx) : strip.Y(HeightM) + DownPx;
}

/// <summary>A corner of a pipe: along the way in px, and its height.</summary>
internal readonly record struct PipeCorner(double X, PipeHeight Height);

/// <summary>A pipe as a line of upright and level pieces, from where its water comes.</summary>
internal sealed record Pipe(PlanRun Run, IReadOnlyList<PipeCorner> Corners)
{
    /// <summary>Where a valve stands in it, or null.</summary>
    public PipeCorner? Valve { get; init; }
}

/// <summary>Finds ways for the pipes: beside the vessels, in lanes below them and over them.</summary>
internal sealed class PipeRoutes
{
    private readonly SectionLayout _layout;
    private readonly SectionPlan _plan;
    private readonly List<Pipe> _pipes = [];

    private PipeRoutes(SectionLayout layout) => (_layout, _plan) = (layout, layout.Plan);

    /// <summary>How far the lowest pipe lies below the lowest floor, px.</summary>
    public double BelowPx(double pxPerM) => Math.Max(0, _pipes.SelectMany(p => p.Corners).Where(c => c.Height.Header is null).Select(c => c.Height.DownPx - (c.Height.HeightM * pxPerM)).DefaultIfEmpty(0).Max());

    public IReadOnlyList<Pipe> Pipes => _pipes;

    public static PipeRoutes Of(SectionLayout layout)
    {
        var routes = new PipeRoutes(layout);
        int lane = 0, header = 0, topUp = 0;
        foreach (var meeting in layout.Plan.Runs.Where(r => r.Kind == RunKind.Gravity).GroupBy(r => r.To[0]))
        {
            PlanRun[] runs = [.. meeting];
            if (runs.Length == 1 && runs[0].From + 1 == meeting.Key) routes.AddNext(runs[0]);
            else routes.AddCollected(runs, meeting.Key, lane++);
        }

        foreach (PlanRun run in layout.Plan.Runs.Where(r => r.Kind == RunKind.Pump && r.To.Count > 0)) routes.AddPumped(run, header++);
        foreach (PlanRun run in layout.Plan.Runs.Where(r => r.Kind == RunKind.TopUp)) routes.AddTopUp(run, topUp++);
        return routes;
    }

    public static double PumpX(Slot sump) => sump.LeftPx + (sump.WidthPx * 0.7);

    private static bool LeavesByFloor(PlanVessel v) => v.Outlet is OutletKind.Standpipe or OutletKind.Siphon;

    /// <summary>Into the next vessel through the room between them.</summary>
    private void AddNext(PlanRun run)
    {
        PlanVessel from = _plan.Vessels[run.From];
        double x = _layout.GapPx(run.From, behind: true);
        List<PipeCorner> corners = Leave(run.From, x);
        corners.AddRange(Enter(run.To[0], x, from.OutletM ?? from.RimM, LeavesByFloor(from) ? from.FloorM : from.OutletM ?? from.RimM, fromLeft: true));
        _pipes.Add(new(run, corners));
    }

    /// <summary>Several drains, or one past other vessels, in a lane below them.</summary>
    private void AddCollected(PlanRun[] runs, int to, int lane)
    {
        foreach (PlanRun run in runs)
        {
            PlanVessel from = _plan.Vessels[run.From];
            bool goesRight = run.From < to;
            int low = runs.Select(r => r.From).Append(to).Min(), high = runs.Select(r => r.From).Append(to).Max();
            double floor = Enumerable.Range(low, high - low + 1).Where(i => i != to).Select(i => _plan.Vessels[i].FloorM).DefaultIfEmpty(0).Min();
            var below = new PipeHeight(floor, 13 + (lane * SectionLayout.LaneStepPx));
            double drop = LeavesByFloor(from) ? StandpipeX(run.From) : _layout.GapPx(run.From, behind: true);
            double rise = _layout.GapPx(to, behind: !goesRight, shiftPx: goesRight ? -(lane % 2) * 5 : (lane % 2) * 5);
            List<PipeCorner> corners = Leave(run.From, drop);
            if (LeavesByFloor(from)) corners.RemoveAt(corners.Count - 1);
            corners.Add(new(drop, below));
            corners.Add(new(rise, below));
            double crest = runs.Min(r => _plan.Vessels[r.From].OutletM ?? _plan.Vessels[r.From].RimM);
            corners.AddRange(Enter(to, rise, crest, floor, goesRight));
            _pipes.Add(new(run, corners));
        }
    }

    private double StandpipeX(int vessel) => _layout.Slots[vessel].RightPx - Math.Min(13, _layout.Slots[vessel].WidthPx * 0.3);

    /// <summary>Out of a vessel, to a place in the room beside it; the last corner is at that place.</summary>
    private List<PipeCorner> Leave(int vessel, double x)
    {
        PlanVessel v = _plan.Vessels[vessel];
        if (!LeavesByFloor(v))
        {
            var at = new PipeHeight(v.OutletM ?? v.FloorM, v.OutletM is null ? -10 : 3);
            return [new(_layout.Slots[vessel].RightPx, at), new(x, at)];
        }

        double down = StandpipeX(vessel);
        var below = new PipeHeight(v.FloorM, 10);
        List<PipeCorner> corners = [new(down, new(v.OutletM ?? v.RimM, 0)), new(down, below)];
        if (x != down) corners.Add(new(x, below));
        return corners;
    }

    /// <summary>Into a vessel: over its rim where the water comes from higher, else through its wall.</summary>
    private IEnumerable<PipeCorner> Enter(int vessel, double x, double crestM, double leavesAtM, bool fromLeft)
    {
        PlanVessel v = _plan.Vessels[vessel];
        Slot slot = _layout.Slots[vessel];
        double inside = Math.Min(11, slot.WidthPx * 0.25), into = fromLeft ? slot.LeftPx + inside : slot.RightPx - inside;
        bool fallsIn = crestM >= v.RimM + 0.005;
        if (fallsIn)
        {
            var over = new PipeHeight(v.RimM, -10);
            return [new(x, over), new(into, over), new(into, new(v.RimM, 5))];
        }

        // Through the wall: at the height it comes from, as far as that lies within the wall.
        double least = v.FloorM + (0.15 * (v.RimM - v.FloorM)), most = v.RimM - (0.1 * (v.RimM - v.FloorM));
        double height = Math.Clamp(leavesAtM > least && leavesAtM < most ? leavesAtM : crestM, least, most);
        var wall = new PipeHeight(height, 0);
        return [new(x, wall), new(fromLeft ? slot.LeftPx + 2 : slot.RightPx - 2, wall)];
    }

    /// <summary>From the pump up, along over everything, and down into each vessel that it feeds.</summary>
    private void AddPumped(PlanRun run, int header)
    {
        Slot sump = _layout.Slots[run.From];
        PlanVessel from = _plan.Vessels[run.From];
        double x = PumpX(sump) - (header * 14);
        var lane = new PipeHeight(0, 0, header);
        foreach (int end in run.To.OrderByDescending(e => e))
        {
            Slot slot = _layout.Slots[end];
            double down = slot.LeftPx + (slot.WidthPx * (slot.WidthPx > 60 ? 0.3 : 0.5)) + (header * 10);
            _pipes.Add(new(run, [new(x, new(from.FloorM, -24)), new(x, lane), new(down, lane), new(down, new(_plan.Vessels[end].RimM, 5))]));
        }
    }

    /// <summary>From its tank, or from outside, over the rim of what it fills, with its valve.</summary>
    private void AddTopUp(PlanRun run, int nth)
    {
        int to = run.To[0];
        Slot slot = _layout.Slots[to];
        PlanVessel filled = _plan.Vessels[to];
        double inside = slot.RightPx - Math.Min(10 + (nth * 7), slot.WidthPx * 0.3), x = slot.RightPx + 12 + (nth * 14);
        var over = new PipeHeight(filled.RimM, -12 - (nth * 14));
        PipeCorner[] enters = [new(x, over), new(inside, over), new(inside, new(filled.RimM, 5))];
        bool fromTank = run.From > to;
        double end = fromTank ? _layout.Slots[run.From].LeftPx : x + 30;
        PlanVessel? tank = fromTank ? _plan.Vessels[run.From] : null;
        var leaves = tank is null ? over : new PipeHeight(Math.Min(tank.FloorM + (0.08 * (tank.RimM - tank.FloorM)), tank.RimM), -4);
        List<PipeCorner> corners = tank is null ? [new(end, over)] : [new(end, leaves), new(x, leaves)];
        corners.AddRange(enters);
        _pipes.Add(new(run, corners) { Valve = new(tank is null ? x + 14 : Math.Max(x + 16, end - 20), leaves) });
    }
}
