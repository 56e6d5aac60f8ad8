using Runnel.Science.Pipes;
using static Runnel.Science.Reckoning.Ask;
using static Runnel.Science.Reckoning.Hydraulics;

namespace Runnel.Science.Reckoning;

/// <summary>A sump between two switch levels.</summary>
internal static class SumpSums
{
    private static readonly Input Band = Number("v_l", "L", "water between the two switch levels", 0.001, 1e7, "65").Also("band_l").AlsoIn(("v_gal", "gal_us"));
    private static readonly Input Inflow = Number("q_l_min", "L/min", "water coming back to the sump", 0.001, 1e7, "30").Also("inflow_l_min").AlsoIn(("q_l_s", "L/s"), ("q_gal_min", "gal_us/min"));
    private static readonly Input Pump = Number("p_l_min", "L/min", "water the pump carries", 0.001, 1e7, "60").Also("pump_l_min").AlsoIn(("p_l_s", "L/s"), ("p_gal_min", "gal_us/min"));
    private static readonly Input Fill = Number("fill_s", "s", "time from pump off to pump on", 0.001, 1e7, "130").AlsoIn(("fill_min", "min"));
    private static readonly Input Run = Number("run_s", "s", "time from pump on to pump off", 0.001, 1e7, "130").AlsoIn(("run_min", "min"));
    private static readonly Rule PumpKeepsUp = Rule.Below("q_l_min", "p_l_min");

