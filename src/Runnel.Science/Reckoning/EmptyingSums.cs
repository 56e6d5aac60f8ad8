using Runnel.Science.Air;
using Runnel.Science.Pipes;
using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;
using static Runnel.Science.Reckoning.Hydraulics;

namespace Runnel.Science.Reckoning;

/// <summary>Tanks that empty, and siphons.</summary>
internal static class EmptyingSums
{
    private static readonly Input TankDiameter = Number("tank_diameter_m", "m", "width of a round tank", 0.01, 1000, "1");
    private static readonly Input TankArea = Number("tank_area_m2", "m2", "or its plan area", 1e-4, 1e6, "0.785");
    private static readonly Input Hole = Number("orifice_diameter_m", "m", "diameter of the hole", 1e-4, 5, "0.025").OnPagesIn("mm").AlsoIn(("orifice_diameter_mm", "mm"));
    private static readonly Input Cd = Number("cd", "1", "discharge coefficient: sharp edge 0.6 to 0.62, rounded 0.98", 0.3, 1, "0.61").Or("0.61");
    private static readonly Input From = Number("h1_m", "m", "level at the start, over the hole", 1e-4, 100, "0.8").Also("h_start_m", "h_m");
    private static readonly Input To = Number("h2_m", "m", "level at the end", 0, 100, "0").Or("0").Also("h_end_m");
    private static readonly Rule Falls = Rule.NotAbove("h2_m", "h1_m");

