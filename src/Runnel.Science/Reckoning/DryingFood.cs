using Runnel.Science.Drying;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Drying of produce, and the air that does it.</summary>
internal static class DryingFood
{
    private static readonly Input ParamK = Number("param_k", "1", "drying constant k, 1/min", 1e-9, 100, "0.02");
    private static readonly Input Monolayer = Number("m0_kg_kg", "kg/kg", "monolayer moisture, dry basis", 1e-4, 5, "0.2");
    private static readonly Input Activity = Number("water_activity", "1", "water activity", 0, 0.99, "0.5");

    public static readonly Relation[] All =
    [
        new("dried-yield", "How much dried food will I get?")
        {
            Explanation = "Dried weight and water removed from fresh produce.",
            Inputs = [Number("fresh_mass_kg", "kg", "fresh produce", 1e-6, 1e6, "5"), Number("trim_fraction", "1", "share trimmed off", 0, 0.99, "0.15"), Number("moisture_initial_wb_pct", "%", "water at the start", 0, 99.9, "85.5"), Number("moisture_final_wb_pct", "%", "water at the end", 0, 99, "18")],
            Rules = [Rule.NotAbove("moisture_final_wb_pct", "moisture_initial_wb_pct")],
            Outputs = [new("dried_mass_kg", "kg", "dried"), new("water_removed_kg", "kg", "water removed"), new("prepared_mass_kg", "kg", "after trimming"), new("drying_ratio", "1", "fresh over dried")],
            Along = "moisture_final_wb_pct", Shown = (5, 30),
            Formula = "dried = prepared (1 - start)/(1 - end)",
            Source = "Balance of dry matter; fruit below 20 %, vegetables to about 10 % water: extension services.",
            Cautions = [Caution.Food],
            Reckon = g =>
            {
                var dried = Moisture.Yield(g["fresh_mass_kg"], g["trim_fraction"], g["moisture_initial_wb_pct"] / 100, g["moisture_final_wb_pct"] / 100);
                return [dried.DriedKg, dried.WaterKg, dried.PreparedKg, dried.Ratio];
            },
            Meaning = a => $"{a.Say("dried_mass_kg")} dried; {a.Say("water_removed_kg")} of water must leave.",
        },
        new("moisture-basis", "Is that moisture on wet or dry basis?")
        {
            Explanation = "Moisture carried between wet basis (of the whole) and dry basis (of the dry matter): the two differ by a factor of several.",
            Inputs = [Number("moisture_wet_basis_pct", "%", "of the whole", 0, 99.9, "86"), Number("moisture_dry_basis_pct", "%", "of the dry matter", 0, 1e5, "461.8")],
            Choices = [new([["moisture_wet_basis_pct"], ["moisture_dry_basis_pct"]])],
            Outputs = [new("moisture_dry_basis_kg_kg", "kg/kg", "of the dry matter"), new("moisture_wet_basis_pct", "%", "of the whole")],
            Along = "moisture_wet_basis_pct", Shown = (0, 90),
            Formula = "X = M/(100 - M)",
            Source = "Definition.",
            Reckon = g =>
            {
                double dry = g.Has("moisture_wet_basis_pct") ? Moisture.DryBasis(g["moisture_wet_basis_pct"] / 100) : g["moisture_dry_basis_pct"] / 100;
                return [dry, 100 * Moisture.WetBasis(dry)];
            },
            Meaning = a => $"{a.Say("moisture_wet_basis_pct")} of the whole, {a.Say("moisture_dry_basis_kg_kg")} of dry matter.",
        },
        new("drying-air", "How much air and heat does drying take?")
        {
            Explanation = "Air and heat that carry off a kilogram of water in a dryer without losses; real ones need half as much again and more.",
            Inputs = [Number("ambient_c", "degC", "ambient air", -20, 60, "28"), Number("ambient_rh_pct", "%", "its relative humidity", 1, 100, "70"), Number("drying_air_c", "degC", "heated to", -20, 120, "50"), Number("exhaust_rh_pct", "%", "relative humidity at the exit", 1, 100, "80"), AirPressurePa.Or("101325")],
            Rules = [Rule.NotAbove("ambient_c", "drying_air_c")],
            Outputs =
            [
                new("ambient_air_m3_per_kg_water", "m3/kg", "air taken in for each kg of water"), new("heat_kj_per_kg_water", "kJ/kg", "heat for each kg of water"), new("dry_air_kg_per_kg_water", "kg/kg", "dry air for each kg of water"),
                new("humidity_ratio_in_kg_kg", "kg/kg", "humidity ratio taken in"), new("heated_rh_pct", "%", "relative humidity once heated"), new("exhaust_c", "degC", "temperature at the exit"), new("humidity_ratio_out_kg_kg", "kg/kg", "humidity ratio at the exit"),
            ],
            Along = "drying_air_c", Shown = (35, 70),
            Formula = "heating at constant humidity ratio, drying at constant enthalpy",
            Source = "ASHRAE Handbook Fundamentals (2017), chapter 1.",
            Cautions = [Caution.Food],
            Reckon = g =>
            {
                var need = DryingAir.PerKgWater(g["ambient_c"], g["ambient_rh_pct"] / 100, g["drying_air_c"], g["exhaust_rh_pct"] / 100, g["pressure_pa"]);
                return [need.AmbientAirM3PerKg, need.HeatKJPerKg, need.DryAirKgPerKg, need.RatioIn, 100 * need.HeatedRelHumidity, need.ExhaustC, need.RatioOut];
            },
            Meaning = a => $"{a.Say("ambient_air_m3_per_kg_water")} of air and {Figure.Say(a["heat_kj_per_kg_water"] / 3600, "kWh")} for each kilogram of water, at least.",
        },
        new("thin-layer-time", "How long until it is dry?")
        {
            Explanation = "Time until a thin layer has dried to a moisture ratio, with constants measured for that food in that dryer.",
            Inputs = [Number("moisture_ratio", "1", "moisture ratio wanted", 1e-3, 1, "0.1"), ParamK, Number("param_n", "1", "exponent n", 0.1, 5, "1").Or("1"), Number("param_a", "1", "factor a", 0.1, 2, "1").Or("1"), Number("param_c", "1", "constant c", -1, 1, "0").Or("0")],
            Outputs = [new("time_min", "min", "time")],
            Along = "moisture_ratio", Shown = (0.02, 0.9),
            Formula = "MR = a exp(-k t^n) + c",
            Source = "Thin-layer models of Lewis, Page, Henderson and Pabis; constants from the source of the food.",
            Cautions = [Caution.Food],
            Reckon = g => [ThinLayer.TimeTo(g["moisture_ratio"], g["param_k"], g["param_n"], g["param_a"], g["param_c"])],
            Meaning = a => double.IsFinite(a["time_min"]) ? $"{Amounts.Minutes(a["time_min"])}." : "This curve never comes so low.",
        },
        new("fick-slab", "How fast does water leave a slice?")
        {
            Explanation = "Moisture ratio of a slice that dries from both faces, by its diffusivity.",
            Inputs = [Number("diffusivity_m2_s", "m2/s", "diffusivity", 1e-13, 1e-7, "4e-10"), Number("slice_thickness_mm", "mm", "thickness", 0.01, 200, "5"), Number("time_h", "h", "time", 0, 1000, "4")],
            Outputs = [new("moisture_ratio", "1", "moisture ratio")],
            Along = "time_h", Shown = (0, 24),
            Formula = "8/pi^2 sum of exp(-(2n + 1)^2 pi^2 D t/L^2)/(2n + 1)^2",
            Source = "Crank (1975), The Mathematics of Diffusion.",
            Cautions = [Caution.Food],
            Reckon = g => [ThinLayer.FickSlab(g["diffusivity_m2_s"], g["slice_thickness_mm"], g["time_h"])],
            Meaning = a => $"{Amounts.Percent(a["moisture_ratio"])} of the water that can leave is still there.",
        },
        new("gab-isotherm", "How moist does food become in that air?")
        {
            Explanation = "Moisture of a food in balance with a water activity, with the GAB constants of that food; k = 1 is the BET form.",
            Inputs = [Activity, Monolayer, Number("gab_c", "1", "constant C", 1e-3, 1e4, "5"), Number("gab_k", "1", "constant k", 0.1, 1.5, "0.9").Or("1")],
            Rules = [new("water_activity", g => g["water_activity"] * g["gab_k"] < 0.999, "lies beyond the curve for this k", "Give a water activity below 1/k")],
            Outputs = [new("moisture_dry_basis_kg_kg", "kg/kg", "moisture, dry basis")],
            Along = "water_activity", Shown = (0, 0.85),
            Formula = "X = m0 C k aw/((1 - k aw)(1 - k aw + C k aw))",
            Source = "Guggenheim, Anderson and de Boer; Brunauer, Emmett and Teller (k = 1).",
            Cautions = [Caution.Food],
            Reckon = g => [Sorption.GabDryBasis(g["water_activity"], g["m0_kg_kg"], g["gab_c"], g["gab_k"])],
            Meaning = a => $"{a.Say("moisture_dry_basis_kg_kg")} of dry matter. Moulds stop below a water activity of about 0.6.",
        },
        new("gab-inverse", "Is my dried food dry enough?")
        {
            Explanation = "Water activity of a food from its moisture, with its GAB constants.",
            Inputs = [Number("moisture_dry_basis_kg_kg", "kg/kg", "moisture, dry basis", 0, 20, "0.3"), Monolayer, Number("gab_c", "1", "constant C", 1e-3, 1e4, "5"), Number("gab_k", "1", "constant k", 0.1, 1.5, "0.9").Or("1")],
            Outputs = [new("water_activity", "1", "water activity")],
            Along = "moisture_dry_basis_kg_kg", Shown = (0.02, 0.8),
            Formula = "the GAB curve, turned round",
            Source = "Guggenheim, Anderson and de Boer.",
            Cautions = [Caution.Food],
            Reckon = g => [Sorption.GabWaterActivity(g["moisture_dry_basis_kg_kg"], g["m0_kg_kg"], g["gab_c"], g["gab_k"])],
            Meaning = a => double.IsFinite(a["water_activity"]) ? $"Water activity {a.Say("water_activity")}: " + (a["water_activity"] <= 0.6 ? "moulds do not grow." : a["water_activity"] < 0.85 ? "moulds can grow: dry it further." : "not safe to keep.") : "Wetter than the curve reaches.",
        },
        new("stack-draught", "How much air does my dryer's chimney draw?")
        {
            Explanation = "Draught and flow of a warm column; trays in the way lower it.",
            Inputs = [Number("height_m", "m", "height between inlet and outlet", 0, 50, "2"), Number("outside_c", "degC", "outside air", -40, 60, "25"), Number("inside_c", "degC", "inside air", -40, 150, "50"), Number("opening_area_m2", "m2", "opening", 1e-6, 100, "0.02"), Number("discharge_coefficient", "1", "discharge coefficient", 0.1, 1, "0.6").Or("0.6"), AirPressurePa.Or("101325")],
            Rules = [Rule.NotAbove("outside_c", "inside_c")],
            Outputs = [new("flow_m3_s", "m3/s", "flow of warm air"), new("draught_pa", "Pa", "draught"), new("mass_flow_kg_s", "kg/s", "mass flow"), new("density_outside_kg_m3", "kg/m3", "density outside"), new("density_inside_kg_m3", "kg/m3", "density inside")],
            Along = "inside_c", Shown = (25, 80),
            Formula = "Q = Cd A sqrt(2 g H (Ti - To)/Ti), kelvin",
            Source = "ASHRAE Handbook Fundamentals, ventilation.",
            Reckon = g =>
            {
                var s = SolarCollector.Stack(g["height_m"], g["outside_c"], g["inside_c"], g["opening_area_m2"], g["discharge_coefficient"], g["pressure_pa"]);
                return [s.FlowM3PerS, s.DraughtPa, s.MassFlowKgPerS, s.OutsideKgPerM3, s.InsideKgPerM3];
            },
            Meaning = a => $"{Figure.Say(3600 * a["flow_m3_s"], "m3/h")} at most.".Replace("m3", "m³", StringComparison.Ordinal),
        },
        new("air-heater-gain", "How warm does my solar collector make the air?")
        {
            Explanation = "Useful heat and outlet temperature of a flat collector.",
            Inputs =
            [
                Number("mass_flow_kg_s", "kg/s", "air", 1e-6, 100, "0.03"), Number("cp_j_kg_k", "J/(kg K)", "heat capacity: air 1007, water 4190", 500, 5000, "1007").Or("1007"), Number("area_m2", "m2", "area", 1e-3, 1e4, "2"), Number("loss_coefficient_w_m2_k", "W/(m2 K)", "loss coefficient", 0.01, 50, "7"),
                Number("efficiency_factor", "1", "efficiency factor F'", 0.01, 1, "0.7"), Number("irradiance_w_m2", "W/m2", "sun on the collector", 1, 1500, "800"), Number("tau_alpha", "1", "transmittance times absorptance", 0, 1, "0.8"), Number("inlet_c", "degC", "inlet", -40, 150, "28"), Number("ambient_c", "degC", "ambient", -40, 60, "26"),
            ],
            Outputs = [new("outlet_c", "degC", "outlet"), new("useful_gain_w", "W", "useful gain"), new("efficiency", "1", "gain over the sun on it"), new("heat_removal_factor", "1", "heat removal factor")],
            Along = "irradiance_w_m2", Shown = (100, 1000),
            Formula = "Q = A FR (G ta - UL (Ti - Ta))",
            Source = "Hottel, Whillier and Bliss; Duffie and Beckman, Solar Engineering of Thermal Processes, chapter 6.",
            Reckon = g =>
            {
                var c = SolarCollector.Gain(g["mass_flow_kg_s"], g["cp_j_kg_k"], g["area_m2"], g["loss_coefficient_w_m2_k"], g["efficiency_factor"], g["irradiance_w_m2"], g["tau_alpha"], g["inlet_c"], g["ambient_c"]);
                return [c.OutletC, c.GainW, c.Efficiency, c.HeatRemoval];
            },
            Meaning = a => $"{a.Say("outlet_c")} at the outlet, {a.Say("useful_gain_w")}.",
        },
    ];
}