    public static readonly Relation[] All =
    [
        new("sump-cycle", "What do fill and run times say?")
        {
            Explanation = "A sump between two switch levels: fill and run times from the flows, or the flows from the times on a stopwatch.",
            Inputs =
            [
                Band.Named("band_l", "water between the two switch levels").Also("v_l"),
                Inflow.Named("inflow_l_min", "water coming back to the sump").Also("q_l_min"),
                Pump.Named("pump_l_min", "water the pump carries").Also("p_l_min"),
                Fill, Run,
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
                new("duty", "1", "share of the time that the pump runs"),
                new Output("fill_min", "min", "fill time in minutes").Folded(), new Output("run_min", "min", "run time in minutes").Folded(), new Output("cycle_min", "min", "time from start to start").Folded(),
            ],
            Along = "inflow_l_min", Main = "run_s", Shown = (5, 55),
            Formula = "fill = V/Q; run = V/(P - Q); Q = V/fill; P = V/fill + V/run",
            Source = "Storage balance; MIL-HDBK-1005/9A (US DoD), pumping stations, section 2.5.3.6.",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                double band = g["band_l"];
                if (g.Has("inflow_l_min")) return Told(SumpCycle.Times(band, g["inflow_l_min"], g["pump_l_min"]), new SumpFlows(g["inflow_l_min"], g["pump_l_min"]));
                var times = new SumpTimes(g["fill_s"] / 60, g["run_s"] / 60);
                return Told(times, SumpCycle.Flows(band, times.FillMin, times.RunMin));
            },
            Meaning = a => $"{a.Say("inflow_l_min")} come back and the pump carries {a.Say("pump_l_min")}: it fills in {Amounts.Span(a["fill_s"])}, runs {Amounts.Span(a["run_s"])}, {Figure.Brief(a["starts_per_h"])} starts an hour." +
                (a["starts_per_h"] > 15 ? " More than 15 starts an hour wears a motor (common practice): widen the band." : ""),
        },
        new("sump-flow-error", "How sure are flows from a stopwatch?")
        {
            Explanation = "Inflow and pump flow from fill and run times, with what an uncertain band and a slow finger make of them. Give one standard deviation each: half the width within which the true value lies two times in three.",
            Inputs =
            [
                Band, Number("sv_l", "L", "uncertainty of the band", 0, 1e6, "2"),
                Fill, Number("sfill_s", "s", "uncertainty of the fill time", 0, 1e6, "2"),
                Run, Number("srun_s", "s", "uncertainty of the run time", 0, 1e6, "2"),
            ],
            Outputs =
            [
                new("q_l_min", "L/min", "water coming back"), new("sq_l_min", "L/min", "its uncertainty"),
                new("p_l_min", "L/min", "water the pump carries"), new("sp_l_min", "L/min", "its uncertainty"),
            ],
            Along = "sv_l", Main = "sp_l_min", Shown = (0, 10),
            Formula = "(sQ/Q)^2 = (sV/V)^2 + (sf/f)^2; sP^2 = (P sV/V)^2 + (V sf/f^2)^2 + (V sr/r^2)^2",
            Source = "Storage balance, first-order propagation.",
            Reckon = g =>
            {
                double fill = g["fill_s"] / 60, run = g["run_s"] / 60;
                var flows = SumpCycle.Flows(g["v_l"], fill, run);
                var sd = SumpCycle.FlowsSd(g["v_l"], g["sv_l"], fill, g["sfill_s"] / 60, run, g["srun_s"] / 60);
                return [flows.InflowLPerMin, sd.InflowLPerMin, flows.PumpLPerMin, sd.PumpLPerMin];
            },
            Meaning = a => $"{Figure.Brief(a["q_l_min"])} ± {a.Say("sq_l_min")} come back; the pump carries {Figure.Brief(a["p_l_min"])} ± {a.Say("sp_l_min")}. The band's error shifts both alike, so changes from day to day are seen better than this.",
        },
        new("sump-band", "How far apart must my float switches be?")
        {
            Explanation = "Water between the switch levels that keeps starts below what the motor stands, whatever comes in; with the width of the sump, how far apart the levels must be.",
            Inputs =
            [
                Number("max_starts_per_h", "1/h", "most starts an hour that the motor stands: its maker's figure; small motors 10 to 15", 0.1, 1000, "10"), Number("t_s", "s", "shortest cycle, in place of it", 1, 1e6, "360").AlsoIn(("t_min", "min")),
                Pump, Number("well_diameter_m", "m", "width of a round sump", 0.01, 100, "0.5").OrNone(), Number("well_area_m2", "m2", "or its floor", 1e-4, 1e4, "0.2").OrNone(),
            ],
            Choices = [new([["max_starts_per_h"], ["t_s"]]), new([["well_diameter_m"], ["well_area_m2"]], MayBeNone: true)],
            Outputs = [new("v_l", "L", "water between the levels"), new("tmin_min", "min", "shortest cycle"), new("band_depth_m", "m", "distance of the levels, where the sump's width is given")],
            Along = "max_starts_per_h", Shown = (2, 30),
            Formula = "V = T P/4, T = 60/starts",
            Source = "MIL-HDBK-1005/9A (US DoD), pumping stations, section 2.5.3.6; UFC 3-240-04A (US Army Corps of Engineers, 1997): 10 to 15 min for motors under 15 kW.",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                double starts = g.Has("t_s") ? 3600 / g["t_s"] : g["max_starts_per_h"], band = SumpCycle.BandForStartsL(starts, g["p_l_min"]);
                double area = g.Has("well_area_m2") ? g["well_area_m2"] : g.Has("well_diameter_m") ? CircleM2(g["well_diameter_m"]) : double.NaN;
                return [band, 60 / starts, band / 1000 / area];
            },
            Meaning = a => $"{a.Say("v_l")} between the levels" + (double.IsNaN(a["band_depth_m"]) ? "." : $", {Figure.Say(1000 * a["band_depth_m"], "mm")} apart."),
        },
        new("most-starts", "How often can my pump start at worst?")
        {
            Explanation = "Most starts an hour that any inflow can bring about: they come when half of what the pump carries runs in.",
            Inputs = [Band, Pump],
            Outputs = [new("max_starts_per_h", "1/h", "most starts an hour"), new("q_at_max_l_min", "L/min", "inflow that brings them about"), new("tmin_min", "min", "shortest cycle")],
            Along = "v_l", Shown = (5, 150),
            Formula = "starts = 15 P/V at Q = P/2",
            Source = "MIL-HDBK-1005/9A (US DoD), pumping stations, section 2.5.3.6.",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                double most = SumpCycle.MostStartsPerH(g["v_l"], g["p_l_min"]);
                return [most, g["p_l_min"] / 2, 60 / most];
            },
            Meaning = a => $"{Figure.Brief(a["max_starts_per_h"])} an hour, when {a.Say("q_at_max_l_min")} come in." + (a["max_starts_per_h"] > 15 ? " More than 15 wears a motor (common practice): widen the band." : ""),
        },
        new("sump-stops", "Will the pump ever stop?")
        {
            Explanation = "Whether the pump empties the band at all: where as much or more comes in than it carries, it runs on and the sump rises.",
            Inputs = [Band, Inflow.Within(0, 1e7), Pump.Within(0, 1e7)],
            Outputs = [new("stops", "word", "true where it reaches its off level"), new("net_l_min", "L/min", "water the sump loses while the pump runs; negative where it rises"), new("run_min", "min", "run time; none where it does not stop")],
            Along = "q_l_min", Main = "net_l_min", Shown = (0, 120),
            Formula = "stops where Q < P; run = V/(P - Q)",
            Source = "Storage balance.",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                double net = g["p_l_min"] - g["q_l_min"];
                bool stops = SumpCycle.Stops(g["q_l_min"], g["p_l_min"]);
                return [stops ? "true" : "false", net, stops ? g["v_l"] / net : double.NaN];
            },
            Meaning = a => a.Say("stops") == "true" ? $"Yes, after {Amounts.Span(60 * a["run_min"])}." : "No: it runs on, and the sump rises unless the inflow slackens.",
        },
        new("sump-wear", "How does a weak pump show?")
        {
            Explanation = "What losing a share of its flow does to a pump's run times; fills stay as they are. The same wear shows little where much less comes in than the pump carries, and threefold where nearly as much does: judge the pump flow, not the run time.",
            Inputs = [Band, Inflow, Pump, Number("loss", "1", "share of the pump's flow that is lost", 0, 1, "0.1")],
            Rules = [PumpKeepsUp],
            Outputs =
            [
                new("run_before_min", "min", "run time before"), new("run_after_min", "min", "run time after; none where it no longer stops"),
                new("run_ratio", "1", "run time after over before"), new("duty_after", "1", "share of the time that it then runs"),
            ],
            Along = "loss", Main = "run_after_min", Shown = (0, 0.4),
            Formula = "ratio = (P - Q)/(P (1 - e) - Q)",
            Source = "Storage balance; MIL-HDBK-1005/9A, section 2.5.3.6.",
            Cautions = [Caution.Electric],
            Reckon = g =>
            {
                double before = SumpCycle.Times(g["v_l"], g["q_l_min"], g["p_l_min"]).RunMin, ratio = SumpCycle.RunRatioAfterWear(g["q_l_min"], g["p_l_min"], g["loss"]);
                return [before, before * ratio, ratio, double.IsFinite(ratio) ? g["q_l_min"] / (g["p_l_min"] * (1 - g["loss"])) : 1];
            },
            Meaning = a => double.IsFinite(a["run_ratio"]) ? $"Runs take {Amounts.Span(60 * a["run_after_min"])} instead of {Amounts.Span(60 * a["run_before_min"])}, {Figure.Brief(a["run_ratio"])} times as long." : "It no longer keeps up: it runs without end and the sump rises.",
        },
        new("sump-drain-back", "What if the riser runs back into the sump?")
        {
            Explanation = "Without a check valve the water in the riser falls back when the pump stops: fills look shorter, and the inflow read from them too high. The first moments of a run deliver nothing.",
            Inputs = [Band, Number("vr_l", "L", "water in the riser that runs back", 0, 1e6, "3"), Inflow, Pump],
            Rules = [PumpKeepsUp, Rule.Below("vr_l", "v_l")],
            Outputs =
            [
                new("fill_min", "min", "fill time"), new("run_min", "min", "run time"), new("no_delivery_min", "min", "part of it that delivers nothing"),
                new("q_naive_l_min", "L/min", "inflow as it would be read without knowing of it"),
            ],
            Along = "vr_l", Main = "q_naive_l_min", Shown = (0, 15),
            Formula = "fill = (V - Vr)/Q; run = V/(P - Q); nothing for Vr/P",
            Source = "Storage balance.",
            Reckon = g =>
            {
                var times = SumpCycle.TimesWithDrainBack(g["v_l"], g["vr_l"], g["q_l_min"], g["p_l_min"]);
                return [times.FillMin, times.RunMin, g["vr_l"] / g["p_l_min"], SumpCycle.Flows(g["v_l"], times.FillMin, times.RunMin).InflowLPerMin];
            },
            Meaning = a => $"It fills in {Amounts.Span(60 * a["fill_min"])}, as if {a.Say("q_naive_l_min")} came in; {Figure.Say(a.Given["q_l_min"], "L/min")} do.",
        },
        new("sump-overflow", "How long until the sump overflows?")
        {
            Explanation = "Time from the pump's failing with the sump at its on level until it runs over. Water still standing in tanks, troughs and pipes above keeps coming: count the room for all of it.",
            Inputs = [Number("free_volume_l", "L", "free room above the on level", 0, 1e7, "60"), Inflow],
            Outputs = [new("time_min", "min", "time until it runs over")],
            Along = "q_l_min", Shown = (2, 60),
            Formula = "t = V/Q",
            Source = "Storage balance.",
            Cautions = [Caution.StillDrains, Caution.Electric],
            Reckon = g => [SumpCycle.OverflowMin(g["free_volume_l"], g["q_l_min"])],
            Meaning = a => $"{Amounts.Minutes(a["time_min"])}" + (a["time_min"] < 2 ? ": too short for anyone to come; give the sump room, or an overflow that leads the water away." : "."),
        },
        new("sump-run-rising", "How long does a run take when the pump gives more at high water?")
        {
            Explanation = "Run time of a pump whose flow rises with the water in the sump, since it then lifts less: shorter than a steady flow makes it.",
            Inputs =
            [
                Number("area_m2", "m2", "water surface of the sump", 1e-4, 1e4, "0.25"), Number("q_m3_s", "m3/s", "inflow", 0, 10, "0.0003").OnPagesIn("L/min").AlsoIn(("q_l_min", "L/min")), Number("p0_m3_s", "m3/s", "pump flow at the off level", 1e-9, 10, "0.0012").OnPagesIn("L/min").AlsoIn(("p0_l_min", "L/min")),
                Number("b_m2_s", "m2/s", "gain of pump flow for each metre of level", 0, 10, "0.001"), Number("z_off_m", "m", "off level", -100, 100, "0.2"), Number("z_on_m", "m", "on level", -100, 100, "0.6"),
            ],
            Rules = [Rule.Below("q_m3_s", "p0_m3_s"), Rule.Below("z_off_m", "z_on_m")],
            Outputs = [new("run_s", "s", "run time"), new("run_if_p_constant_at_p0_s", "s", "run time if the flow stayed as at the off level")],
            Along = "q_m3_s", Shown = (0, 0.0011),
            Formula = "run = (A/b) ln((P0 + b dz - Q)/(P0 - Q))",
            Source = "Storage balance with a straight pump line.",
            Reckon = g =>
            {
                double depth = g["z_on_m"] - g["z_off_m"];
                return [SumpCycle.RunOfLinearPumpS(g["area_m2"], g["q_m3_s"], g["p0_m3_s"], g["b_m2_s"], depth), SumpCycle.RunOfLinearPumpS(g["area_m2"], g["q_m3_s"], g["p0_m3_s"], 0, depth)];
            },
            Meaning = a => $"{Amounts.Span(a["run_s"])}; {Amounts.Span(a["run_if_p_constant_at_p0_s"])} if it gave no more at high water.",
        },
    ];

    private static Value[] Told(SumpTimes times, SumpFlows flows) =>
        [60 * times.FillMin, 60 * times.RunMin, times.StartsPerH, flows.InflowLPerMin, flows.PumpLPerMin, times.Duty, times.FillMin, times.RunMin, times.CycleMin];
}
