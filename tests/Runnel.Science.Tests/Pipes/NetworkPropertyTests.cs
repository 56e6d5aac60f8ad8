using CsCheck;
using Runnel.Science.Pipes;
using Runnel.Science.Pipes.Networks;

namespace Runnel.Science.Tests.Pipes;

public sealed class NetworkPropertyTests
{
    private static readonly Gen<int> Seed = Gen.Int[1, 1_000_000];

    [Fact]
    public void Any_small_network_balances_its_flows_and_heads() => Seed.Sample(seed =>
    {
        var (nodes, links) = RandomNetwork(seed);
        var network = new PipeNetwork(nodes, links);
        var solution = network.Solve();
        Assert.NotEqual(NetworkStop.TooManySteps, solution.Stop);
        Assert.InRange(solution.FlowErrorM3PerS, 0, 1e-9);
        Assert.InRange(solution.HeadErrorM, 0, 1e-7);
        foreach (var link in links) CompareWithSingleLink(network, link);
        foreach (var node in nodes.Where(n => n.Outlet is not null))
        {
            double head = network.HeadM(network.Node(node.Name)) - node.Outlet!.HeightM, flow = network.OutletFlowM3PerS(network.Node(node.Name));
            Assert.Equal(head > 0 ? node.Outlet.CoefficientM3PerS * Math.Pow(head, node.Outlet.Exponent) : 0, flow, 1e-6);
        }
    }, iter: 300);

    [Fact]
    public void The_answer_does_not_depend_on_where_the_solver_began() => Seed.Sample(seed =>
    {
        var (nodes, links) = RandomNetwork(seed);
        var cold = new PipeNetwork(nodes, links);
        var warm = new PipeNetwork(nodes, links);
        var random = new Random(seed);
        for (int i = 0; i < 3; i++)
        {
            int node = cold.Node(nodes.First(n => n.FixedHeadM is not null).Name), link = random.Next(links.Count);
            double head = 5 * random.NextDouble();
            cold.SetHead(node, head);
            warm.SetHead(node, head);
            bool open = random.Next(2) == 0;
            cold.SetOpen(link, open);
            warm.SetOpen(link, open);
            cold.Forget();
            cold.Solve();
            warm.Solve();
            for (int l = 0; l < links.Count; l++) Assert.Equal(cold.FlowM3PerS(l), warm.FlowM3PerS(l), 2e-6);
        }
    }, iter: 200);

    [Fact]
    public void A_higher_source_lowers_no_head_and_a_clog_takes_flow() => Seed.Sample(seed =>
    {
        var (nodes, links) = RandomNetwork(seed);
        var network = new PipeNetwork(nodes, links);
        network.Solve();
        int source = network.Node(nodes.First(n => n.FixedHeadM is not null).Name);
        double[] before = [.. nodes.Select(n => network.HeadM(network.Node(n.Name)))];
        network.SetHead(source, before[source] + 0.5);
        network.Solve();
        for (int i = 0; i < nodes.Count; i++) Assert.True(network.HeadM(i) >= before[i] - 1e-5);
        int pipe = Enumerable.Range(0, links.Count).First(l => links[l] is NetworkPipe);
        var was = (NetworkPipe)links[pipe];
        double flow = Math.Abs(network.FlowM3PerS(pipe));
        network.SetPipe(pipe, was.MinorK + 50, was.RoughnessMm, was.DiameterM);
        network.Solve();
        Assert.True(Math.Abs(network.FlowM3PerS(pipe)) <= flow + 1e-8);
    }, iter: 200);

    [Fact]
    public void A_check_valve_between_equal_levels_neither_leaks_nor_chatters()
    {
        PipeNetwork network = new([new("a", 1), new("b", 1), new("j")], [new NetworkPipe("in", "a", "j", 1, 0.02, 0.0015, 1, true), new NetworkPipe("out", "j", "b", 1, 0.02, 0.0015, 1)]);
        for (int i = -20; i <= 20; i++)
        {
            network.SetHead(network.Node("b"), 1 + (i * 1e-4));
            Assert.Equal(NetworkStop.Solved, network.Solve().Stop);
            Assert.Equal(i >= 0, network.FlowM3PerS(0) <= 1e-8);
        }
    }

