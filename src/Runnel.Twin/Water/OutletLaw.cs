using Runnel.Place;
using Runnel.Place.Water;
using Runnel.Science.Pipes;

namespace Runnel.Twin.Water;

/// <summary>What a vessel lets out by gravity at a level: the least of what its crest, its bore and its drain pipe let pass.</summary>
/// <remarks>
/// Crest and bore as <see cref="Standpipe"/> and <see cref="Orifice"/>; pipe as <see cref="PipeFlow"/> with half a velocity head lost at its entrance and one
/// at its end. Water never runs back up a drain.
/// </remarks>
internal sealed class OutletLaw
{
    private const double WeirCoefficient = 1.84, BoreCoefficient = 0.6, HoleCoefficient = 0.61;

    // Below this head (m) the root is rounded off, so that a vessel may run dry without its rate jumping.
    private const double RoundedBelowM = 0.001;

    private static readonly double RootOf2G = Math.Sqrt(2 * PipeFlow.GravityMPerS2);

    private readonly OutletKind kind;
    private readonly double heightM, weirFactor, boreFactor, floorM, endM;
    private readonly FlowTable? pipe;

    public OutletLaw(GravityOutlet outlet, double floorM)
    {
        kind = outlet.Kind;
        heightM = outlet.HeightM;
        this.floorM = floorM;
        double crest = kind == OutletKind.Weir ? outlet.DiameterM : Math.PI * outlet.DiameterM, area = Math.PI / 4 * outlet.DiameterM * outlet.DiameterM;
        weirFactor = WeirCoefficient * crest;
        boreFactor = (kind == OutletKind.Orifice ? HoleCoefficient : BoreCoefficient) * area * RootOf2G;
        if (outlet.Drain is not { EndM: { } end } drain) return;
        endM = end;
        pipe = Table(drain, 10);
    }

    /// <summary>Flow, m3/s.</summary>
    /// <param name="levelM">Level above the vessel's floor, m.</param>
    /// <param name="belowM">Level where the water goes, above the place's zero, m; NaN: falls freely.</param>
    /// <param name="siphons">Whether a siphon runs full.</param>
    public double FlowM3PerS(double levelM, double belowM, bool siphons)
    {
        double head = levelM - heightM, flow;
        if (kind == OutletKind.Orifice)
        {
            double over = belowM > floorM + heightM ? floorM + levelM - belowM : head;
            flow = boreFactor * Root(over);
        }
        else if (siphons)
        {
            flow = boreFactor * Root(levelM);
        }
        else
        {
            if (head <= 0) return 0;
            double weir = weirFactor * head * Math.Sqrt(head);
            flow = kind == OutletKind.Weir ? weir : Math.Min(weir, boreFactor * Root(head));
        }

        if (pipe is null || flow <= 0) return Math.Max(0, flow);
        double drop = floorM + levelM - (belowM > endM ? belowM : endM);
        return Math.Min(flow, pipe.At(drop));
    }

    /// <summary>The flow of a pipe against the head that drives it.</summary>
    public static FlowTable Table(WaterPipe pipe, double greatestHeadM)
    {
        double k = pipe.MinorK + 1.5, area = Math.PI / 4 * pipe.DiameterM * pipe.DiameterM;
        return new FlowTable(flow => PipeFlow.AtFlow(flow, pipe.LengthM, pipe.DiameterM, pipe.RoughnessMm, k).HeadLossM, greatestHeadM, 0.001 * area);
    }

    internal static double Root(double head)
    {
        if (head <= 0) return 0;
        if (head >= RoundedBelowM) return Math.Sqrt(head);
        double share = head / RoundedBelowM;
        return Math.Sqrt(RoundedBelowM) * share * (1.5 - (0.5 * share));
    }
}
