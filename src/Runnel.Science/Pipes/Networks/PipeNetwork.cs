namespace Runnel.Science.Pipes.Networks;

/// <summary>Flows and heads of a small network of full pipes, pumps, check valves and outlets, at rest in time.</summary>
/// <remarks>
/// Global gradient method of Todini and Pilati (1988), as in the EPANET 2.2 User Manual: Newton steps on flows and heads together, here with the step
/// length searched along the convex energy function of Collins et al. (1978), Management Science 24:747-760. Check valves, pumps that cannot lift and
/// outlets above the head are bends of always-rising laws, so the answer is unique and statuses cannot cycle. Darcy and Weisbach with
/// <see cref="FrictionFactor.Darcy"/>, or Hazen and Williams; minor losses K V²/2g. Flows between Reynolds numbers 2000 and 4000 are uncertain by 10 %
/// and more. The head of a node may fall below its height: water that would boil or suck air there is the caller's to judge. One network is for one
/// thread; setting values and solving allocate nothing, and each solve begins from the last answer.
/// </remarks>
public sealed class PipeNetwork
{
    private readonly NetworkLayout layout;
    private readonly GradientSolver solver;
    private readonly NetworkLink[] links;
    private readonly bool[] open;
    private readonly double viscosity, gravity;

    /// <summary>Takes a network in.</summary>
    /// <param name="nodes">Nodes, one or more with a known head or an outlet.</param>
    /// <param name="links">Pipes and pumps.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s: water at 20 °C 1.004e-6.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <exception cref="ArgumentException">The network has no known head, a node joined to none, or a name twice; the message says which.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or out of range.</exception>
    public PipeNetwork(
        IReadOnlyList<NetworkNode> nodes, IReadOnlyList<NetworkLink> links, double viscosityM2PerS = 1.004e-6, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        ArgumentNullException.ThrowIfNull(nodes);
        ArgumentNullException.ThrowIfNull(links);
        Require.InRange(viscosityM2PerS, 1e-8, 1);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
        (viscosity, gravity) = (viscosityM2PerS, gravityMPerS2);
        layout = new NetworkLayout(nodes, links);
        this.links = [.. links];
        open = [.. links.Select(_ => true)];
        solver = new GradientSolver(layout, nodes, [.. links.Select(Law)]);
    }

    /// <summary>Number of a node, for the other calls.</summary>
    /// <param name="name">Its name.</param>
    /// <returns>Number.</returns>
    /// <exception cref="ArgumentException">No node has that name.</exception>
    public int Node(string name) => layout.Node(name);

    /// <summary>Number of a link, for the other calls.</summary>
    /// <param name="name">Its name.</param>
    /// <returns>Number.</returns>
    /// <exception cref="ArgumentException">No link has that name.</exception>
    public int Link(string name) => layout.Link(name);

    /// <summary>Head of a node, m.</summary>
    /// <param name="node">Its number.</param>
    /// <returns>Head of the last solution.</returns>
    public double HeadM(int node) => solver.Head[node];

    /// <summary>Flow of a link, m³/s, positive from its first node to its second.</summary>
    /// <param name="link">Its number.</param>
    /// <returns>Flow of the last solution; what is shut seeps 1e-9 m³/s a metre of head.</returns>
    public double FlowM3PerS(int link) => solver.Flow[link];

    /// <summary>Flow out of a node's outlet, m³/s.</summary>
    /// <param name="node">Its number.</param>
    /// <returns>Flow of the last solution; 0 where the node has no outlet.</returns>
    public double OutletFlowM3PerS(int node) => solver.OutletOf(node) is var law and >= 0 ? solver.Flow[law] : 0;

    /// <summary>Whether a link is shut: by hand, by its check valve, or because the pump stands or cannot lift so high.</summary>
    /// <param name="link">Its number.</param>
    /// <returns>True when it lets nothing pass.</returns>
    public bool IsShut(int link) => solver.Laws[link].Shut || (solver.Laws[link].OneWay && solver.Flow[link] <= 0);

