using Runnel.Science.Air;
using Runnel.Science.Pipes;
using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;
using static Runnel.Science.Reckoning.Hydraulics;

namespace Runnel.Science.Reckoning;

/// <summary>What pumps deliver and need.</summary>
internal static class PumpSums
{
    private static readonly Input ShutOff = Number("shutoff_head_m", "m", "head without flow", 1e-3, 1e4, "5").Also("h0_m");
    private static readonly Input Flow1 = Number("flow1_l_min", "L/min", "flow at the first point", 1e-3, 1e7, "80").Also("q1_l_min");
    private static readonly Input Head1 = Number("head1_m", "m", "head at the first point", 0, 1e4, "3.5").Also("h1_m");
    private static readonly Input Flow2 = Number("flow2_l_min", "L/min", "flow at the second point", 1e-3, 1e7, "160").Also("q2_l_min");
    private static readonly Input Head2 = Number("head2_m", "m", "head at the second point", 0, 1e4, "0").Also("h2_m");
    private static readonly Rule[] Falling = [Rule.Below("head1_m", "shutoff_head_m"), Rule.Below("head2_m", "head1_m"), Rule.Below("flow1_l_min", "flow2_l_min")];

    public static readonly Relation[] All =
    [
        new("pump-duty", "What will my pump really deliver?")
        {
            Explanation = "Where the pump's curve meets the pipe: the flow that comes out at this lift through this pipe. The curve is read from the box or its sheet at no flow and at two flows.",
            Inputs = [ShutOff, Flow1, Head1, Flow2, Head2, Number("lift_m", "m", "height from water to outlet", 0, 1e4, "1.5"), Length.Say("6"), Bore, Roughness, MinorK, Temp],
            Rules = [.. Falling, SmoothEnough],
            Outputs = [new("flow_l_min", "L/min", "flow"), new("head_m", "m", "head at that flow")],
            Along = "lift_m", Shown = (0, 6),
            Formula = "H0 - r Q^n = lift + (f L/d + K) V^2/2g",
            Source = "Three-point curve as in the EPANET 2.2 User Manual; Darcy-Weisbach with Colebrook (1939).",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                double viscosity = ViscosityOf(g);
                var duty = Curve(g).DutyPoint(q => g["lift_m"] + PipeFlow.AtFlow(
                    q / 60_000, g["length_m"], g["diameter_m"], g["roughness_mm"], g["minor_k"], viscosity).HeadLossM);
                return [duty.FlowLPerMin, duty.HeadM];
            },
            Meaning = a => a["flow_l_min"] > 0 ? $"{a.Say("flow_l_min")}, {Figure.Say(0.06 * a["flow_l_min"], "m3/h")}, against {a.Say("head_m")}." : "Nothing: the lift is more than the pump can push.",
        },
        new("pump-curve", "What curve has my pump?")
        {
            Explanation = "The curve of a pump from what its box says: head without flow and two points, or one design point alone, which is a rough guess. Gives the head at a flow of your choice.",
            Inputs =
            [
                ShutOff, Flow1, Head1, Flow2, Head2,
                Number("design_flow_l_min", "L/min", "design flow", 1e-3, 1e7, "60"), Number("design_head_m", "m", "head at the design flow", 1e-3, 1e4, "3"),
                FlowLMin.Named("flow_l_min", "flow at which the head is wanted").Say("40").Or("0"),
            ],
            Choices = [new([["shutoff_head_m", "flow1_l_min", "head1_m", "flow2_l_min", "head2_m"], ["design_flow_l_min", "design_head_m"]])],
            Rules = Falling,
            Outputs =
            [
                new("h0_m", "m", "head without flow"), new("n", "1", "exponent n"), new("r", "1", "coefficient r, for L/min and m"),
                new("qmax_l_min", "L/min", "flow without lift"), new("head_m", "m", "head at the flow asked for"),
            ],
            Along = "flow_l_min", Main = "head_m", Shown = (0, 160),
            Formula = "H = H0 - r Q^n; from one point H0 = 4/3 H, n = 2 and twice the flow without lift",
            Source = "EPANET 2.2 User Manual, three-point and single-point pump curves. Makers allow themselves 5 to 10 %.",
            Reckon = g =>
            {
                var curve = g.Has("design_flow_l_min") ? PumpCurve.FromDesignPoint(g["design_flow_l_min"], g["design_head_m"]) : Curve(g);
                return [curve.ShutOffHeadM, curve.Exponent, curve.Coefficient, curve.MostFlowLPerMin, curve.HeadM(g["flow_l_min"])];
            },
            Meaning = a => a["head_m"] < 0 ? $"It gives {a.Say("qmax_l_min")} at most; the flow asked for is more." : $"{a.Say("head_m")} at {Figure.Say(a.Given["flow_l_min"], "L/min")}; at most {a.Say("h0_m")} and {a.Say("qmax_l_min")}.",
        },
        new("pump-curve-fit", "What curve do my measurements make?")
        {
            Explanation = "The curve closest to points that you measured with bucket, watch and tape: lift the hose end step by step and note height and flow. Three points or more, parted by blanks. Compare with an older fit to see wear.",
            Inputs =
            [
                Numbers("flows_l_min", "L/min", "flows in order", 0, 1e7, "0 20 40 60 80"), Numbers("heads_m", "m", "head at each", -10, 1e4, "5.0 4.8 4.5 4.1 3.5"),
            ],
            Rules = [new("heads_m", g => g.Numbers("heads_m").Length == g.Numbers("flows_l_min").Length, "are not as many as the flows", "Give one head for each flow"), new("flows_l_min", g => g.Numbers("flows_l_min").Distinct().Count() >= 3, "are fewer than three different ones", "Give three flows or more")],
            Outputs = [new("h0_m", "m", "head without flow"), new("n", "1", "exponent n"), new("r", "1", "coefficient r, for L/min and m"), new("qmax_l_min", "L/min", "flow without lift"), new("residual_sd_m", "m", "scatter about the curve")],
            Formula = "H = H0 - r Q^n, least squares of H",
            Source = "Curve as in the EPANET 2.2 User Manual; Levenberg and Marquardt, checked with the NIST reference problems.",
            Reckon = g =>
            {
                if (PumpCurve.Fitted(g.Numbers("flows_l_min"), g.Numbers("heads_m")) is not { } fit)
                    throw new RefusedInputException(new Problem("heads_m", "do not fall with the flow as a pump's do", "Check the order of both lists, and measure again"));
                return [fit.Curve.ShutOffHeadM, fit.Curve.Exponent, fit.Curve.Coefficient, fit.Curve.MostFlowLPerMin, fit.ResidualSdM];
            },
            Meaning = a => $"{a.Say("h0_m")} without flow and {a.Say("qmax_l_min")} without lift; your points lie within about {Amounts.Height(a["residual_sd_m"])} of the curve.",
        },
        new("operating-point", "Where do pump and pipe meet?")
        {
            Explanation = "Flow and head where a pump curve and a pipe curve of second degree meet; for those who have both as formulas.",
            Inputs =
            [
                Number("h0_m", "m", "head of the pump without flow", 1e-3, 1e4, "7.46"), Number("a_m_per_lpm2", "m", "its fall: m per (L/min)^2", 1e-12, 1e6, "0.0453"),
                Number("dz_m", "m", "lift", -1e3, 1e4, "3.52"), Number("b_m_per_lpm2", "m", "loss of the pipe: m per (L/min)^2", 0, 1e6, "0.0261"),
            ],
            Outputs = [new("flow_l_min", "L/min", "flow"), new("head_m", "m", "head")],
            Along = "dz_m", Shown = (0, 7),
            Formula = "H0 - a Q^2 = dz + b Q^2",
            Source = "Energy balance.",
            Reckon = g =>
            {
                var (flow, head) = new PumpCurve(g["h0_m"], g["a_m_per_lpm2"], 2).DutyPoint(q => g["dz_m"] + (g["b_m_per_lpm2"] * q * q));
                return [flow, head];
            },
            Meaning = a => a["flow_l_min"] > 0 ? $"{a.Say("flow_l_min")} against {a.Say("head_m")}." : "Nothing: the lift is more than the pump can push.",
        },
        new("affinity", "What does my pump do at another speed?")
        {
            Explanation = "The like point of a pump at another speed or, nearly, with a trimmed impeller: flow goes with the speed, head with its square, power with its cube. On your own pipes the point differs where there is a lift: see pump-duty.",
            Inputs =
            [
                Number("speed1_rpm", "1/min", "speed", 1, 1e5, "2800"), Number("speed2_rpm", "1/min", "other speed", 1, 1e5, "2000"), Number("speed_ratio", "1", "other speed over this one", 0.01, 2, "0.7"),
                FlowLMin.Named("flow1_l_min", "flow").Say("60"), Number("head1_m", "m", "head", 0, 1e4, "3"), Number("power1_w", "W", "shaft power", 0, 1e7, "80").OrNone(),
            ],
            Choices = [new([["speed1_rpm", "speed2_rpm"], ["speed_ratio"]])],
            Rules = [new("speed2_rpm", g => !g.Has("speed2_rpm") || g["speed2_rpm"] / g["speed1_rpm"] is >= 0.01 and <= 2, "is more than twice speed1_rpm, or less than a hundredth", "Give a speed nearer to it")],
            Outputs = [new("flow2_l_min", "L/min", "flow at the other speed"), new("head2_m", "m", "head there"), new("power2_w", "W", "power there; none where none was given")],
            Along = "speed2_rpm", Shown = (1000, 2800),
            Formula = "Q2 = Q1 n2/n1; H2 = H1 (n2/n1)^2; P2 = P1 (n2/n1)^3",
            Source = "Affinity laws, as in Crane TP-410; efficiency taken as unchanged, within a few percent down to 0.7 of the speed.",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                var like = new PumpAffinity(g["flow1_l_min"], g["head1_m"], g.Or("power1_w", 0)).AtSpeed(g.Has("speed_ratio") ? g["speed_ratio"] : g["speed2_rpm"] / g["speed1_rpm"]);
                return [like.FlowLPerMin, like.HeadM, g.Has("power1_w") ? like.PowerW : double.NaN];
            },
            Meaning = a => $"{a.Say("flow2_l_min")} at {Amounts.Height(a["head2_m"])}" + (a["power2_w"] > 0 ? $", for {a.Say("power2_w")}." : "."),
        },
        new("npsh", "How high may my pump sit above the water?")
        {
            Explanation = "Net positive suction head: what pressure is left at the pump's inlet above that at which water boils. It must stay above what the pump requires (its maker's figure), with half a metre in hand, or it cavitates, rattles and wears out. Warm water, height above the sea and a foul strainer all take from it. Only self-priming pumps draw water up at all; most pond pumps must stand in it or below its level.",
            Inputs =
            [
                Number("altitude_m", "m", "height above sea level", -450, 6000, "0").Or("0"), Number("tank_pressure_kpa", "kPa", "absolute pressure on the water, in place of the altitude", 1, 1000, "101.325"),
                Temp, Number("vapour_pressure_kpa", "kPa", "vapour pressure of the water, in place of the temperature", 0, 1000, "2.34"),
                Number("lift_m", "m", "height of the pump above the water; negative where it is flooded", -100, 20, "1.5").Or("0"), Number("losses_m", "m", "head lost in suction pipe and strainer", 0, 100, "0.5").Or("0.5"),
                Number("npshr_m", "m", "suction head that the pump requires: its maker's figure", 0, 50, "3").Or("3"),
                Number("specific_weight_kn_m3", "kN/m3", "specific weight of water", 9, 11, "9.79").Or("9.79"),
            ],
            Choices = [new([["altitude_m"], ["tank_pressure_kpa"]]), new([["temp_c"], ["vapour_pressure_kpa"]])],
            Rules = [new("vapour_pressure_kpa", g => VapourOf(g) <= PressureOf(g), "is more than the pressure on the water", "Give a cooler water or a higher pressure")],
            Outputs = [new("npsha_m", "m", "suction head there is"), new("greatest_lift_m", "m", "greatest height above the water; negative: so deep under it"), new("margin_m", "m", "suction head there is, less what is required")],
            Along = "temp_c", Main = "greatest_lift_m", Shown = (0, 60),
            Formula = "NPSHa = (p - pv)/(rho g) - lift - losses; greatest lift = (p - pv)/(rho g) - losses - NPSHr",
            Source = "Energy balance, as in Crane TP-410; vapour pressure by Hyland and Wexler (1983); standard atmosphere.",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                double available = PumpDemand.SuctionHeadM(PressureOf(g), VapourOf(g), g["lift_m"], g["losses_m"], g["specific_weight_kn_m3"]);
                return [available, PumpDemand.GreatestSuctionLiftM(PressureOf(g), VapourOf(g), g["losses_m"], g["npshr_m"], g["specific_weight_kn_m3"]), available - g["npshr_m"]];
            },
            Meaning = a => (a["greatest_lift_m"] > 0 ? $"At most {a.Say("greatest_lift_m")} above the water" : $"At least {Figure.Say(-a["greatest_lift_m"], "m")} under the water") +
                (a["margin_m"] < 0 ? "; as it sits it cavitates." : a["margin_m"] < 0.5 ? "; as it sits there is less than half a metre in hand." : "; as it sits there is enough in hand."),
        },
        new("water-properties", "How heavy and how thick is my water?")
        {
            Explanation = "Density, viscosity and vapour pressure of fresh water at air pressure. Cold water is nearly twice as thick as warm: pipes lose a little more, solids settle slower.",
            Inputs = [Temp],
            Outputs =
            [
                new("density_kg_m3", "kg/m3", "density"), new("viscosity_pa_s", "Pa s", "dynamic viscosity"), new("nu_m2_s", "m2/s", "kinematic viscosity"),
                new("vapour_pressure_kpa", "kPa", "vapour pressure"),
            ],
            Along = "temp_c", Main = "density_kg_m3", Shown = (0, 40),
            Formula = "fits in powers of the temperature",
            Source = "Kell (1975), J. Chem. Eng. Data 20:97-105; Kestin, Sokolov and Wakeham (1978), J. Phys. Chem. Ref. Data 7:941-948; Hyland and Wexler (1983).",
            Reckon = g =>
            {
                double t = g["temp_c"];
                return [WaterProperties.DensityKgPerM3(t), WaterProperties.ViscosityPaS(t), WaterProperties.KinematicViscosityM2PerS(t), WaterProperties.VapourPressureKPa(t)];
            },
            Meaning = a => $"{a.Say("density_kg_m3")}, and {Figure.Brief(1000 * a["viscosity_pa_s"])} mPa s thick.",
        },
        new("head-and-pressure", "How much pressure is a metre of water?")
        {
            Explanation = "Carries a height of water to the pressure at its foot, or a gauge's pressure to the height it could lift.",
            Inputs = [Number("head_m", "m", "height of water", -100, 1e5, "3"), Number("pressure_kpa", "kPa", "pressure above that of the air", -101, 1e6, "30"), Temp, Number("density_kg_m3", "kg/m3", "density, in place of the temperature", 500, 2000, "1000"), Gravity],
            Choices = [new([["head_m"], ["pressure_kpa"]]), new([["temp_c"], ["density_kg_m3"]]) { IsDetail = true }],
            Outputs = [new("pressure_kpa", "kPa", "pressure above that of the air"), new("head_m", "m", "height of water")],
            Along = "head_m", Shown = (0, 10),
            Formula = "p = rho g h",
            Source = "Hydrostatics.",
            Reckon = g =>
            {
                double weight = (g.Has("density_kg_m3") ? g["density_kg_m3"] : WaterProperties.DensityKgPerM3(g["temp_c"])) * g["gravity_m_s2"] / 1000;
                double head = g.Has("head_m") ? g["head_m"] : g["pressure_kpa"] / weight;
                return [g.Or("pressure_kpa", weight * head), head];
            },
            Meaning = a => $"{a.Say("head_m")} of water press with {a.Say("pressure_kpa")}, {Figure.Say(a["pressure_kpa"] / 100, "bar")}.",
        },
    ];

    private static PumpCurve Curve(Given g) => PumpCurve.ThroughPoints(g["shutoff_head_m"], g["flow1_l_min"], g["head1_m"], g["flow2_l_min"], g["head2_m"]);

    private static double PressureOf(Given g) => g.Has("tank_pressure_kpa") ? g["tank_pressure_kpa"] : StandardAtmosphere.PressurePa(g["altitude_m"]) / 1000;

    private static double VapourOf(Given g) => g.Has("vapour_pressure_kpa") ? g["vapour_pressure_kpa"] : WaterProperties.VapourPressureKPa(g["temp_c"]);
}
