namespace Runnel.Science.Pipes.Networks;

/// <summary>The unknowns of a network, and the Newton steps that find them. See <see cref="PipeNetwork"/> for the method.</summary>
internal sealed class GradientSolver
{
    private const int MostSteps = 200;

    // Flows that stand still for so many steps are the answer: a valve that hangs between open and shut may keep its head from settling to the last digit.
    private const int StillEnough = 25;
    private const double HeadTolerance = 1e-7, FlowTolerance = 1e-10, FlowShare = 1e-8;

    private readonly NetworkLayout layout;
    private readonly EnvelopeSystem system;
    private readonly int linkCount;
    private readonly int[] outletNode;
    private readonly double[] outletHeight, slope, loss, step, right;

    public GradientSolver(NetworkLayout layout, IReadOnlyList<NetworkNode> nodes, IReadOnlyList<LinkLaw> links)
    {
        this.layout = layout;
        system = new EnvelopeSystem(layout.FirstInRow());
        linkCount = links.Count;
        outletNode = [.. Enumerable.Range(0, nodes.Count).Where(n => nodes[n].Outlet is not null)];
        outletHeight = [.. outletNode.Select(n => nodes[n].Outlet!.HeightM)];
        Demand = [.. nodes.Select(n => n.DemandM3PerS)];
        Head = [.. nodes.Select(n => n.FixedHeadM ?? 0)];
        Laws = [.. links, .. outletNode.Select(n => LinkLaw.Outlet(nodes[n].Outlet!))];
        Flow = new double[Laws.Length];
        slope = new double[Laws.Length];
        loss = new double[Laws.Length];
        step = new double[Laws.Length];
        right = new double[layout.Unknowns];
        Forget();
    }

    /// <summary>Laws of the links, then of the outlets.</summary>
    public LinkLaw[] Laws { get; }

    /// <summary>Flow through each law, m³/s.</summary>
    public double[] Flow { get; }

    /// <summary>Head of each node, m.</summary>
    public double[] Head { get; }

    /// <summary>What is drawn off at each node, m³/s.</summary>
    public double[] Demand { get; }

    /// <summary>Number of the law of a node's outlet, or -1 where it has none.</summary>
    public int OutletOf(int node)
    {
        int at = Array.IndexOf(outletNode, node);
        return at < 0 ? -1 : linkCount + at;
    }

    public void Forget()
    {
        for (int i = 0; i < Flow.Length; i++) Renew(i);
    }

    /// <summary>A flow to begin from, where a law has changed its status.</summary>
    public void Renew(int law) => Flow[law] = Laws[law].Shut ? 0 : Laws[law].FirstFlow;

    public NetworkSolution Solve()
    {
        int still = 0;
        Evaluate(0);
        for (int count = 1; count <= MostSteps; count++)
        {
            SolveHeads();
            double most = 0, started = 0;
            for (int i = 0; i < Laws.Length; i++)
            {
                step[i] = (Drop(i) - loss[i]) / slope[i];
                started -= slope[i] * step[i] * step[i];
                most = Math.Max(most, Math.Abs(Flow[i]));
            }

            double along = Evaluate(1);
            double share = HeadError() <= HeadTolerance || count == 1 || along <= -0.3 * started ? 1 : Search(started);
            if (share != 1) Evaluate(share);
            double moved = 0;
            for (int i = 0; i < Laws.Length; i++)
            {
                Flow[i] += share * step[i];
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
        for (int i = 0; i < Laws.Length; i++)
        {
            loss[i] = Laws[i].LossM(Flow[i] + (share * step[i]), out slope[i]);
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
        for (int node = 0; node < Head.Length; node++)
        {
            if (layout.Order[node] >= 0) right[layout.Order[node]] = -Demand[node];
        }

        for (int i = 0; i < Laws.Length; i++)
        {
            double conductance = 1 / slope[i], steady = Flow[i] - (loss[i] * conductance);
            bool isLink = i < linkCount;
            int fromNode = isLink ? layout.From[i] : outletNode[i - linkCount], from = layout.Order[fromNode], to = isLink ? layout.Order[layout.To[i]] : -1;
            if (from >= 0)
            {
                system.Add(from, from, conductance);
                right[from] -= steady;
                if (to < 0) right[from] += conductance * (isLink ? Head[layout.To[i]] : outletHeight[i - linkCount]);
            }

            if (to < 0) continue;
            system.Add(to, to, conductance);
            right[to] += steady;
            if (from < 0) right[to] += conductance * Head[fromNode];
            else system.Add(from, to, -conductance);
        }

        system.Solve(right);
        for (int node = 0; node < Head.Length; node++)
        {
            if (layout.Order[node] >= 0) Head[node] = right[layout.Order[node]];
        }
    }

    private double Drop(int i) => i < linkCount ? Head[layout.From[i]] - Head[layout.To[i]] : Head[outletNode[i - linkCount]] - outletHeight[i - linkCount];

    private double HeadError()
    {
        double most = 0;
        for (int i = 0; i < Laws.Length; i++) most = Math.Max(most, Math.Abs(loss[i] - Drop(i)));
        return most;
    }

    private NetworkSolution Report(NetworkStop stop, int steps)
    {
        double lowest = double.PositiveInfinity, least = double.PositiveInfinity;
        Array.Clear(right);
        for (int i = 0; i < Laws.Length; i++)
        {
            int from = layout.Order[i < linkCount ? layout.From[i] : outletNode[i - linkCount]], to = i < linkCount ? layout.Order[layout.To[i]] : -1;
            if (from >= 0) right[from] -= Flow[i];
            if (to >= 0) right[to] += Flow[i];
            if (i >= linkCount) lowest = Math.Min(lowest, outletHeight[i - linkCount]);
        }

        double imbalance = 0;
        for (int node = 0; node < Head.Length; node++)
        {
            if (layout.Order[node] < 0)
            {
                lowest = Math.Min(lowest, Head[node]);
                continue;
            }

            least = Math.Min(least, Head[node]);
            imbalance = Math.Max(imbalance, Math.Abs(right[layout.Order[node]] - Demand[node]));
        }

        if (least < lowest - 1000) stop = NetworkStop.DemandNotMet;
        return new NetworkSolution(stop, steps, HeadError(), imbalance);
    }
}
