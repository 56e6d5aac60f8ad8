using Runnel.Place.Water;
using Runnel.Science.Pipes;
using Runnel.Science.Pipes.Networks;

namespace Runnel.Twin.Water;

/// <summary>What a pump delivers to each of its ends at a lift: its curve against the real pipes.</summary>
/// <remarks>
/// With one end the crossing of <see cref="PumpCurve"/> and <see cref="PipeFlow"/>; where the pipe splits, the flows of <see cref="PipeNetwork"/>, solved once
/// for each of many water levels in the pump's vessel and joined smoothly. Ends of a split count as free or, where they lie deep, as at their own height.
/// </remarks>
internal sealed class PumpLaw
{
    private const int Levels = 64;

    private readonly PumpCurve curve;
    private readonly FlowTable? single;
    private readonly double steadyM3PerS, firstEndM;
    private readonly double[][] split = [];
    private readonly double lowM, stepM;

    public PumpLaw(WaterPump pump, double floorM, double greatestLevelM)
    {
        Ends = pump.Ends.Count;
        LineM3 = VolumeM3(pump.Main) + pump.Ends.Sum(e => VolumeM3(e.Branch));
        steadyM3PerS = pump.SteadyLPerMin / 60_000;
        if (pump.Curve.Count == 0) return;
        curve = pump.Curve is [var a, var b, var c]
            ? PumpCurve.ThroughPoints(a.HeadM, b.FlowLPerMin, b.HeadM, c.FlowLPerMin, c.HeadM) : PumpCurve.FromDesignPoint(pump.Curve[0].FlowLPerMin, pump.Curve[0].HeadM);
        firstEndM = pump.Ends[0].EndM!.Value;
        if (pump.Ends.Count == 1)
        {
            single = new FlowTable(flow => curve.ShutOffHeadM - curve.HeadM(flow * 60_000) + LossM(pump, flow), curve.ShutOffHeadM, curve.MostFlowLPerMin / 60_000 / 400);
            return;
        }

        (lowM, stepM) = (floorM, greatestLevelM / Levels);
        split = SolveSplit(pump);
    }

    /// <summary>Number of ends.</summary>
    public int Ends { get; }

    /// <summary>Water that the full line holds, m3.</summary>
    public double LineM3 { get; }

    /// <summary>Head without flow, m; 0 for a steady flow.</summary>
    public double ShutOffHeadM => curve.ShutOffHeadM;

    /// <summary>Flow to an end, m3/s.</summary>
    /// <param name="end">Its number.</param>
    /// <param name="levelM">Level in the pump's vessel above the place's zero, m.</param>
    /// <param name="overEndM">Level where the water goes, above the place's zero, m; counts where it is above the end.</param>
    public double FlowM3PerS(int end, double levelM, double overEndM)
    {
        if (single is not null)
        {
            double lift = (overEndM > firstEndM ? overEndM : firstEndM) - levelM;
            return single.At(curve.ShutOffHeadM - lift);
        }

        if (split.Length == 0) return steadyM3PerS / Ends;
        double[] flows = split[end];
        double at = Math.Clamp((levelM - lowM) / stepM, 0, Levels - 1e-9);
        int i = (int)at;
        double t = at - i;
        // Cubic through four neighbours: the flows change little from level to level.
        double p0 = flows[Math.Max(0, i - 1)], p1 = flows[i], p2 = flows[i + 1], p3 = flows[Math.Min(Levels, i + 2)];
        return p1 + (0.5 * t * (p2 - p0 + (t * ((2 * p0) - (5 * p1) + (4 * p2) - p3 + (t * ((3 * (p1 - p2)) + p3 - p0))))));
    }

    private static double LossM(WaterPump pump, double flow) => LossM(pump.Main, flow, 0) + LossM(pump.Ends[0].Branch, flow, 0) + ExitM(pump, flow);

    private static double LossM(WaterPipe? pipe, double flow, double k) =>
        pipe is null ? 0 : PipeFlow.AtFlow(flow, pipe.LengthM, pipe.DiameterM, pipe.RoughnessMm, pipe.MinorK + k).HeadLossM;

    // The velocity head at the end is lost.
    private static double ExitM(WaterPump pump, double flow)
    {
        if ((pump.Ends[0].Branch ?? pump.Main) is not { } last) return 0;
        double velocity = flow / (Math.PI / 4 * last.DiameterM * last.DiameterM);
        return velocity * velocity / (2 * PipeFlow.GravityMPerS2);
    }

    private double[][] SolveSplit(WaterPump pump)
    {
        List<NetworkNode> nodes = [new("water", 0), new("pump")];
        List<NetworkLink> links = [new NetworkPump("pump", "water", "pump", curve)];
        string junction = "pump";
        if (pump.Main is { } main)
        {
            nodes.Add(new("split"));
            links.Add(new NetworkPipe("main", "pump", "split", main.LengthM, main.DiameterM, main.RoughnessMm, main.MinorK));
            junction = "split";
        }

        for (int i = 0; i < pump.Ends.Count; i++)
        {
            nodes.Add(new($"end-{i}", pump.Ends[i].EndM!.Value));
            // A branch without a pipe of its own is a short stub of the main's bore.
            var pipe = pump.Ends[i].Branch ?? new WaterPipe(0.1, pump.Main?.DiameterM ?? 0.032, 0.007, 0, null);
            links.Add(new NetworkPipe($"branch-{i}", junction, $"end-{i}", pipe.LengthM, pipe.DiameterM, pipe.RoughnessMm, pipe.MinorK + 1, CheckValve: true));
        }

        var network = new PipeNetwork(nodes, links);
        double[][] flows = [.. pump.Ends.Select(_ => new double[Levels + 1])];
        int water = network.Node("water");
        for (int level = 0; level <= Levels; level++)
        {
            network.SetHead(water, lowM + (level * stepM));
            network.Solve();
            for (int i = 0; i < flows.Length; i++) flows[i][level] = Math.Max(0, network.FlowM3PerS(network.Link($"branch-{i}")));
        }

        return flows;
    }

    private static double VolumeM3(WaterPipe? pipe) => pipe is null ? 0 : Math.PI / 4 * pipe.DiameterM * pipe.DiameterM * pipe.LengthM;
}