    public static readonly Relation[] All =
    [
        new("drain-down", "How long does my tank take to drain?")
        {
            Explanation = "Time that an upright tank takes to fall from one level to another through a hole in its floor or wall, with the inflow shut. A hose or pipe behind the hole makes it slower: see drain-down-pipe.",
            Inputs = [TankDiameter, TankArea, Hole, Cd, From, To, Gravity],
            Choices = [new([["tank_diameter_m"], ["tank_area_m2"]])],
            Rules = [Falls],
            Outputs = [new("time_s", "s", "time"), new("volume_l", "L", "water that runs out"), new("first_flow_l_min", "L/min", "flow at the start")],
            Along = "orifice_diameter_m", Shown = (0.01, 0.06),
            Formula = "t = 2A/(Cd a sqrt(2g)) (sqrt h1 - sqrt h2)",
            Source = "Torricelli with a discharge coefficient, falling head.",
            Cautions = [Caution.Discharge],
            Reckon = g =>
            {
                double area = AreaOf(g);
                return
                [
                    DrainDown.UprightS(area, g["orifice_diameter_m"], g["h1_m"], g["h2_m"], g["cd"], g["gravity_m_s2"]), 1000 * area * (g["h1_m"] - g["h2_m"]),
                    LPerMin(Orifice.FlowM3PerS(g["orifice_diameter_m"], g["h1_m"], g["cd"], g["gravity_m_s2"])),
                ];
            },
            Meaning = a => $"{Figure.Say(a["volume_l"], "L")} run out in {Amounts.Span(a["time_s"])}, at first {a.Say("first_flow_l_min")}.",
        },
        new("drain-down-pipe", "How long does my tank take to drain through a pipe?")
        {
            Explanation = "Time that an upright tank takes to fall from one level to another through a pipe or hose. The end of the pipe may lie lower than the tank's outlet, which speeds it up. The last millimetre over the pipe's end only trickles and is not counted.",
            Inputs =
            [
                TankDiameter.Say("0.6"), TankArea, From.Named("h1_m", "level at the start, over the tank's outlet").Within(0, 100).Say("1"), To, Number("fall_m", "m", "how much lower the pipe's end is than the tank's outlet", 0, 100, "0.5").Or("0").Say("0.5"),
                Length.Say("10"), Bore.Say("0.025"), Roughness.Or("0.007"), Number("minor_k", "1", "sum of K: plain inlet 0.5, outlet 1, elbows 0.9 each", 0.1, 1e6, "1.5").Or("1.5"), Temp, Viscosity,
            ],
            Choices = [new([["tank_diameter_m"], ["tank_area_m2"]]), Fluid],
            Rules =
            [
                Falls, SmoothEnough,
                new("h1_m", g => g["h1_m"] + g["fall_m"] > 0.002, "is less than 2 mm over the pipe's end", "Give a higher level"),
            ],
            Outputs = [new("time_s", "s", "time"), new("volume_l", "L", "water that runs out"), new("first_flow_l_min", "L/min", "flow at the start"), new("last_flow_l_min", "L/min", "flow at the end")],
            Along = "diameter_m", Shown = (0.015, 0.06),
            Formula = "t = integral of A dh/Q(h), with the steady flow at each level",
            Source = "Darcy and Weisbach with Colebrook (1939); integral by Simpson's rule.",
            Cautions = [Caution.Discharge],
            Reckon = g =>
            {
                double area = AreaOf(g), from = g["h1_m"] + g["fall_m"], to = Math.Max(g["h2_m"] + g["fall_m"], 1e-3), viscosity = ViscosityOf(g);
                double Flow(double head) => LPerMin(PipeFlow.AtHeadLoss(head, g["length_m"], g["diameter_m"], g["roughness_mm"], g["minor_k"], viscosity).FlowM3PerS);
                return [DrainDown.ThroughPipeS(area, from, to, g["length_m"], g["diameter_m"], g["roughness_mm"], g["minor_k"], viscosity), 1000 * area * (from - to), Flow(from), Flow(to)];
            },
            Meaning = a => $"{Figure.Say(a["volume_l"], "L")} run out in {Amounts.Span(a["time_s"])}, at first {a.Say("first_flow_l_min")}, at last {a.Say("last_flow_l_min")}.",
        },
        new("drain-down-with-inflow", "How long from one level to another, while water runs in?")
        {
            Explanation = "Time that an upright tank takes between two levels with a steady inflow and an open hole, up or down, and the level at which both balance. A level beyond the balance is never reached.",
            Inputs =
            [
                TankDiameter, TankArea, Hole, Cd, Number("c_m2_5_s", "m2.5/s", "outflow at 1 m of level, in place of the hole", 1e-9, 100, "0.001326"),
                Number("inflow_m3_s", "m3/s", "inflow", 1e-9, 100, "0.0003").OnPagesIn("L/min").AlsoIn(("inflow_l_min", "L/min")), From.Named("h_start_m", "level at the start, over the hole").Within(0, 100).Say("0.3").Also("h1_m"), To.Named("h_end_m", "level at the end").Say("0.1").Also("h2_m") with { Default = null, Optional = false }, Gravity,
            ],
            Choices = [new([["tank_diameter_m"], ["tank_area_m2"]]), new([["orifice_diameter_m"], ["c_m2_5_s"]])],
            Outputs = [new("time_s", "s", "time; none where that level is never reached"), new("equilibrium_level_m", "m", "level at which inflow and outflow balance")],
            Along = "inflow_m3_s", Main = "equilibrium_level_m", Shown = (0.00005, 0.001),
            Formula = "A dh/dt = Q - c sqrt h, c = Cd a sqrt(2g)",
            Source = "Torricelli with a discharge coefficient; closed form.",
            Cautions = [Caution.Discharge],
            Reckon = g =>
            {
                double c = g.Has("c_m2_5_s") ? g["c_m2_5_s"] : Orifice.FlowM3PerS(g["orifice_diameter_m"], 1, g["cd"], g["gravity_m_s2"]);
                return [DrainDown.WithInflowS(AreaOf(g), c, g["inflow_m3_s"], g["h_start_m"], g["h_end_m"]), DrainDown.BalanceM(g["inflow_m3_s"], c)];
            },
            Meaning = a => (double.IsFinite(a["time_s"]) ? $"{Amounts.Span(a["time_s"])}" : "Never") + $"; left alone the water comes to stand at {Amounts.Height(a["equilibrium_level_m"])}.",
        },
        new("drain-down-cone", "How long does a cone take to drain?")
        {
            Explanation = "Time that a cone-bottomed settler takes to fall from one level to another through the hole at its tip.",
            Inputs = [Number("half_angle_tan", "1", "radius over height of the cone", 0.01, 100, "0.5"), Hole.Say("0.02"), Cd, From.Say("0.4"), To.Say("0.1"), Gravity],
            Rules = [Falls],
            Outputs = [new("time_s", "s", "time")],
            Along = "orifice_diameter_m", Shown = (0.01, 0.06),
            Formula = "t = (2/5) pi tan^2/(Cd a sqrt(2g)) (h1^2.5 - h2^2.5)",
            Source = "Torricelli with a discharge coefficient; closed form.",
            Cautions = [Caution.Discharge],
            Reckon = g => [DrainDown.ConeS(g["half_angle_tan"], g["orifice_diameter_m"], g["h1_m"], g["h2_m"], g["cd"], g["gravity_m_s2"])],
            Meaning = a => $"{Amounts.Span(a["time_s"])}.",
        },
        new("tanks-equalise", "How long until two tanks stand level?")
        {
            Explanation = "Time until two upright tanks that are joined by a hole under water stand level.",
            Inputs = [TankArea.Named("a1_m2", "plan area of the one"), TankArea.Named("a2_m2", "plan area of the other").Say("0.5"), Number("dh_m", "m", "difference of their levels", 0, 100, "0.25"), Hole.Say("0.05"), Cd, Gravity],
            Outputs = [new("time_s", "s", "time"), new("moved_l", "L", "water that passes")],
            Along = "orifice_diameter_m", Shown = (0.015, 0.1),
            Formula = "t = 2 A1 A2/(A1 + A2) sqrt(dH)/(Cd a sqrt(2g))",
            Source = "Torricelli with a discharge coefficient.",
            Reckon = g =>
            {
                double a1 = g["a1_m2"], a2 = g["a2_m2"];
                return [DrainDown.EqualiseS(a1, a2, g["dh_m"], g["orifice_diameter_m"], g["cd"], g["gravity_m_s2"]), 1000 * a1 * a2 / (a1 + a2) * g["dh_m"]];
            },
            Meaning = a => $"{Amounts.Span(a["time_s"])}, and {a.Say("moved_l")} pass.",
        },
        new("siphon", "What does my siphon carry, and does it hold?")
        {
            Explanation = "Flow of a running siphon, and the pressure at its crest: past about 7 to 8 m below that of the air at sea level it breaks, sooner in warm or gassy water. It does not say whether the siphon starts or stops by itself: bell siphons do so by air, which no simple sum foresees.",
            Inputs =
            [
                Bore.Say("0.025"), Number("outlet_below_surface_m", "m", "how much lower the outlet is than the water", 1e-4, 100, "0.6"), Number("crest_above_surface_m", "m", "how much higher the crest is than the water", 0, 10, "0.4"),
                Number("k_sum", "1", "sum of K without the outlet: plain inlet 0.5, bends 0.9 each", 0, 1e6, "1.5").Or("1.5").Also("minor_k"), Length.Say("3"),
                Roughness.Or("0.007"), Number("f", "1", "friction factor, in place of the roughness", 0, 1, "0.025").Also("friction_factor"), Temp, Gravity,
            ],
            Choices = [new([["roughness_mm"], ["f"]]) { IsDetail = true }],
            Rules = [new("roughness_mm", g => !g.Has("roughness_mm") || g["roughness_mm"] <= 100 * g["diameter_m"], "is more than a tenth of the bore", "Give a smaller roughness")],
            Outputs = [new("velocity_m_s", "m/s", "velocity"), new("flow_l_min", "L/min", "flow"), new("crest_gauge_head_m", "m", "head at the crest against the air, negative"), new("vapour_gauge_head_m", "m", "head at which this water boils at sea level")],
            Along = "outlet_below_surface_m", Main = "flow_l_min", Shown = (0.05, 2),
            Formula = "V = sqrt(2 g H/(1 + K + f L/D)); crest head = -(hc + (1 + half the losses) V^2/2g)",
            Source = "Energy balance, half the losses before the crest; Darcy and Weisbach with Colebrook (1939).",
            Cautions = [Caution.Discharge],
            Reckon = g =>
            {
                double bore = g["diameter_m"], fall = g["outlet_below_surface_m"], crest = g["crest_above_surface_m"], k = g["k_sum"], gravity = g["gravity_m_s2"];
                var siphon = g.Has("f") ? GravityDrain.Siphon(bore, fall, crest, k, g["length_m"], g["f"], 0.5, gravity)
                    : GravityDrain.SiphonOfPipe(bore, fall, crest, k, g["length_m"], g["roughness_mm"], 0.5, WaterProperties.KinematicViscosityM2PerS(g["temp_c"]), gravity);
                double boils = -1000 * ((StandardAtmosphere.PressurePa(0) / 1000) - WaterProperties.VapourPressureKPa(g["temp_c"])) / (WaterProperties.DensityKgPerM3(g["temp_c"]) * gravity);
                return [siphon.VelocityMPerS, siphon.FlowLPerMin, siphon.CrestHeadM, boils];
            },
            Meaning = a => $"{a.Say("flow_l_min")} at {a.Say("velocity_m_s")}." + (a["crest_gauge_head_m"] < 0.75 * a["vapour_gauge_head_m"] ? " The crest is so high that it will break." : ""),
        },
    ];

    private static double AreaOf(Given g) => g.Has("tank_area_m2") ? g["tank_area_m2"] : CircleM2(g["tank_diameter_m"]);
}