    // Dead ends behind a shut check valve once kept the solver flipping the valve on rounding alone until its steps ran out.
    [Theory]
    [InlineData(342053)]
    [InlineData(3913)]
    [InlineData(5315)]
    [InlineData(7682)]
    public void A_dead_end_behind_a_check_valve_is_solved_in_a_few_steps(int seed)
    {
        var (nodes, links) = RandomNetwork(seed);
        var solution = new PipeNetwork(nodes, links).Solve();
        Assert.Equal(NetworkStop.Solved, solution.Stop);
        Assert.InRange(solution.Steps, 1, 25);
    }

    [Fact]
    public void Shutting_clogging_and_slowing_at_random_never_leaves_the_solver_without_an_answer() => Seed.Sample(seed =>
    {
        var (nodes, links) = RandomNetwork(seed);
        var network = new PipeNetwork(nodes, links);
        var random = new Random(seed);
        for (int i = 0; i < 10; i++)
        {
            int link = random.Next(links.Count);
            network.SetOpen(link, random.Next(3) > 0);
            if (links[link] is NetworkPump) network.SetSpeed(link, random.Next(3) == 0 ? 0 : 0.3 + random.NextDouble());
            if (links[link] is NetworkPipe pipe) network.SetPipe(link, pipe.MinorK + Math.Pow(10, 4 * random.NextDouble()), pipe.RoughnessMm, pipe.DiameterM * (0.2 + (0.8 * random.NextDouble())));
            var solution = network.Solve();
            Assert.NotEqual(NetworkStop.TooManySteps, solution.Stop);
            if (solution.Stop != NetworkStop.Solved) continue;
            Assert.InRange(solution.FlowErrorM3PerS, 0, 1e-9);
            Assert.InRange(solution.HeadErrorM, 0, 1e-3);
        }
    }, iter: 200);

    [Fact]
    public void A_stopped_or_too_low_pump_gives_nothing_and_starts_again()
    {
        PipeNetwork network = new([new("sump", 0), new("tank", 3), new("j")],
            [new NetworkPump("pump", "sump", "j", PumpCurve.FromDesignPoint(60, 2)), new NetworkPipe("riser", "j", "tank", 3, 0.032, 0.0015, 2)]);
        network.Solve();
        Assert.True(network.IsShut(0)); // 2.67 m at no flow against a lift of 3 m
        network.SetHead(network.Node("tank"), 1.5);
        network.Solve();
        double full = network.FlowM3PerS(0);
        Assert.InRange(full * 60_000, 50, 80);
        network.SetSpeed(0, 0);
        network.Solve();
        Assert.True(network.IsShut(0));
        Assert.InRange(network.FlowM3PerS(0), -1e-8, 0);
        network.SetOpen(0, true);
        network.SetSpeed(0, 1);
        network.Solve();
        Assert.Equal(full, network.FlowM3PerS(0), 1e-9);
    }

    [Fact]
    public void A_demand_behind_a_shut_valve_is_said_not_to_be_met()
    {
        PipeNetwork network = new([new("tank", 3), new("tap", null, 1e-4)], [new NetworkPipe("line", "tank", "tap", 5, 0.02, 0.0015)]);
        Assert.Equal(NetworkStop.Solved, network.Solve().Stop);
        network.SetOpen(0, false);
        Assert.Equal(NetworkStop.DemandNotMet, network.Solve().Stop);
    }

