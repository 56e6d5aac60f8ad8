namespace Runnel.Science.Pipes.Networks;

/// <summary>Numbers nodes and links, and refuses what cannot be solved.</summary>
internal sealed class NetworkLayout
{
    private readonly Dictionary<string, int> nodes = [], links = [];

    public NetworkLayout(IReadOnlyList<NetworkNode> allNodes, IReadOnlyList<NetworkLink> allLinks)
    {
        foreach (var node in allNodes)
        {
            if (!nodes.TryAdd(node.Name, nodes.Count)) throw Refused($"two nodes are named {node.Name}");
            Check(node);
        }

        From = new int[allLinks.Count];
        To = new int[allLinks.Count];
        foreach (var link in allLinks)
        {
            int at = links.Count;
            if (!links.TryAdd(link.Name, at)) throw Refused($"two links are named {link.Name}");
            if (!nodes.TryGetValue(link.From, out From[at])) throw Refused($"link {link.Name} begins at {link.From}, which is no node");
            if (!nodes.TryGetValue(link.To, out To[at])) throw Refused($"link {link.Name} ends at {link.To}, which is no node");
            if (From[at] == To[at]) throw Refused($"link {link.Name} begins and ends at {link.From}");
            Check(link);
        }

        Order = Number(allNodes);
        Unknowns = Order.Count(o => o >= 0);
    }

    public int[] From { get; }

    public int[] To { get; }

    /// <summary>For each node its row among the unknown heads, or -1 where the head is known.</summary>
    public int[] Order { get; }

    public int Unknowns { get; }

    public int Node(string name) => nodes.TryGetValue(name, out int at) ? at : throw Refused($"no node is named {name}");

    public int Link(string name) => links.TryGetValue(name, out int at) ? at : throw Refused($"no link is named {name}");

    /// <summary>Column of the first entry of each row.</summary>
    public int[] FirstInRow()
    {
        int[] first = [.. Enumerable.Range(0, Unknowns)];
        for (int link = 0; link < From.Length; link++)
        {
            int a = Order[From[link]], b = Order[To[link]];
            if (a >= 0 && b >= 0) first[Math.Max(a, b)] = Math.Min(first[Math.Max(a, b)], Math.Min(a, b));
        }

        return first;
    }

    public static ArgumentException Refused(string why) => new($"the network cannot be solved: {why}");

    // Breadth first from the known heads, then reversed: rows stay short (Cuthill and McKee 1969), and whoever is never reached has no head.
    private int[] Number(IReadOnlyList<NetworkNode> allNodes)
    {
        int[] order = new int[allNodes.Count];
        var reached = new bool[allNodes.Count];
        var queue = new Queue<int>();
        for (int node = 0; node < allNodes.Count; node++)
        {
            if (allNodes[node].FixedHeadM is null && allNodes[node].Outlet is null) continue;
            reached[node] = true;
            queue.Enqueue(node);
        }

        if (queue.Count == 0) throw Refused("no node has a known head; give the level of a reservoir, a tank or an outlet");
        var found = new List<int>();
        while (queue.TryDequeue(out int node))
        {
            if (allNodes[node].FixedHeadM is null) found.Add(node);
            for (int link = 0; link < From.Length; link++)
            {
                int other = From[link] == node ? To[link] : To[link] == node ? From[link] : node;
                if (reached[other]) continue;
                reached[other] = true;
                queue.Enqueue(other);
            }
        }

        int alone = Array.IndexOf(reached, false);
        if (alone >= 0) throw Refused($"node {allNodes[alone].Name} is joined to no known head");
        Array.Fill(order, -1);
        for (int i = 0; i < found.Count; i++) order[found[i]] = found.Count - 1 - i;
        return order;
    }

    private static void Check(NetworkNode node)
    {
        if (node.FixedHeadM is double head) Require.InRange(head, -10_000, 10_000, $"{node.Name}.FixedHeadM");
        Require.Finite(node.DemandM3PerS, $"{node.Name}.DemandM3PerS");
        if (node.Outlet is not { } outlet) return;
        if (node.FixedHeadM is not null) throw Refused($"node {node.Name} has both a known head and an outlet");
        Require.InRange(outlet.HeightM, -10_000, 10_000, $"{node.Name}.HeightM");
        Require.InRange(outlet.CoefficientM3PerS, 1e-9, 100, $"{node.Name}.CoefficientM3PerS");
        Require.InRange(outlet.Exponent, 0.05, 2, $"{node.Name}.Exponent");
    }

    private static void Check(NetworkLink link)
    {
        switch (link)
        {
            case NetworkPipe pipe:
                Require.InRange(pipe.LengthM, 0, 100_000, $"{pipe.Name}.LengthM");
                Require.InRange(pipe.DiameterM, 1e-4, 10, $"{pipe.Name}.DiameterM");
                Require.InRange(pipe.RoughnessMm, 0, 100 * pipe.DiameterM, $"{pipe.Name}.RoughnessMm");
                Require.InRange(pipe.MinorK, 0, 1e9, $"{pipe.Name}.MinorK");
                if (pipe.HazenWilliamsC is double c) Require.InRange(c, 20, 200, $"{pipe.Name}.HazenWilliamsC");
                if (pipe.LengthM == 0 && pipe.MinorK == 0) throw Refused($"pipe {pipe.Name} has neither length nor fittings; leave it out and join its ends");
                break;
            case NetworkPump pump:
                Require.Positive(pump.Curve.ShutOffHeadM, $"{pump.Name}.ShutOffHeadM");
                Require.Positive(pump.Curve.Coefficient, $"{pump.Name}.Coefficient");
                Require.InRange(pump.Curve.Exponent, 0.2, 10, $"{pump.Name}.Exponent");
                if (pump.Speed != 0) Require.InRange(pump.Speed, 1e-3, 2, $"{pump.Name}.Speed");
                break;
            default:
                throw Refused($"link {link.Name} is neither a pipe nor a pump");
        }
    }
}
