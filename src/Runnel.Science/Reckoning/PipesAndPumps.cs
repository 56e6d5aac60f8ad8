using Runnel.Science.Pipes;
using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Water under pressure: pipes, pumps, the sump's cycle.</summary>
internal static class PipesAndPumps
{
    private static readonly Input Length = Number("length_m", "m", "length of pipe", 0, 1e5, "20");
    private static readonly Input Bore = Number("diameter_m", "m", "inside diameter", 0.001, 10, "0.04");
    private static readonly Input Rough = Number("roughness_mm", "mm", "roughness: plastic 0.0015 to 0.007, steel 0.046", 0, 10, "0.007");
    private static readonly Input Minor = Number("minor_k", "1", "sum of the fittings' K", 0, 1e6, "0").Or("0");
    private static readonly Input Temp = WaterTemp.Within(0, 100).Or("20");

    public static readonly Relation[] All =
    [
        new("sump-cycle", "What do fill and run times say?")
        {
            Explanation = "A sump between two switch levels: fill and run times from the flows, or the flows from the times on a stopwatch.",
            Inputs =
            [
                Number("band_l", "L", "water between the two switch levels", 1e-6, 1e7, "65"),
                Number("inflow_l_min", "L/min", "water coming back to the sump", 1e-6, 1e7, "30"),
                Number("pump_l_min", "L/min", "water the pump carries", 1e-6, 1e7, "60"),
                Number("fill_s", "s", "time from pump off to pump on", 1e-3, 1e7, "130"),
                Number("run_s", "s", "time from pump on to pump off", 1e-3, 1e7, "130"),
            ],
            Choices = [new([["inflow_l_min", "pump_l_min"], ["fill_s", "run_s"]])],
            Rules = [Rule.Below("inflow_l_min", "pump_l_min")],
            Outputs =
            [
                new("fill_s", "s", "time from pump off to pump on"),
                new("run_s", "s", "time from pump on to pump off"),
                new("starts_per_h", "1/h", "starts an hour"),
                new("inflow_l_min", "L/min", "water coming back to the sump"),
                new("pump_l_min", "L/min", "water the pump carries"),
            ],
            Along = "inflow_l_min", Main = "run_s", Shown = (5, 55),
            Formula = "fill = V/Q; run = V/(P - Q); Q = V/fill; P = V/fill + V/run",
            Source = "Storage balance; MIL-HDBK-1005/9A (US DoD), pumping stations, section 2.5.3.6.",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                double band = g["band_l"];
                var flows = g.Has("fill_s") ? SumpCycle.Flows(band, g["fill_s"] / 60, g["run_s"] / 60) : new SumpFlows(g["inflow_l_min"], g["pump_l_min"]);
                var times = g.Has("fill_s") ? new SumpTimes(g["fill_s"] / 60, g["run_s"] / 60) : SumpCycle.Times(band, flows.InflowLPerMin, flows.PumpLPerMin);
                return [60 * times.FillMin, 60 * times.RunMin, times.StartsPerH, flows.InflowLPerMin, flows.PumpLPerMin];
            },
            Meaning = a => $"{a.Say("inflow_l_min")} come back and the pump carries {a.Say("pump_l_min")}: it fills in {Amounts.Seconds(a["fill_s"])}, runs {Amounts.Seconds(a["run_s"])}, {Figure.Brief(a["starts_per_h"])} starts an hour." +
                (a["starts_per_h"] > 15 ? " More than 15 starts an hour wears a motor (common practice): widen the band." : ""),
        },
        new("pipe", "How much does this pipe lose?")
        {
            Explanation = "Head lost in a full round pipe with its fittings at a flow, or the flow that a head drives through it. Real plastic pipe with joints loses 5 to 10 % more; slime narrows the bore.",
            Inputs =
            [
                Number("flow_m3_s", "m3/s", "flow", 0, 100, "0.001"),
                Number("head_loss_m", "m", "head that is lost, or that there is to lose", 0, 1e4, "1"),
                Length, Bore, Rough, Minor, Temp,
            ],
            Choices = [new([["flow_m3_s"], ["head_loss_m"]])],
            Outputs =
            [
                new("head_loss_m", "m", "head lost"),
                new("velocity_m_s", "m/s", "velocity"),
                new("reynolds", "1", "Reynolds number"),
                new("friction_factor", "1", "Darcy friction factor"),
                new("flow_m3_s", "m3/s", "flow"),
            ],
            Along = "flow_m3_s", Shown = (0, 0.003),
            Formula = "h = (f L/d + K) V^2/2g; 1/sqrt f = -2 log10(e/(3.7 d) + 2.51/(Re sqrt f)); f = 64/Re in slow flow",
            Source = "Darcy and Weisbach; Colebrook (1939); water density and viscosity from handbook fits.",
            Reckon = g =>
            {
                double viscosity = WaterProperties.KinematicViscosityM2PerS(g["temp_c"]);
                var state = g.Has("flow_m3_s") ? PipeFlow.AtFlow(g["flow_m3_s"], g["length_m"], g["diameter_m"], g["roughness_mm"], g["minor_k"], viscosity)
                    : PipeFlow.AtHeadLoss(g["head_loss_m"], g["length_m"], g["diameter_m"], g["roughness_mm"], g["minor_k"], viscosity);
                return [state.HeadLossM, state.VelocityMPerS, state.Reynolds, state.Friction, state.FlowM3PerS];
            },
            Meaning = a => $"{Figure.Say(60_000 * a["flow_m3_s"], "L/min")} at {a.Say("velocity_m_s")} lose {a.Say("head_loss_m")} of head." +
                (a["velocity_m_s"] > 2 ? " Fast water is noisy and wasteful: a wider pipe pays." : a["velocity_m_s"] < 0.3 ? " Slow water lets solids settle." : ""),
        },
        new("pump-duty", "What will my pump really deliver?")
        {
            Explanation = "Where the pump's curve meets the pipe: the flow that comes out at this lift through this pipe. The curve is read from the box or its sheet at no flow and at two flows.",
            Inputs =
            [
                Number("shutoff_head_m", "m", "head without flow", 1e-3, 1e4, "5"),
                Number("flow1_l_min", "L/min", "flow at the first point", 1e-3, 1e7, "80"),
                Number("head1_m", "m", "head at the first point", 0, 1e4, "3.5"),
                Number("flow2_l_min", "L/min", "flow at the second point", 1e-3, 1e7, "160"),
                Number("head2_m", "m", "head at the second point", 0, 1e4, "0"),
                Number("lift_m", "m", "height from water to outlet", 0, 1e4, "1.5"),
                Length.Say("6"), Bore, Rough, Minor, Temp,
            ],
            Rules = [Rule.Below("head1_m", "shutoff_head_m"), Rule.Below("head2_m", "head1_m"), Rule.Below("flow1_l_min", "flow2_l_min")],
            Outputs = [new("flow_l_min", "L/min", "flow"), new("head_m", "m", "head at that flow")],
            Along = "lift_m", Shown = (0, 6),
            Formula = "H0 - r Q^n = lift + (f L/d + K) V^2/2g",
            Source = "Three-point curve as in the EPANET 2.2 User Manual; Darcy-Weisbach with Colebrook (1939).",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                var curve = PumpCurve.ThroughPoints(g["shutoff_head_m"], g["flow1_l_min"], g["head1_m"], g["flow2_l_min"], g["head2_m"]);
                double viscosity = WaterProperties.KinematicViscosityM2PerS(g["temp_c"]);
                var duty = curve.DutyPoint(q => g["lift_m"] + PipeFlow.AtFlow(
                    q / 60_000, g["length_m"], g["diameter_m"], g["roughness_mm"], g["minor_k"], viscosity).HeadLossM);
                return [duty.FlowLPerMin, duty.HeadM];
            },
            Meaning = a => a["flow_l_min"] > 0 ? $"{a.Say("flow_l_min")}, {Figure.Say(0.06 * a["flow_l_min"], "m3/h")}, against {a.Say("head_m")}." : "Nothing: the lift is more than the pump can push.",
        },
    ];
}