    [Fact]
    public void Solving_again_allocates_nothing()
    {
        var (nodes, links) = RandomNetwork(11);
        var network = new PipeNetwork(nodes, links);
        int source = network.Node(nodes.First(n => n.FixedHeadM is not null).Name);
        network.Solve();
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 50; i++)
        {
            network.SetHead(source, 2 + (0.01 * i));
            network.SetPipe(0, 1 + i, 0.0015, 0.03);
            network.Solve();
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void What_cannot_be_solved_is_refused_with_its_place()
    {
        NetworkPipe pipe = new("p", "a", "b", 1, 0.02, 0.0015);
        Refused("no node has a known head", [new("a"), new("b")], [pipe]);
        Refused("node c is joined to no known head", [new("a", 1), new("b"), new("c")], [pipe]);
        Refused("two nodes are named a", [new("a", 1), new("a")], [pipe]);
        Refused("link p ends at b", [new("a", 1)], [pipe]);
        Refused("neither length nor fittings", [new("a", 1), new("b", 2)], [pipe with { LengthM = 0 }]);
        Refused("p.DiameterM must be", [new("a", 1), new("b", 2)], [pipe with { DiameterM = double.NaN }]);
        Refused("a.DemandM3PerS must be", [new("a", 1, double.NaN), new("b", 2)], [pipe]);
        Assert.Contains("no node is named x", Assert.Throws<ArgumentException>(() => new PipeNetwork([new("a", 1), new("b", 2)], [pipe]).Node("x")).Message, StringComparison.Ordinal);

        static void Refused(string why, NetworkNode[] nodes, NetworkLink[] links) =>
            Assert.Contains(why, Assert.ThrowsAny<ArgumentException>(() => new PipeNetwork(nodes, links)).Message, StringComparison.Ordinal);
    }

    // The single-link relations know nothing of networks.
    private static void CompareWithSingleLink(PipeNetwork network, NetworkLink link)
    {
        int at = network.Link(link.Name);
        double flow = network.FlowM3PerS(at), drop = network.HeadM(network.Node(link.From)) - network.HeadM(network.Node(link.To));
        if (network.IsShut(at))
        {
            Assert.True(flow is <= 0 and > -1e-6);
            Assert.True(link is NetworkPump pump ? -drop >= pump.Curve.ShutOffHeadM - 1e-5 : drop <= 1e-5);
        }
        else if (link is NetworkPump pump) Assert.Equal(pump.Curve.HeadM(flow * 60_000), -drop, 1e-5);
        else if (link is NetworkPipe pipe && Math.Abs(flow) > 1e-9)
        {
            double size = Math.Abs(flow);
            double loss = pipe.HazenWilliamsC is double c
                ? HazenWilliams.HeadLossM(size, pipe.LengthM, pipe.DiameterM, c) + (pipe.MinorK * 8 * size * size / (PipeFlow.GravityMPerS2 * Math.PI * Math.PI * Math.Pow(pipe.DiameterM, 4)))
                : PipeFlow.AtFlow(size, pipe.LengthM, pipe.DiameterM, pipe.RoughnessMm, pipe.MinorK).HeadLossM;
            Assert.Equal(flow < 0 ? -loss : loss, drop, 1e-6 + (1e-7 * loss));
        }
    }

    private static (List<NetworkNode> Nodes, List<NetworkLink> Links) RandomNetwork(int seed)
    {
        var random = new Random(seed);
        List<NetworkNode> nodes = [new("n0", 3 * random.NextDouble())];
        List<NetworkLink> links = [];
        int count = random.Next(3, 13);
        for (int i = 1; i < count; i++)
        {
            int kind = random.Next(6);
            nodes.Add(kind switch
            {
                0 => new($"n{i}", 4 * random.NextDouble()),
                1 => new($"n{i}", null, 2e-4 * random.NextDouble()),
                2 => new($"n{i}", null, 0, new NetworkOutlet(random.NextDouble(), 1e-4 * (0.1 + random.NextDouble()), random.Next(2) == 0 ? 0.5 : 0.3)),
                _ => new($"n{i}"),
            });
            links.Add(Join(random.Next(i), i, plain: kind == 1));
        }

        for (int extra = random.Next(count); extra > 0; extra--)
        {
            int from = random.Next(count), to = random.Next(count);
            if (from != to) links.Add(Join(from, to, plain: false));
        }

        return (nodes, links);

        // What reaches a demand is a plain pipe, so that every demand can be met.
        NetworkLink Join(int from, int to, bool plain)
        {
            string name = $"l{links.Count}", a = $"n{from}", b = $"n{to}";
            int kind = plain || links.Count == 0 ? 9 : random.Next(10);
            if (kind == 0) return new NetworkPump(name, a, b, PumpCurve.FromDesignPoint(20 + (80 * random.NextDouble()), 1 + (4 * random.NextDouble())));
            return new NetworkPipe(name, a, b, 0.2 + (20 * random.NextDouble()), 0.013 + (0.05 * random.NextDouble()), 0.0015 + (0.1 * random.NextDouble()), 10 * random.NextDouble(), kind < 3)
            {
                HazenWilliamsC = kind == 3 ? 140 : null,
            };
        }
    }
}
