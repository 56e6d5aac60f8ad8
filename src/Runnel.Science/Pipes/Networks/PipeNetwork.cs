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
    private const int MostSteps = 200;

    // Flows that stand still for so many steps are the answer: a valve that hangs between open and shut may keep its head from settling to the last digit.
    private const int StillEnough = 25;
    private const double HeadTolerance = 1e-7, FlowTolerance = 1e-10, FlowShare = 1e-8;

    private readonly NetworkLayout layout;
    private readonly EnvelopeSystem system;
    private readonly NetworkLink[] links;
    private readonly LinkLaw[] laws;   // links, then outlets
    private readonly bool[] open;
    private readonly int[] outletNode;
    private readonly double[] outletHeight, demand, head, flow, slope, loss, step, right;
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
        system = new EnvelopeSystem(layout.FirstInRow());
        this.links = [.. links];
        open = [.. links.Select(_ => true)];
        outletNode = [.. Enumerable.Range(0, nodes.Count).Where(n => nodes[n].Outlet is not null)];
        outletHeight = [.. outletNode.Select(n => nodes[n].Outlet!.HeightM)];
        demand = [.. nodes.Select(n => n.DemandM3PerS)];
        head = [.. nodes.Select(n => n.FixedHeadM ?? 0)];
        laws = [.. links.Select(Law), .. outletNode.Select(n => LinkLaw.Outlet(nodes[n].Outlet!))];
        flow = new double[laws.Length];
        slope = new double[laws.Length];
        loss = new double[laws.Length];
        step = new double[laws.Length];
        right = new double[layout.Unknowns];
        Forget();
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
    public double HeadM(int node) => head[node];

    /// <summary>Flow of a link, m³/s, positive from its first node to its second.</summary>
    /// <param name="link">Its number.</param>
    /// <returns>Flow of the last solution; what is shut seeps 1e-9 m³/s a metre of head.</returns>
    public double FlowM3PerS(int link) => flow[link];

    /// <summary>Flow out of a node's outlet, m³/s.</summary>
    /// <param name="node">Its number.</param>
    /// <returns>Flow of the last solution; 0 where the node has no outlet.</returns>
    public double OutletFlowM3PerS(int node)
    {
        int at = Array.IndexOf(outletNode, node);
        return at < 0 ? 0 : flow[links.Length + at];
    }

    /// <summary>Whether a link is shut: by hand, by its check valve, or because the pump stands or cannot lift so high.</summary>
    /// <param name="link">Its number.</param>
    /// <returns>True when it lets nothing pass.</returns>
    public bool IsShut(int link) => laws[link].Shut || (laws[link].OneWay && flow[link] <= 0);

    /// <summary>Sets the known head of a node, m.</summary>
    /// <param name="node">Its number.</param>
    /// <param name="headM">Head, m.</param>
    /// <exception cref="ArgumentException">The node's head is not a known one.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The head is NaN or out of range.</exception>
    public void SetHead(int node, double headM)
    {
        Require.InRange(headM, -10_000, 10_000);
        if (layout.Order[node] >= 0) throw new ArgumentException("the head of this node is found, not set", nameof(node));
        head[node] = headM;
    }

    /// <summary>Sets what is drawn off at a node, m³/s.</summary>
    /// <param name="node">Its number.</param>
    /// <param name="demandM3PerS">Flow, m³/s.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow is NaN or infinite.</exception>
    public void SetDemand(int node, double demandM3PerS)
    {
        Require.Finite(demandM3PerS);
        demand[node] = demandM3PerS;
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
        laws[link] = law;
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
        bool stood = laws[link].Shut;
        laws[link] = LinkLaw.Pump(pump.Curve, speed);
        laws[link].Closed = !open[link];
        if (stood != laws[link].Shut) flow[link] = laws[link].Shut ? 0 : laws[link].FirstFlow;
    }

    /// <summary>Forgets the last answer: the next solve begins cold.</summary>
    public void Forget()
    {
        for (int i = 0; i < flow.Length; i++) flow[i] = laws[i].Shut ? 0 : laws[i].FirstFlow;
    }

    /// <summary>Finds flows and heads.</summary>
    /// <returns>How it came out.</returns>
    public NetworkSolution Solve()
    {
        int still = 0;
        Evaluate(0);
        for (int count = 1; count <= MostSteps; count++)
        {
            SolveHeads();
            double most = 0, started = 0;
            for (int i = 0; i < laws.Length; i++)
            {
                step[i] = (Drop(i) - loss[i]) / slope[i];
                started -= slope[i] * step[i] * step[i];
                most = Math.Max(most, Math.Abs(flow[i]));
            }

            double along = Evaluate(1);
            double share = HeadError() <= HeadTolerance || count == 1 || along <= -0.3 * started ? 1 : Search(started);
            if (share != 1) Evaluate(share);
            double moved = 0;
            for (int i = 0; i < laws.Length; i++)
            {
                flow[i] += share * step[i];
                moved = Math.Max(moved, Math.Abs(share * step[i]));
            }

            still = moved <= FlowTolerance + (FlowShare * most) ? still + 1 : 0;
            if (still > 0 && (HeadError() <= HeadTolerance || still == StillEnough)) return Report(NetworkStop.Solved, count);
        }

        return Report(NetworkStop.TooManySteps, MostSteps);
    }

    // Losses and slopes at flow + share x step; gives the slope of the energy function there along the step.
    private double Evaluate(double share)
    {
        double along = 0;
        for (int i = 0; i < laws.Length; i++)
        {
            loss[i] = laws[i].LossM(flow[i] + (share * step[i]), out slope[i]);
            along += (loss[i] - Drop(i)) * step[i];
        }

        return along;
    }

    // The energy along the step is convex and falls at its start: halve until its slope is nearly gone. Where a check valve shuts on the way the slope
    // jumps there; the far side is taken, so that the next step knows the valve as shut.
    private double Search(double started)
    {
        double low = 0, high = 1;
        for (int i = 0; i < 60 && high - low > 1e-15; i++)
        {
            double middle = (low + high) / 2, along = Evaluate(middle);
            if (Math.Abs(along) <= -0.3 * started) return middle;
            if (along < 0) low = middle;
            else high = middle;
        }

        return high;
    }

    private void SolveHeads()
    {
        system.Clear();
        Array.Clear(right);
        for (int node = 0; node < head.Length; node++)
        {
            if (layout.Order[node] >= 0) right[layout.Order[node]] = -demand[node];
        }

        for (int i = 0; i < laws.Length; i++)
        {
            double conductance = 1 / slope[i], steady = flow[i] - (loss[i] * conductance);
            bool isLink = i < links.Length;
            int fromNode = isLink ? layout.From[i] : outletNode[i - links.Length], from = layout.Order[fromNode], to = isLink ? layout.Order[layout.To[i]] : -1;
            if (from >= 0)
            {
                system.Add(from, from, conductance);
                right[from] -= steady;
                if (to < 0) right[from] += conductance * (isLink ? head[layout.To[i]] : outletHeight[i - links.Length]);
            }

            if (to < 0) continue;
            system.Add(to, to, conductance);
            right[to] += steady;
            if (from < 0) right[to] += conductance * head[fromNode];
            else system.Add(from, to, -conductance);
        }

        system.Solve(right);
        for (int node = 0; node < head.Length; node++)
        {
            if (layout.Order[node] >= 0) head[node] = right[layout.Order[node]];
        }
    }

    private double Drop(int i) => i < links.Length ? head[layout.From[i]] - head[layout.To[i]] : head[outletNode[i - links.Length]] - outletHeight[i - links.Length];

    private double HeadError()
    {
        double most = 0;
        for (int i = 0; i < laws.Length; i++) most = Math.Max(most, Math.Abs(loss[i] - Drop(i)));
        return most;
    }

    private NetworkSolution Report(NetworkStop stop, int steps)
    {
        double lowest = double.PositiveInfinity, least = double.PositiveInfinity;
        Array.Clear(right);
        for (int i = 0; i < laws.Length; i++)
        {
            int from = layout.Order[i < links.Length ? layout.From[i] : outletNode[i - links.Length]], to = i < links.Length ? layout.Order[layout.To[i]] : -1;
            if (from >= 0) right[from] -= flow[i];
            if (to >= 0) right[to] += flow[i];
            if (i >= links.Length) lowest = Math.Min(lowest, outletHeight[i - links.Length]);
        }

        double imbalance = 0;
        for (int node = 0; node < head.Length; node++)
        {
            if (layout.Order[node] < 0)
            {
                lowest = Math.Min(lowest, head[node]);
                continue;
            }

            least = Math.Min(least, head[node]);
            imbalance = Math.Max(imbalance, Math.Abs(right[layout.Order[node]] - demand[node]));
        }

        if (least < lowest - 1000) stop = NetworkStop.DemandNotMet;
        return new NetworkSolution(stop, steps, HeadError(), imbalance);
    }

    private LinkLaw Law(NetworkLink link) => link is NetworkPump pump ? LinkLaw.Pump(pump.Curve, pump.Speed)
        : link is NetworkPipe pipe ? LinkLaw.Pipe(pipe, pipe.MinorK, pipe.RoughnessMm, pipe.DiameterM, viscosity, gravity)
        : throw new ArgumentException("a link is a pipe or a pump", nameof(link));

    private void Renew(int link)
    {
        laws[link].Closed = !open[link];
        flow[link] = laws[link].Shut ? 0 : laws[link].FirstFlow;
    }
}
