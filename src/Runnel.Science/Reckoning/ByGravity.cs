using Runnel.Science.Pipes;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Water that runs over and through by itself: standpipes, holes, weirs.</summary>
internal static class ByGravity
{
    private static readonly Input Head = Number("head_m", "m", "water level above the edge or the hole's centre", 0, 50, "0.05");
    private static readonly Input FlowLMin = Number("flow_l_min", "L/min", "flow", 0, 1e7, "20");
    private static readonly Input Bore = Number("diameter_m", "m", "inside diameter", 0.001, 5, "0.05").OnPagesIn("mm").AlsoIn(("diameter_mm", "mm"), ("diameter_in", "in"));

    public static readonly Relation[] All =
    [
        new("standpipe", "How deep does water stand over my standpipe?")
        {
            Explanation = "Flow into an open standpipe from the level above its rim, or the level that a flow needs. At low head the rim works as a weir; once drowned the bore counts, and the level climbs fast.",
            Inputs =
            [
                Bore, Head.Say("0.01").OnPagesIn("mm"), FlowLMin,
                Number("cw_si", "1", "weir coefficient of the rim: 1.84 sharp, less for a thick one", 1, 2.5, "1.84").Or("1.84"),
                Number("cd", "1", "discharge coefficient of the bore", 0.3, 1, "0.6").Or("0.6"),
                Gravity,
            ],
            Choices = [new([["flow_l_min"], ["head_m"]])],
            Outputs =
            [
                new("head_m", "m", "level above the rim"),
                new("flow_l_min", "L/min", "flow"),
                new("weir_flow_l_min", "L/min", "flow at that level with the rim as a weir"),
                new("orifice_flow_l_min", "L/min", "flow at that level with the bore drowned"),
                new("governing_flow_l_min", "L/min", "the smaller of both, which governs"),
                new("crossover_head_m", "m", "level at which the control changes"),
            ],
            Along = "flow_l_min", Shown = (0, 120),
            Formula = "weir Q = Cw pi D H^1.5; drowned Q = Cd (pi D^2/4) sqrt(2 g H); the smaller governs",
            Source = "Circular-crest drop inlet with weir and orifice control; sharp crest 1.84 (SI).",
            Cautions = [Caution.Discharge],
            Reckon = g =>
            {
                double bore = g["diameter_m"], cw = g["cw_si"], cd = g["cd"], gravity = g["gravity_m_s2"];
                double head = g.Has("head_m") ? g["head_m"] : Standpipe.HeadM(bore, g["flow_l_min"], cw, cd, gravity);
                var flow = Standpipe.AtHead(bore, head, cw, cd, gravity);
                return [head, g.Or("flow_l_min", flow.LPerMin), flow.WeirLPerMin, flow.OrificeLPerMin, flow.LPerMin, Standpipe.CrossoverHeadM(bore, cw, cd, gravity)];
            },
            Meaning = a => $"{a.Say("flow_l_min")} stand {Figure.Say(1000 * a["head_m"], "mm")} over the rim" +
                (a["head_m"] > a["crossover_head_m"] ? "; it is drowned, and a little more water lifts the level much." : "."),
        },
        new("orifice", "How much runs through a hole?")
        {
            Explanation = "Flow through a round hole from the level above its centre, or the level that a flow needs.",
            Inputs = [Bore.Say("0.01"), Head.Say("0.5"), FlowLMin.Say("9"), Number("cd", "1", "discharge coefficient: sharp edge 0.6 to 0.62, rounded 0.98", 0.3, 1, "0.61").Or("0.61"), Gravity],
            Choices = [new([["head_m"], ["flow_l_min"]])],
            Outputs = [new("flow_l_min", "L/min", "flow"), new("head_m", "m", "level above the hole's centre")],
            Along = "head_m", Shown = (0, 2),
            Formula = "Q = Cd A sqrt(2 g h)",
            Source = "Torricelli with a discharge coefficient, as in hydraulics handbooks.",
            Reckon = g =>
            {
                double bore = g["diameter_m"], cd = g["cd"], gravity = g["gravity_m_s2"], atOne = 60_000 * Orifice.FlowM3PerS(bore, 1, cd, gravity);
                double head = g.Has("head_m") ? g["head_m"] : Math.Pow(g["flow_l_min"] / atOne, 2);
                return [60_000 * Orifice.FlowM3PerS(bore, head, cd, gravity), head];
            },
            Meaning = a => $"{a.Say("flow_l_min")} at {a.Say("head_m")} of water.",
        },
        new("weir", "How much runs over my weir?")
        {
            Explanation = "Flow over a thin-plate weir from the level above its crest or notch, or the level that a flow needs: a V-notch by its angle, a rectangular one by its width and height.",
            Inputs =
            [
                Head.Within(1e-4, 2).OnPagesIn("mm"), Hydraulics.FlowM3S.Within(1e-7, 100),
                Number("notch_angle_deg", "deg", "angle of a V-notch", 20, 100, "90"),
                Number("width_m", "m", "width of a rectangular weir", 0.01, 100, "0.3"),
                Number("crest_height_m", "m", "height of its crest above the floor", 1e-3, 100, "0.3"),
                Word("form", "formula of a rectangular weir", "suppressed", "suppressed", "narrow", "rehbock", "ackers").Or("suppressed"),
                Gravity,
            ],
            Choices = [new([["head_m"], ["flow_m3_s"]]), new([["notch_angle_deg"], ["width_m", "crest_height_m"]])],
            Outputs = [new Output("flow_m3_s", "m3/s", "flow in cubic metres a second").Folded(), new("flow_l_min", "L/min", "flow"), new("head_m", "m", "level above the crest or notch")],
            Along = "head_m", Main = "flow_l_min", Shown = (0.005, 0.2),
            Formula = "V-notch: Q = (8/15) Ce sqrt(2g) tan(a/2) (h + kh)^2.5; suppressed: Q = (2/3)(0.602 + 0.075 h/p) sqrt(2g) (b - 0.001)(h + 0.001)^1.5; narrow: Q = 0.554 (1 - 0.0035 h/p)(b + 0.0025) sqrt(g) (h + 0.0001)^1.5",
            Source = "Shen (1981); Kindsvater and Carter (1957); Rehbock (1929); Ackers et al. (1978).",
            Reckon = g =>
            {
                double head = g.Has("head_m") ? g["head_m"] : HeadFor(g["flow_m3_s"], h => Over(g, h));
                double flow = Over(g, head);
                return [flow, 60_000 * flow, head];
            },
            Meaning = a => $"{a.Say("flow_l_min")} at {Figure.Say(1000 * a["head_m"], "mm")} of water over the edge.",
        },
        new("orifice-plate", "What flows through my orifice plate?")
        {
            Explanation = "Flow from the difference of head over a plate with a round hole in a full pipe (corner taps), as a meter. A gauge with mercury shows 12.6 m of water for each metre.",
            Inputs =
            [
                Number("bore_m", "m", "hole of the plate", 0.001, 5, "0.02").OnPagesIn("mm").AlsoIn(("bore_mm", "mm"), ("bore_in", "in")), Number("pipe_inside_m", "m", "inside diameter of the pipe", 0.001, 10, "0.04").OnPagesIn("mm").AlsoIn(("pipe_inside_mm", "mm"), ("pipe_inside_in", "in")),
                Number("head_difference_m", "m", "difference of head", 1e-4, 100, "0.3"), Hydraulics.Temp, Hydraulics.Viscosity,
            ],
            Choices = [Hydraulics.Fluid],
            Rules = [new("bore_m", g => g["bore_m"] / g["pipe_inside_m"] is >= 0.2 and <= 0.75, "is not 0.2 to 0.75 of the pipe", "Give a hole between these")],
            Outputs = [new("flow_coefficient", "1", "flow coefficient"), new("flow_l_min", "L/min", "flow")],
            Along = "head_difference_m", Main = "flow_l_min", Shown = (0.02, 1),
            Formula = "Q = C/sqrt(1 - beta^4) A sqrt(2 g h)",
            Source = "Stolz (1978), as in ISO 5167 of 1980 (coefficients from memory); example of Crane TP-410. Reynolds numbers from 5000.",
            Reckon = g =>
            {
                double flow = Orifice.PlateFlowM3PerS(g["bore_m"], g["pipe_inside_m"], g["head_difference_m"], Hydraulics.ViscosityOf(g));
                return [flow / (Hydraulics.CircleM2(g["bore_m"]) * Math.Sqrt(2 * PipeFlow.GravityMPerS2 * g["head_difference_m"])), 60_000 * flow];
            },
            Meaning = a => $"{a.Say("flow_l_min")}.",
        },
    ];

    private static double Over(Given g, double head)
    {
        double gravity = g["gravity_m_s2"];
        if (g.Has("notch_angle_deg")) return Weir.VNotchM3PerS(head, g["notch_angle_deg"], gravity);
        Func<double, double, double, double, double> formula = g.Word("form") switch
        {
            "narrow" => Weir.NarrowRectangularM3PerS,
            "rehbock" => Weir.RehbockM3PerS,
            "ackers" => Weir.AckersM3PerS,
            _ => Weir.RectangularM3PerS,
        };
        return formula(head, g["crest_height_m"], g["width_m"], gravity);
    }

    // The flow rises with the head, so halving a bracket cannot fail.
    private static double HeadFor(double flow, Func<double, double> over)
    {
        double low = 1e-6, high = 2;
        if (over(high) < flow) throw new RefusedInputException(new Problem("flow_m3_s", "is more than 2 m of water over the weir would carry", "Give a smaller flow or a larger weir"));
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (over(middle) < flow) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }
}
