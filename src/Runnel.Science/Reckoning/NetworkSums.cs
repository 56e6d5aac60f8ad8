using System.Globalization;
using Runnel.Science.Pipes;
using Runnel.Science.Pipes.Networks;
using static Runnel.Science.Reckoning.Ask;
using static Runnel.Science.Reckoning.Hydraulics;

namespace Runnel.Science.Reckoning;

/// <summary>Small networks that a person can type in: one manifold, or one line of emitters.</summary>
internal static class NetworkSums
{
    private static readonly Input Lifts = Numbers("outlets_m", "m", "height of each outlet over the water taken from; one figure where all are equal", -100, 1000, "1.1");
    private static readonly Input Lengths = Numbers("lengths_m", "m", "length of each branch", 0, 1e5, "1 1.5 3 4.5");
    private static readonly Input Bores = Numbers("diameters_mm", "mm", "inside diameter of each branch; one figure where all are equal", 1, 2000, "25");
    private static readonly Input Ks = Numbers("minor_ks", "1", "sum of each branch's K with 1 for the outlet; one figure where all are equal", 0, 1e6, "6");

    private static readonly Output[] OfBranches =
    [
        new("total_l_min", "L/min", "flow of all branches"),
        new Output("branches_l_min", "word", "flow of each branch, in order").Folded(),
        new("least_l_min", "L/min", "flow of the weakest"),
        new("greatest_l_min", "L/min", "flow of the strongest"),
        new("manifold_head_m", "m", "head where they part"),
    ];

