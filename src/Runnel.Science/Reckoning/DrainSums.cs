using Runnel.Science.Pipes;
using static Runnel.Science.Reckoning.Ask;
using static Runnel.Science.Reckoning.Hydraulics;

namespace Runnel.Science.Reckoning;

/// <summary>Drains and channels that run by their fall, part full or open.</summary>
internal static class DrainSums
{
    private static readonly Input Slope = Number("slope", "1", "fall over length", 1e-6, 1, "0.01");
    private static readonly Input Manning = Number("n", "1", "Manning roughness: plastic 0.009 to 0.011, concrete 0.013, earth 0.025 to 0.03", 0.005, 0.1, "0.01").Or("0.01");

    public static readonly Relation[] All =
    [
        new("drain-pipe", "How full does my drain run?")
        {
            Explanation = "A round drain that runs by its fall, part full: the flow at a depth, or the depth that a flow needs (the lower of two near full). Without either it runs full.",
            Inputs =
            [
                Bore.Say("0.05"), Number("slope", "1", "fall over length", 1e-6, 1, "0.01"),
                Number("n", "1", "Manning roughness: plastic 0.009 to 0.011", 0.005, 0.1, "0.01").Or("0.01"),
                FlowM3S.Within(1e-7, 100).Say("0.0005"),
                Number("y_over_d", "1", "depth over inside diameter", 1e-3, 1, "0.5"),
            ],
            Choices = [new([["flow_m3_s"], ["y_over_d"]], MayBeNone: true)],
            Outputs =
            [
                new("y_over_d", "1", "depth over inside diameter"),
                new Output("flow_m3_s", "m3/s", "flow in cubic metres a second").Folded(),
                new("flow_l_min", "L/min", "flow"),
                new("velocity_m_s", "m/s", "velocity"),
                new Output("full_flow_m3_s", "m3/s", "flow of the full pipe").Folded(),
                new("depth_m", "m", "depth of water"),
                new Output("area_m2", "m2", "area of water in the pipe").Folded(),
                new Output("flow_l_s", "L/s", "flow in litres a second").Folded(),
            ],
            Along = "flow_m3_s", Shown = (0.00002, 0.001),
            Formula = "V = R^(2/3) S^0.5 / n with the area and wetted edge of a circle's segment",
            Source = "Manning; Chow (1959), Open-Channel Hydraulics: constant n with depth.",
            Cautions = [Caution.Discharge],
            Reckon = g =>
            {
                double bore = g["diameter_m"], full = PartFullPipe.FullFlowM3PerS(bore, g["slope"], g["n"]);
                double depth = g.Has("flow_m3_s") ? PartFullPipe.DepthRatio(g["flow_m3_s"] / full) ?? throw TooMuch(full) : g.Or("y_over_d", 1);
                var section = PartFullPipe.Section(depth);
                double flow = section.FlowRatio * full;
                return [depth, flow, 60_000 * flow, section.VelocityRatio * PartFullPipe.ManningVelocityMPerS(bore / 4, g["slope"], g["n"]), full, depth * bore, section.AreaRatio * CircleM2(bore), 1000 * flow];
            },
            Meaning = a => a["y_over_d"] == 1 ? $"{a.Say("flow_l_min")} when full." : $"{a.Say("flow_l_min")} fill {Amounts.Percent(a["y_over_d"])} of the bore." + (a["y_over_d"] > 0.7 ? " Little room for air and slime: a wider pipe or more fall is wise." : ""),
        },
        new("drain-clog", "How high does water stand over a fouled drain?")
        {
            Explanation = "Level that drives a flow through a drain that runs full from its inlet, clean and clogged: the losses as K of its bore (plain inlet 0.5, each elbow 0.9, a screen 1 to 3). The rise tells a clog long before the flow does, until the rim is reached.",
            Inputs =
            [
                FlowLMin, Bore.Named("drain_diameter_m", "inside diameter of the drain").Say("0.032").Also("diameter_m"),
                Number("k_clean", "1", "sum of K when clean", 0, 1e6, "2.5"), Number("k_clogged", "1", "sum of K now", 0, 1e6, "40"), Gravity,
            ],
            Outputs = [new("h_clean_m", "m", "level when clean"), new("h_clogged_m", "m", "level now")],
            Along = "k_clogged", Main = "h_clogged_m", Shown = (0, 100),
            Formula = "h = (1 + K) V^2/2g",
            Source = "Energy balance.",
            Cautions = [Caution.Discharge],
            Reckon = g => [Level(g, g["k_clean"]), Level(g, g["k_clogged"])],
            Meaning = a => $"{Figure.Say(1000 * a["h_clogged_m"], "mm")} over the drain; {Figure.Say(1000 * a["h_clean_m"], "mm")} when clean. Compare with the height to the rim.",
        },
        new("channel", "What does my channel carry?")
        {
            Explanation = "Velocity and flow in an open channel or trough with a steady fall: a rectangle by its width and depth of water, any other by its area of water over wetted edge.",
            Inputs =
            [
                Number("width_m", "m", "width of a rectangular channel", 1e-3, 1000, "0.3"), Number("depth_m", "m", "depth of water in it", 1e-4, 100, "0.05"),
                Number("hydraulic_radius_m", "m", "area of water over wetted edge", 1e-5, 100, "0.0375"), Number("area_m2", "m2", "area of water", 1e-7, 1e5, "0.015"), Slope.Say("0.001"), Manning,
            ],
            Choices = [new([["width_m", "depth_m"], ["hydraulic_radius_m", "area_m2"]])],
            Outputs = [new("velocity_m_s", "m/s", "velocity"), new("flow_m3_s", "m3/s", "flow"), new("flow_l_min", "L/min", "flow in litres a minute")],
            Along = "depth_m", Main = "flow_l_min", Shown = (0.005, 0.2),
            Formula = "V = R^(2/3) S^0.5/n; Q = V A",
            Source = "Manning; Chow (1959), Open-Channel Hydraulics.",
            Cautions = [Caution.Discharge],
            Reckon = g =>
            {
                double area = g.Has("area_m2") ? g["area_m2"] : g["width_m"] * g["depth_m"];
                double radius = g.Has("area_m2") ? g["hydraulic_radius_m"] : area / (g["width_m"] + (2 * g["depth_m"]));
                double velocity = PartFullPipe.ManningVelocityMPerS(radius, g["slope"], g["n"]);
                return [velocity, velocity * area, LPerMin(velocity * area)];
            },
            Meaning = a => $"{a.Say("flow_l_min")} at {a.Say("velocity_m_s")}." + (a["velocity_m_s"] < 0.3 ? " Slow water lets solids settle." : ""),
        },
        new("part-full-section", "What is the shape of a part-full pipe?")
        {
            Explanation = "Area, wetted edge and their like at a depth of water in a round pipe, each over that of the full pipe; from the depth or from the area.",
            Inputs = [Number("y_over_d", "1", "depth over inside diameter", 1e-3, 1, "0.5"), Number("area_ratio", "1", "area of water over that of the full pipe", 1e-4, 1, "0.5")],
            Choices = [new([["y_over_d"], ["area_ratio"]])],
            Outputs =
            [
                new("y_over_d", "1", "depth over inside diameter"), new("theta_rad", "rad", "angle of the wetted arc"), new("area_ratio", "1", "area"), new("perimeter_ratio", "1", "wetted edge"),
                new("hydraulic_radius_ratio", "1", "hydraulic radius"), new("velocity_ratio", "1", "velocity"), new("flow_ratio", "1", "flow"), new("top_width_ratio", "1", "width of the surface over the bore"),
                new("section_factor_ratio", "1", "section factor A R^(2/3)"),
            ],
            Along = "y_over_d", Main = "flow_ratio", Shown = (0.02, 1),
            Formula = "theta = 2 acos(1 - 2 y/D); A = (theta - sin theta) D^2/8; P = theta D/2; V goes with R^(2/3)",
            Source = "Geometry; Chow (1959), Open-Channel Hydraulics, constant n with depth.",
            Reckon = g =>
            {
                var s = g.Has("area_ratio") ? PartFullPipe.SectionOfArea(g["area_ratio"]) : PartFullPipe.Section(g["y_over_d"]);
                double depth = g.Or("y_over_d", (1 - Math.Cos(s.AngleRad / 2)) / 2);
                return [depth, s.AngleRad, s.AreaRatio, s.PerimeterRatio, s.HydraulicRadiusRatio, s.VelocityRatio, s.FlowRatio, s.TopWidthRatio, s.FlowRatio];
            },
            Meaning = a => $"{Amounts.Percent(a["area_ratio"])} of the area carries {Amounts.Percent(a["flow_ratio"])} of the full pipe's flow.",
        },
        new("part-full-depths", "At which depths does a drain carry that share?")
        {
            Explanation = "Depths at which a round drain carries a share of its full flow: just under full it carries up to 7.6 % more than full, so two depths can do.",
            Inputs = [Number("flow_ratio", "1", "flow over that of the full pipe", 1e-6, 1.0757, "1.05")],
            Outputs =
            [
                new("y_over_d_low", "1", "lower depth over inside diameter"), new("y_over_d_high", "1", "upper depth; none below a full pipe's flow"),
                new("y_over_d_most", "1", "depth at which most runs"), new("flow_ratio_most", "1", "and how much that is"),
            ],
            Along = "flow_ratio", Main = "y_over_d_low", Shown = (0.01, 1.07),
            Formula = "the depth at which A R^(2/3) over that of the full pipe is the share",
            Source = "Manning; Chow (1959), Open-Channel Hydraulics, constant n with depth.",
            Reckon = g =>
            {
                double share = g["flow_ratio"], most = PartFullPipe.DepthOfMostFlow;
                return [PartFullPipe.DepthRatio(share), share >= 1 ? PartFullPipe.UpperDepthRatio(share) : double.NaN, most, PartFullPipe.Section(most).FlowRatio];
            },
            Meaning = a => $"At {Amounts.Percent(a["y_over_d_low"])} of the bore" + (double.IsNaN(a["y_over_d_high"]) ? "." : $", and again at {Amounts.Percent(a["y_over_d_high"])}: a drain so full gulps."),
        },
        new("drain-pipe-darcy", "What does a part-full pipe carry, by its roughness?")
        {
            Explanation = "Flow of a part-full round pipe from the roughness of its wall instead of Manning's n: for smooth plastic, where n is a guess.",
            Inputs = [Bore.Say("0.05"), Number("y_over_d", "1", "depth over inside diameter", 1e-3, 1, "0.5"), Slope, Number("ed", "1", "roughness over the hydraulic diameter (four areas over wetted edge)", 0, 0.1, "0.0002"), Temp, Viscosity],
            Choices = [Fluid],
            Outputs = [new("flow_m3_s", "m3/s", "flow"), new("flow_l_min", "L/min", "flow in litres a minute")],
            Along = "y_over_d", Main = "flow_l_min", Shown = (0.02, 1),
            Formula = "V = sqrt(2 g 4R S/f), f by Colebrook with 4R for the bore",
            Source = "Darcy and Weisbach with the hydraulic diameter, as in Crane TP-410.",
            Cautions = [Caution.Discharge],
            Reckon = g =>
            {
                double flow = PartFullPipe.DarcyFlowM3PerS(g["diameter_m"], g["y_over_d"], g["slope"], g["ed"], ViscosityOf(g));
                return [flow, LPerMin(flow)];
            },
            Meaning = a => $"{a.Say("flow_l_min")}.",
        },
    ];

    private static double Level(Given g, double k) => GravityDrain.LevelM(g["flow_l_min"], g["drain_diameter_m"], k, g["gravity_m_s2"]);

    private static RefusedInputException TooMuch(double full) => new(new Problem(
        "flow_m3_s", $"is more than this drain carries ({Figure.Say(1.0757 * full, "m3/s")} at most)", "Give a smaller flow, a wider pipe or more fall"));
}
