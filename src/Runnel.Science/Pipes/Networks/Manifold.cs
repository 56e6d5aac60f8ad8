namespace Runnel.Science.Pipes.Networks;

/// <summary>A pipe from a manifold to its own outlet.</summary>
/// <param name="OutletM">Height of the outlet (or of the water it ends under), m over the level that heads are counted from.</param>
/// <param name="LengthM">Length, m.</param>
/// <param name="DiameterM">Bore, m.</param>
/// <param name="RoughnessMm">Roughness, mm.</param>
/// <param name="MinorK">Sum of the fittings' K, with 1 for the outlet.</param>
public sealed record Branch(double OutletM, double LengthM, double DiameterM, double RoughnessMm, double MinorK);

/// <summary>What runs through a manifold.</summary>
/// <param name="Stop">Whether it was solved.</param>
/// <param name="HeadM">Head at the manifold, m.</param>
/// <param name="TotalM3PerS">Flow into it, m³/s.</param>
/// <param name="BranchesM3PerS">Flow of each branch, in the order given.</param>
public sealed record ManifoldFlow(NetworkStop Stop, double HeadM, double TotalM3PerS, IReadOnlyList<double> BranchesM3PerS);

/// <summary>Branches that part at one place, fed by a pump through a riser or by a tank. Each lets water out only.</summary>
/// <remarks>Solved as a <see cref="PipeNetwork"/>.</remarks>
public static class Manifold
{
    /// <summary>Fed by a pump from a sump at level 0.</summary>
    /// <param name="pump">Curve of the pump.</param>
    /// <param name="riser">Pipe from pump to manifold; its outlet height does not count.</param>
    /// <param name="branches">Branches, one or more.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s.</param>
    /// <exception cref="ArgumentException">A value is NaN or out of range, or a pipe has neither length nor fittings.</exception>
    public static ManifoldFlow FedByPump(PumpCurve pump, Branch riser, IReadOnlyList<Branch> branches, double viscosityM2PerS = 1.004e-6)
    {
        ArgumentNullException.ThrowIfNull(riser);
        ArgumentNullException.ThrowIfNull(branches);
        return Solve(
            [new("source", 0), new("outlet of the pump"), new("manifold")],
            [new NetworkPump("pump", "source", "outlet of the pump", pump), Pipe("riser", "outlet of the pump", "manifold", riser)],
            branches, "riser", viscosityM2PerS);
    }

    /// <summary>Fed by a tank at a known level.</summary>
    /// <param name="headM">Level of the tank, m.</param>
    /// <param name="branches">Branches, one or more.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s.</param>
    /// <exception cref="ArgumentException">A value is NaN or out of range, or a pipe has neither length nor fittings.</exception>
    public static ManifoldFlow FedByTank(double headM, IReadOnlyList<Branch> branches, double viscosityM2PerS = 1.004e-6)
    {
        ArgumentNullException.ThrowIfNull(branches);
        return Solve([new("manifold", headM)], [], branches, null, viscosityM2PerS);
    }

    private static ManifoldFlow Solve(List<NetworkNode> nodes, List<NetworkLink> links, IReadOnlyList<Branch> branches, string? feed, double viscosity)
    {
        if (branches.Count == 0) throw new ArgumentException("there are no branches", nameof(branches));
        for (int i = 0; i < branches.Count; i++)
        {
            nodes.Add(new NetworkNode($"outlet {i + 1}", branches[i].OutletM));
            links.Add(Pipe($"branch {i + 1}", "manifold", $"outlet {i + 1}", branches[i]));
        }

        var network = new PipeNetwork(nodes, links, viscosity);
        var solution = network.Solve();
        double[] flows = [.. Enumerable.Range(1, branches.Count).Select(i => Math.Max(0, network.FlowM3PerS(network.Link($"branch {i}"))))];
        double total = feed is null ? flows.Sum() : Math.Max(0, network.FlowM3PerS(network.Link(feed)));
        return new ManifoldFlow(solution.Stop, network.HeadM(network.Node("manifold")), total, flows);
    }

    private static NetworkPipe Pipe(string name, string from, string to, Branch pipe) =>
        new(name, from, to, pipe.LengthM, pipe.DiameterM, pipe.RoughnessMm, pipe.MinorK, CheckValve: true);
}