    public static readonly Relation[] All =
    [
        new("pump-branches", "How does one pump share its water?")
        {
            Explanation = "One pump lifts through a riser to a place where branches part, each to its own outlet: the flow of each. List the branches in order, parted by blanks; a figure alone holds for all. To see what a fouled branch does, raise its K (a half-shut valve 5 to 20) or narrow its bore, and compare.",
            Inputs =
            [
                Number("shutoff_head_m", "m", "head of the pump without flow", 1e-3, 1e4, "5").Also("h0_m"),
                Number("flow1_l_min", "L/min", "flow at a first point of its curve", 1e-3, 1e7, "80").Also("q1_l_min"), Number("head1_m", "m", "head at that first flow", 0, 1e4, "3.5").Also("h1_m"),
                Number("flow2_l_min", "L/min", "flow at a second point", 1e-3, 1e7, "160").Also("q2_l_min"), Number("head2_m", "m", "head at that second flow", 0, 1e4, "0").Also("h2_m"),
                Length.Named("riser_length_m", "length of the riser").Say("3"), Number("riser_diameter_mm", "mm", "inside diameter of the riser", 1, 2000, "40"), MinorK.Named("riser_k", "sum of the riser's K").Or("2.5"),
                Lifts, Lengths, Bores, Ks, Roughness.Or("0.007"), Temp, Viscosity,
            ],
            Choices = [Fluid],
            Rules = [Rule.Below("head1_m", "shutoff_head_m"), Rule.Below("head2_m", "head1_m"), Rule.Below("flow1_l_min", "flow2_l_min"), new("riser_length_m", g => g["riser_length_m"] > 0 || g["riser_k"] > 0, "is 0 and the riser has no fittings", "Give one of them")],
            Outputs = OfBranches,
            Along = "riser_diameter_mm", Shown = (20, 63),
            Formula = "H0 - r Q^n = riser loss + branch loss + lift for every branch, and the branches add up",
            Source = "Todini and Pilati (1988), as in the EPANET 2.2 User Manual; Darcy and Weisbach with Colebrook (1939).",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                var curve = PumpCurve.ThroughPoints(g["shutoff_head_m"], g["flow1_l_min"], g["head1_m"], g["flow2_l_min"], g["head2_m"]);
                var riser = new Branch(0, g["riser_length_m"], g["riser_diameter_mm"] / 1000, g["roughness_mm"], g["riser_k"]);
                return Told(Manifold.FedByPump(curve, riser, BranchesOf(g), ViscosityOf(g)));
            },
            Meaning = Shared,
        },
        new("parallel-pipes", "How do pipes side by side share the water?")
        {
            Explanation = "Pipes from one tank or header, each to its own outlet: the flow of each. List them in order, parted by blanks; a figure alone holds for all.",
            Inputs =
            [
                Number("head_m", "m", "water level over the height that outlets are counted from", -100, 1000, "1"),
                Lifts.Named("outlets_m", "height of each outlet, or of the water it ends under; one figure where all are equal").Say("0").Or("0"), Lengths.Say("20 35"), Bores.Say("32 25"), Ks.Say("1.5"),
                Roughness.Or("0.007"), Temp, Viscosity,
            ],
            Choices = [Fluid],
            Outputs = OfBranches,
            Along = "head_m", Shown = (0.1, 3),
            Formula = "h = (f L/d + K) V^2/2g for each",
            Source = "Darcy and Weisbach with Colebrook (1939); network method of Todini and Pilati (1988).",
            Cautions = [Caution.Discharge],
            Reckon = g => Told(Manifold.FedByTank(g["head_m"], BranchesOf(g), ViscosityOf(g))),
            Meaning = Shared,
        },
        new("emitter-line", "How evenly does my drip line water?")
        {
            Explanation = "A line of equal drippers or sprinklers at equal distances: what the first and the last give. The rating is the flow at 1 m of head; a dripper rated 4 L/h at 10 m with exponent 0.5 gives 1.26 L/h, 0.021 L/min, there. Barbs in the wall take some more.",
            Inputs =
            [
                Number("head_m", "m", "head at the inlet: 10 m are about 1 bar", 0.01, 1000, "12"), Whole("count", "1", "emitters", 1, 500, "10"), Number("spacing_m", "m", "distance between them", 1e-3, 1000, "0.5"),
                Number("diameter_mm", "mm", "inside diameter of the line", 1, 2000, "13.6"),
                Number("coeff_l_min_per_m_pow", "L/min", "flow of one at 1 m of head", 1e-4, 1000, "0.021"), Number("emitter_exponent", "1", "power of the head: 0.5 for holes and sprinklers, 0.05 for compensating drippers", 0.05, 1.5, "0.5").Or("0.5"),
                Number("fall_m", "m", "how much lower the end is than the inlet; negative uphill", -100, 100, "0").Or("0"), Roughness.Or("0.007"), Temp, Viscosity,
            ],
            Choices = [Fluid],
            Outputs =
            [
                new("total_l_min", "L/min", "flow of all"), new("first_l_min", "L/min", "flow of the first"), new("last_l_min", "L/min", "flow of the last"),
                new("last_over_first", "1", "last over first"), new("last_head_m", "m", "head at the last"), new Output("emitters_l_min", "word", "flow of each, in order").Folded(),
            ],
            Along = "count", Main = "last_over_first", Shown = (1, 100),
            Formula = "q = c h^x at each; loss between them by Darcy and Weisbach",
            Source = "Todini and Pilati (1988), as in the EPANET 2.2 User Manual (emitters); Colebrook (1939).",
            Reckon = g =>
            {
                var line = EmitterLine.Solve(
                    g["head_m"], (int)g["count"], g["spacing_m"], g["diameter_mm"] / 1000, g["roughness_mm"], g["coeff_l_min_per_m_pow"], g["emitter_exponent"], g["fall_m"], ViscosityOf(g));
                if (line.Stop != NetworkStop.Solved) throw Unsolved();
                double first = line.EmittersLPerMin[0], last = line.EmittersLPerMin[^1];
                return [line.TotalLPerMin, first, last, first > 0 ? last / first : 0, line.LastHeadM, List(line.EmittersLPerMin)];
            },
            Meaning = a => $"The last gives {Figure.Say(100 * a["last_over_first"], "%")} of the first; all take {a.Say("total_l_min")}." +
                (a["last_over_first"] is > 0.9 and < 1.1 ? "" : " More than a tenth apart: a shorter or wider line, or one fed from its middle, waters more evenly."),
        },
    ];

    /// <summary>Results of the relation two-sizes.</summary>
    public static Value[] InSeries(Given g)
    {
        var network = new PipeNetwork(
            [new("above", g["head_m"]), new("between"), new("below", 0)],
            [
                new NetworkPipe("first", "above", "between", g["length1_m"], g["diameter1_m"], g["roughness_mm"], g["minor_k1"]),
                new NetworkPipe("second", "between", "below", g["length2_m"], g["diameter2_m"], g["roughness_mm"], g["minor_k2"]),
            ],
            ViscosityOf(g));
        if (network.Solve().Stop != NetworkStop.Solved) throw Unsolved();
        double between = network.HeadM(network.Node("between"));
        return [LPerMin(network.FlowM3PerS(network.Link("first"))), g["head_m"] - between, between];
    }

    private static Branch[] BranchesOf(Given g)
    {
        double[] lengths = g.Numbers("lengths_m"), bores = g.Numbers("diameters_mm"), ks = g.Numbers("minor_ks"), outlets = g.Numbers("outlets_m");
        int count = new[] { lengths.Length, bores.Length, ks.Length, outlets.Length }.Max();
        foreach (var (name, list) in new[] { ("lengths_m", lengths), ("diameters_mm", bores), ("minor_ks", ks), ("outlets_m", outlets) })
        {
            if (list.Length != 1 && list.Length != count) throw new RefusedInputException(new Problem(name, $"has {list.Length} figures and another list has {count}", "Give one figure for all, or one for each branch"));
        }

        if (count > 100) throw new RefusedInputException(new Problem("lengths_m", "has more than 100 branches", "Give fewer"));
        return [.. Enumerable.Range(0, count).Select(i => new Branch(At(outlets, i), At(lengths, i), At(bores, i) / 1000, g["roughness_mm"], At(ks, i)))];
    }

    private static double At(double[] list, int i) => list.Length == 1 ? list[0] : list[i];

    private static Value[] Told(ManifoldFlow flow)
    {
        if (flow.Stop != NetworkStop.Solved) throw Unsolved();
        double[] each = [.. flow.BranchesM3PerS.Select(LPerMin)];
        return [LPerMin(flow.TotalM3PerS), List(each), each.Min(), each.Max(), flow.HeadM];
    }

    private static string Shared(Answer a) => a["total_l_min"] < 1e-3 ? "Nothing runs: the outlets are as high as the water can get."
        : $"{a.Say("total_l_min")} in all; the branches give {string.Join(", ", a.Say("branches_l_min").Split(' ').Select(b => Figure.Brief(double.Parse(b, CultureInfo.InvariantCulture))))} L/min." +
            (a["least_l_min"] < 1e-3 ? " A branch gives nothing: its outlet is higher than the head reaches." : "");

    private static string List(IEnumerable<double> values) => string.Join(' ', values.Select(v => v.ToString("G7", CultureInfo.InvariantCulture)));

    private static RefusedInputException Unsolved() => new(new Problem("", "the flows could not be found", "Check lengths, bores and heads against each other"));
}
