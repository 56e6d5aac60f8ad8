using Runnel.Science.Pipes;
using static Runnel.Science.Reckoning.Ask;
using static Runnel.Science.Reckoning.Hydraulics;

namespace Runnel.Science.Reckoning;

/// <summary>What fittings take, and what slime and scale take.</summary>
internal static class FittingsAndFouling
{
    public static readonly Relation[] All =
    [
        new("fitting-loss", "What does an elbow or a valve cost?")
        {
            Explanation = "Head that fittings of one kind take at a velocity, from the usual table of K. Makes differ by half and more; a half-shut valve takes many times as much.",
            Inputs =
            [
                Word("fitting", $"fitting: {string.Join(", ", MinorLoss.Fittings)}", "elbow-short-radius") with { Offers = [.. MinorLoss.InWords] },
                Number("k", "1", "K of your own, in place of a fitting", 0, 1e6, "0.9"),
                Whole("count", "1", "how many", 1, 1000, "4").Or("1"),
                Number("velocity_m_s", "m/s", "velocity in the pipe", 0, 50, "0.8").Or("1"), FlowLMin.Say("60"), Bore, Gravity,
            ],
            Choices = [new([["fitting"], ["k"]]), new([["velocity_m_s"], ["flow_l_min", "diameter_m"]])],
            Outputs = [new("k", "1", "K of one"), new("head_loss_m", "m", "head that all of them take"), new("velocity_m_s", "m/s", "velocity")],
            Along = "velocity_m_s", Main = "head_loss_m", Shown = (0, 2),
            Formula = "h = count K V^2/2g",
            Source = "EPANET 2.2 User Manual (Rossman and others, US EPA, 2020), table of minor loss coefficients.",
            Reckon = g =>
            {
                double k = g.Has("k") ? g["k"] : KOf(g.Word("fitting"));
                double velocity = g.Has("flow_l_min") ? g["flow_l_min"] / 60_000 / CircleM2(g["diameter_m"]) : g["velocity_m_s"];
                return [k, g["count"] * k * velocity * velocity / (2 * g["gravity_m_s2"]), velocity];
            },
            Meaning = a => $"{Amounts.Height(a["head_loss_m"])} of head at {a.Say("velocity_m_s")}.",
        },
        new("fitting-friction", "What friction factor are fittings rated by?")
        {
            Explanation = "Friction factor of fully rough flow in commercial steel, by which makers give the K of a valve or bend as so many pipe diameters.",
            Inputs =
            [
                Bore.Named("inside_diameter_m", "inside diameter").Also("diameter_m"), Number("roughness_m", "m", "roughness", 1e-9, 0.01, "0.0000457").Or("0.0000457").AlsoIn(("roughness_mm", "mm")),
                Number("diameters", "1", "length in pipe diameters that the maker gives: standard elbow 30, gate valve 8", 0, 10_000, "30").Or("30"),
            ],
            Rules = [new("roughness_m", g => g["roughness_m"] <= 0.1 * g["inside_diameter_m"] && g["roughness_m"] >= 1e-8 * g["inside_diameter_m"], "does not suit that bore", "Give a roughness far below the inside diameter")],
            Outputs = [new("ft", "1", "friction factor of fully rough flow"), new("k", "1", "K of the fitting")],
            Along = "inside_diameter_m", Shown = (0.015, 0.1),
            Formula = "fT = 0.25/log10((e/D)/3.7)^2; K = diameters x fT",
            Source = "Crane TP-410.",
            Reckon = g =>
            {
                double ft = FrictionFactor.FullyRough(g["roughness_m"] / g["inside_diameter_m"]);
                return [ft, g["diameters"] * ft];
            },
            Meaning = a => $"fT is {Figure.Brief(a["ft"])}, so that K is {Figure.Brief(a["k"])}.",
        },
        new("narrowed-bore", "What does slime in the pipe take?")
        {
            Explanation = "Share of the flow that is left when slime or scale narrows the bore, at the same head: a millimetre of slime all round in a 20 mm hose takes a quarter. A rougher wall takes some more.",
            Inputs =
            [
                Number("diameter_mm", "mm", "inside diameter when clean", 1, 10_000, "20"), Number("slime_mm", "mm", "thickness all round", 0, 1000, "1"),
                Number("diameter_ratio", "1", "bore now over bore when clean", 0.01, 1, "0.9"),
            ],
            Choices = [new([["diameter_mm", "slime_mm"], ["diameter_ratio"]])],
            Rules = [new("slime_mm", g => !g.Has("slime_mm") || g["slime_mm"] <= 0.49 * g["diameter_mm"], "closes the pipe", "Give a thickness below half the inside diameter")],
            Outputs =
            [
                new("flow_ratio_darcy_const_f", "1", "flow now over flow when clean"),
                new("flow_ratio_hazen_williams", "1", "the same by Hazen and Williams"),
                new("diameter_ratio", "1", "bore now over bore when clean"),
            ],
            Along = "slime_mm", Shown = (0, 5),
            Formula = "(d/d0)^2.5 with an unchanged friction factor; (d/d0)^(4.8704/1.852)",
            Source = "Darcy and Weisbach; Williams and Hazen (1905).",
            Reckon = g =>
            {
                double ratio = g.Has("diameter_ratio") ? g["diameter_ratio"] : 1 - (2 * g["slime_mm"] / g["diameter_mm"]);
                return [PipeFlow.FlowRatioOfBore(ratio), HazenWilliams.FlowRatioOfBore(ratio), ratio];
            },
            Meaning = a => $"{Amounts.Percent(a["flow_ratio_darcy_const_f"])} of the flow is left." + (a["flow_ratio_darcy_const_f"] < 0.85 ? " Pull a brush through." : ""),
        },
        new("rougher-pipe", "What does an old, rough pipe take?")
        {
            Explanation = "What a falling Hazen-Williams coefficient means: the flow that is left at the same head, and the head that the same flow then loses.",
            Inputs = [Number("c0", "1", "coefficient when new: plastic 150", 20, 200, "150"), Number("c1", "1", "coefficient now", 20, 200, "120")],
            Outputs = [new("flow_ratio", "1", "flow now over flow when new, at the same head"), new("headloss_ratio", "1", "loss now over loss when new, at the same flow")],
            Along = "c1", Shown = (60, 150),
            Formula = "flow ratio = C1/C0; loss ratio = (C0/C1)^1.852",
            Source = "Williams and Hazen (1905).",
            Reckon = g => [g["c1"] / g["c0"], HazenWilliams.HeadLossRatioOfC(g["c0"], g["c1"])],
            Meaning = a => $"{Amounts.Percent(a["flow_ratio"])} of the flow at the same head, or {Figure.Brief(a["headloss_ratio"])} times the loss at the same flow.",
        },
    ];

    private static double KOf(string fitting) => MinorLoss.Of(fitting) ?? throw new RefusedInputException(new Problem(
        "fitting", $"\"{fitting}\" is not in the table, or could be several", $"Give one of {string.Join(", ", MinorLoss.Fittings)}; or k"));
}
