using Runnel.Science.Soil;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Soil water and run times.</summary>
internal static class Watering
{
    private const string Fao56 = "FAO-56 (Allen and others 1998), ";

    private static readonly Input PFraction = Number("p_fraction", "1", "share of the available water that goes before plants suffer", 0, 0.99, "0.4");
    private static readonly Input Taw = Number("taw_mm", "mm", "total available water in the root zone", 0.1, 2000, "72");
    private static readonly Input DuLowQuarter = Number("du_low_quarter", "1", "distribution uniformity of the low quarter, as a fraction", 0, 1, "0.65");

    public static readonly Relation[] All =
    [
        new("drip-run-time", "How long must my drippers run?")
        {
            Explanation = "Minutes for a depth of water from drip emitters.",
            Inputs = [Number("depth_mm", "mm", "depth the plants need", 0, 500, "4.2"), Number("emitter_flow_l_h", "L/h", "flow of one emitter", 1e-3, 1000, "2"), Number("emitters_per_m2", "1/m2", "emitters for each square metre", 1e-3, 1000, "3"), Number("efficiency", "1", "share that reaches the roots", 0.01, 1, "1").Or("1")],
            Outputs = [new("run_time_min", "min", "run time")],
            Along = "depth_mm", Shown = (0, 10),
            Formula = "minutes = 60 depth / (emitter flow x emitters a m2 x efficiency)",
            Source = "Definition; drip reaches 0.9 (FAO-56 and FAO training manuals).",
            Reckon = g => [Irrigation.RunTimeMin(g["depth_mm"], g["emitter_flow_l_h"] * g["emitters_per_m2"], g["efficiency"])],
            Meaning = a => $"{a.Say("run_time_min")}.",
        },
        new("precipitation-rate", "How fast do my sprinklers rain?")
        {
            Explanation = "Depth an hour from a flow over an area, in litres and square metres, or in US gallons and feet with the spacing of the heads.",
            Inputs =
            [
                Number("flow_l_h", "L/h", "flow", 0, 1e7, "90"), Number("area_m2", "m2", "area watered", 1e-3, 1e6, "6"), Number("flow_gpm", "gal_us/min", "flow", 0, 1e5, "3.7"), Number("area_ft2", "ft2", "area watered", 0.01, 1e7, "1000"),
                Number("head_spacing_ft", "ft", "distance between heads", 0.1, 1000, "30"), Number("row_spacing_ft", "ft", "distance between rows", 0.1, 1000, "26"),
            ],
            Choices = [new([["flow_l_h", "area_m2"], ["flow_gpm", "area_ft2"], ["flow_gpm", "head_spacing_ft", "row_spacing_ft"]])],
            Outputs = [new("precipitation_mm_h", "mm/h", "depth an hour"), new("precipitation_in_h", "in/h", "depth an hour")],
            Along = "flow_l_h", Shown = (0, 300),
            Formula = "mm/h = L/h / m2",
            Source = "Definition.",
            Reckon = g =>
            {
                double area = g.Has("area_m2") ? g["area_m2"] : Conversions.M2PerSquareFoot * (g.Has("area_ft2") ? g["area_ft2"] : g["head_spacing_ft"] * g["row_spacing_ft"]);
                double rate = Irrigation.RateMmPerH(g.Has("flow_l_h") ? g["flow_l_h"] : g["flow_gpm"] * 60 * Conversions.LPerUsGallon, area);
                return [rate, rate / Conversions.MmPerInch];
            },
            Meaning = a => $"{a.Say("precipitation_mm_h")}.",
        },
        new("catch-can-uniformity", "Do my sprinklers water evenly?")
        {
            Explanation = "Uniformity of a catch-can test: like cans set out over the bed, watered for a while, then measured.",
            Inputs = [Numbers("catches", "mL", "what each can caught", 0, 1e6, "12;11.5;10.8;9.2;12.3;11.9;10.1;8.7")],
            Rules = [new("catches", g => g.Numbers("catches") is { Length: >= 4 } c && c.Any(v => v > 0), "are too few, or all empty", "Give four cans or more")],
            Outputs = [new("du_low_quarter_pct", "%", "distribution uniformity of the low quarter"), new("cu_christiansen_pct", "%", "Christiansen's coefficient of uniformity"), new("mean_catch", "mL", "mean catch")],
            Formula = "DU = 100 mean of the lowest quarter / mean; CU = 100 (1 - mean deviation / mean)",
            Source = "Christiansen (1942); Keller and Bliesner (2000).",
            Reckon = g =>
            {
                var even = Irrigation.OfCatches(g.Numbers("catches"));
                return [100 * even.LowQuarter, 100 * even.Christiansen, even.Mean];
            },
            Meaning = a => $"{a.Say("du_low_quarter_pct")}: " + (a["du_low_quarter_pct"] < 55 ? "poor; clean nozzles and check pressure and spacing." : a["du_low_quarter_pct"] < 70 ? "fair." : "good."),
        },
        new("run-time-multiplier", "How much longer for the dry spots?")
        {
            Explanation = "Factor on the run time so that dry spots get enough.",
            Inputs = [DuLowQuarter],
            Outputs = [new("run_time_multiplier", "1", "factor on the run time"), new("du_low_half", "1", "uniformity of the low half")],
            Along = "du_low_quarter", Shown = (0.3, 1),
            Formula = "1/(0.4 + 0.6 DU)",
            Source = "Irrigation Association, landscape scheduling.",
            Reckon = g => [Irrigation.RunTimeMultiplier(g["du_low_quarter"]), Irrigation.LowHalf(g["du_low_quarter"])],
            Meaning = a => $"{a.Say("run_time_multiplier")} times as long.",
        },
        new("cycle-and-soak", "How do I water a slope without runoff?")
        {
            Explanation = "Splits a watering so that nothing runs off, in inches as the source has it.",
            Inputs = [Number("depth_in", "in", "depth wanted", 0, 20, "0.5"), Number("precipitation_in_h", "in/h", "rate of the sprinklers", 1e-3, 20, "1.6"), Number("intake_rate_in_h", "in/h", "what the soil takes in", 0, 20, "0.2"), Number("surface_storage_in", "in", "what may stand on it", 1e-3, 5, "0.26")],
            Outputs = [new("total_run_min", "min", "whole run time"), new("cycles", "1", "runs to split it into"), new("max_cycle_min", "min", "longest run without runoff")],
            Along = "depth_in", Shown = (0, 2),
            Formula = "longest run = 60 storage/(rate - intake); cycles = whole / longest, rounded up",
            Source = "Irrigation Association test values, as in the US EPA specification for weather-based controllers.",
            Cautions = [Caution.Discharge],
            Reckon = g =>
            {
                const double inch = Conversions.MmPerInch;
                var split = Irrigation.Split(g["depth_in"] * inch, g["precipitation_in_h"] * inch, g["intake_rate_in_h"] * inch, g["surface_storage_in"] * inch);
                return [split.TotalMin, split.Cycles, split.MostMin];
            },
            Meaning = a => $"{a.Say("cycles")} runs, {a.Say("total_run_min")} in all.",
        },
        new("leaching-requirement", "How much more water keeps salt down?")
        {
            Explanation = "Share of the water that must pass the roots to keep salt below what the crop stands.",
            Inputs = [Number("ec_water_ds_m", "dS/m", "conductivity of the water", 0, 20, "1"), Number("ec_soil_threshold_ds_m", "dS/m", "conductivity of the soil extract that the crop stands", 0.1, 30, "1.3")],
            Rules = [new("ec_water_ds_m", g => g["ec_water_ds_m"] < 2.5 * g["ec_soil_threshold_ds_m"], "is more salt than any leaching keeps down for this crop", "Take better water or a hardier crop")],
            Outputs = [new("leaching_fraction", "1", "leaching fraction")],
            Along = "ec_water_ds_m", Shown = (0, 3),
            Formula = "LF = ECw/(5 ECe - ECw)",
            Source = "Ayers and Westcot (1985), FAO Irrigation and Drainage Paper 29 rev. 1.",
            Cautions = [Caution.Discharge],
            Reckon = g => [Irrigation.LeachingFraction(g["ec_water_ds_m"], g["ec_soil_threshold_ds_m"])],
            Meaning = a => $"{Amounts.Percent(a["leaching_fraction"])} of the water must pass below the roots.",
        },
        new("taw-raw", "How much water does my soil hold for plants?")
        {
            Explanation = "Total and readily available water of a root zone.",
            Inputs = [Number("fc_m3_m3", "m3/m3", "water at field capacity", 0, 0.8, "0.32"), Number("wp_m3_m3", "m3/m3", "water at wilting point", 0, 0.8, "0.15"), Number("root_depth_m", "m", "root depth", 0, 5, "0.4"), PFraction],
            Rules = [Rule.NotAbove("wp_m3_m3", "fc_m3_m3")],
            Outputs = [new("taw_mm", "mm", "total available water"), new("raw_mm", "mm", "readily available water")],
            Along = "root_depth_m", Shown = (0, 1.5),
            Formula = "TAW = 1000 (FC - WP) Zr; RAW = p TAW",
            Source = Fao56 + "equations 82 and 83.",
            Reckon = g =>
            {
                double total = SoilWater.TotalAvailableMm(g["fc_m3_m3"], g["wp_m3_m3"], g["root_depth_m"]);
                return [total, total * g["p_fraction"]];
            },
            Meaning = a => $"Water again when {a.Say("raw_mm")} are gone.",
        },
        new("depletion-fraction-adjust", "When do plants suffer on a hot day?")
        {
            Explanation = "Share of the available water that goes before plants suffer, fitted to the day's use.",
            Inputs = [Number("p_table", "1", "share of the table, for 5 mm a day", 0, 1, "0.45"), Number("etc_mm_day", "mm/d", "crop evapotranspiration", 0, 30, "7")],
            Outputs = [new("p_fraction", "1", "share before plants suffer")],
            Along = "etc_mm_day", Shown = (0, 12),
            Formula = "p = table + 0.04 (5 - ETc), 0.1 to 0.8",
            Source = Fao56 + "table 22.",
            Reckon = g => [SoilWater.DepletionShare(g["p_table"], g["etc_mm_day"])],
            Meaning = a => $"{Amounts.Percent(a["p_fraction"])}.",
        },
        new("soil-water-day", "How dry is the root zone tonight?")
        {
            Explanation = "One day's balance of the root zone: stress, what plants used, depletion at the end, water lost below.",
            Inputs =
            [
                Number("dr_prev_mm", "mm", "depletion at the start", 0, 2000, "23"), Taw, PFraction, Number("etc_mm_day", "mm/d", "crop evapotranspiration without stress", 0, 30, "4.4"),
                Number("rain_mm", "mm", "rain", 0, 1000, "0").Or("0"), Number("runoff_mm", "mm", "of it run off", 0, 1000, "0").Or("0"), Number("irrigation_net_mm", "mm", "irrigation that got in", 0, 1000, "0").Or("0"),
            ],
            Rules = [Rule.NotAbove("runoff_mm", "rain_mm")],
            Outputs = [new("dr_end_mm", "mm", "depletion at the end"), new("ks", "1", "stress coefficient, 1 is none"), new("etc_adj_mm", "mm", "evapotranspiration"), new("deep_percolation_mm", "mm", "lost below the roots")],
            Along = "dr_prev_mm", Shown = (0, 72),
            Formula = "Ks = (TAW - Dr)/((1 - p) TAW); Dr' = Dr - (P - RO) - I + ETc + DP",
            Source = Fao56 + "equations 84 to 88.",
            Reckon = g =>
            {
                var day = SoilWater.Day(g["dr_prev_mm"], g["taw_mm"], g["p_fraction"], g["etc_mm_day"], g["rain_mm"], g["runoff_mm"], g["irrigation_net_mm"]);
                return [day.DepletionMm, day.Stress, day.EtcMm, day.PercolationMm];
            },
            Meaning = a => $"{a.Say("dr_end_mm")} short of field capacity tonight" + (a["ks"] < 1 ? "; plants suffer already." : "."),
        },
    ];
}