    /// <summary>Sets the known head of a node, m.</summary>
    /// <param name="node">Its number.</param>
    /// <param name="headM">Head, m.</param>
    /// <exception cref="ArgumentException">The node's head is not a known one.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The head is NaN or out of range.</exception>
    public void SetHead(int node, double headM)
    {
        Require.InRange(headM, -10_000, 10_000);
        if (layout.Order[node] >= 0) throw new ArgumentException("the head of this node is found, not set", nameof(node));
        solver.Head[node] = headM;
    }

    /// <summary>Sets what is drawn off at a node, m³/s.</summary>
    /// <param name="node">Its number.</param>
    /// <param name="demandM3PerS">Flow, m³/s.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow is NaN or infinite.</exception>
    public void SetDemand(int node, double demandM3PerS)
    {
        Require.Finite(demandM3PerS);
        solver.Demand[node] = demandM3PerS;
    }

    /// <summary>Opens or shuts a link.</summary>
    /// <param name="link">Its number.</param>
    /// <param name="isOpen">True to open.</param>
    public void SetOpen(int link, bool isOpen)
    {
        if (open[link] == isOpen) return;
        open[link] = isOpen;
        Renew(link);
    }

    /// <summary>Sets fittings, roughness and bore of a pipe as they are now: slime, scale, a clog.</summary>
    /// <param name="link">Number of the pipe.</param>
    /// <param name="minorK">Sum of the fittings' K.</param>
    /// <param name="roughnessMm">Roughness, mm.</param>
    /// <param name="diameterM">Bore, m.</param>
    /// <exception cref="ArgumentException">The link is no pipe.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or out of range.</exception>
    public void SetPipe(int link, double minorK, double roughnessMm, double diameterM)
    {
        if (links[link] is not NetworkPipe pipe) throw new ArgumentException("this link is no pipe", nameof(link));
        Require.InRange(minorK, pipe.LengthM > 0 ? 0 : double.Epsilon, 1e9);
        Require.InRange(diameterM, 1e-4, 10);
        Require.InRange(roughnessMm, 0, 100 * diameterM);
        var law = LinkLaw.Pipe(pipe, minorK, roughnessMm, diameterM, viscosity, gravity);
        law.Closed = !open[link];
        solver.Laws[link] = law;
    }

    /// <summary>Sets the speed of a pump.</summary>
    /// <param name="link">Number of the pump.</param>
    /// <param name="speed">Relative speed, 0 (stands) to 2.</param>
    /// <exception cref="ArgumentException">The link is no pump.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The speed is NaN or out of range.</exception>
    public void SetSpeed(int link, double speed)
    {
        if (links[link] is not NetworkPump pump) throw new ArgumentException("this link is no pump", nameof(link));
        if (speed != 0) Require.InRange(speed, 1e-3, 2);
        bool stood = solver.Laws[link].Shut;
        solver.Laws[link] = LinkLaw.Pump(pump.Curve, speed);
        solver.Laws[link].Closed = !open[link];
        if (stood != solver.Laws[link].Shut) solver.Renew(link);
    }

    /// <summary>Forgets the last answer: the next solve begins cold.</summary>
    public void Forget() => solver.Forget();

    /// <summary>Finds flows and heads.</summary>
    /// <returns>How it came out.</returns>
    public NetworkSolution Solve() => solver.Solve();

    private LinkLaw Law(NetworkLink link) => link is NetworkPump pump ? LinkLaw.Pump(pump.Curve, pump.Speed)
        : link is NetworkPipe pipe ? LinkLaw.Pipe(pipe, pipe.MinorK, pipe.RoughnessMm, pipe.DiameterM, viscosity, gravity)
        : throw new ArgumentException("a link is a pipe or a pump", nameof(link));

    private void Renew(int link)
    {
        solver.Laws[link].Closed = !open[link];
        solver.Renew(link);
    }
}
