using Runnel.Science.Plants;
using Runnel.Science.Soil;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Soil between plants that dries by itself (the dual crop coefficient), and a day under stress.</summary>
internal static class BareSoil
{
    private const string Fao56 = AirBySteps.Fao56;

    private static readonly Input Kcb = Number("kcb", "1", "basal crop coefficient", 0, 2, "0.3");
    private static readonly Input Tew = Number("tew_mm", "mm", "total evaporable water", 0.5, 100, "18");
    private static readonly Input Et0 = Number("eto_mm_day", "mm/d", "reference evapotranspiration", 0, 30, "4.5");

    public static readonly Relation[] All =
    [
        new("total-evaporable-water", "How much can the top soil lose by drying?")
        {
            Explanation = "Water that the top soil can lose to the air once it was wetted.",
            Inputs = [Number("fc_m3_m3", "m3/m3", "water at field capacity", 0, 0.8, "0.23"), Number("wp_m3_m3", "m3/m3", "water at wilting point", 0, 0.8, "0.1"), Number("evap_layer_m", "m", "depth that dries: 0.1 to 0.15", 0.01, 0.3, "0.1").Or("0.1")],
            Rules = [Rule.NotAbove("wp_m3_m3", "fc_m3_m3")],
            Outputs = [new("tew_mm", "mm", "total evaporable water")],
            Along = "evap_layer_m", Shown = (0.02, 0.2),
            Formula = "TEW = 1000 (FC - 0.5 WP) Ze",
            Source = Fao56 + "equation 73.",
            Reckon = g => [DualCropCoefficient.TotalEvaporableMm(g["fc_m3_m3"], g["wp_m3_m3"], g["evap_layer_m"])],
            Meaning = a => $"{a.Say("tew_mm")} until the surface is dust-dry.",
        },
        new("kc-max", "What is the most that wet ground and crop can lose?")
        {
            Explanation = "Greatest crop coefficient of a wet cropped surface, by wind, dryness and the height of the crop.",
            Inputs = [Kcb, Wind2, RhMin.Named("rhmin_pct", "mean lowest relative humidity"), Number("height_m", "m", "height of the crop", 0, 30, "0.3")],
            Outputs = [new("kc_max", "1", "greatest crop coefficient")],
            Along = "wind_2m_m_s", Shown = (1, 6),
            Formula = "Kc max = max(1.2 + (0.04 (u2 - 2) - 0.004 (RHmin - 45)) (h/3)^0.3, Kcb + 0.05)",
            Source = Fao56 + "equation 72.",
            Reckon = g => [DualCropCoefficient.Greatest(g["kcb"], g["wind_2m_m_s"], g["rhmin_pct"] / 100, g["height_m"])],
            Meaning = a => $"At most {a.Say("kc_max")} times the reference evapotranspiration.",
        },
        new("dual-kc-day", "How much does the soil between my plants lose today?")
        {
            Explanation = "One day of the top soil: what evaporates between the plants, beside what the plants themselves use. Worth it where watering is frequent. Yesterday's depletion goes in; left out, the top soil counts as dry.",
            Inputs =
            [
                Kcb, Number("kc_max", "1", "greatest crop coefficient", 0.05, 3, "1.21"), Et0, Number("exposed_fraction", "1", "share of the ground not covered by leaves", 0.01, 1, "0.92"),
                Number("fw", "1", "share that the last watering wetted: rain 1, sprinklers 1, drip 0.35", 0.01, 1, "0.8"), Tew, Number("rew_mm", "mm", "of it readily evaporable", 0, 99, "8"),
                Number("wetting_on_fw_mm", "mm", "rain and watering today, on the share wetted", 0, 500, "12"), Number("de_start_mm", "mm", "depletion of the top soil this morning", 0, 100, "5").OrNone(),
            ],
            Rules = [Rule.NotAbove("kcb", "kc_max"), Rule.Below("rew_mm", "tew_mm"), Rule.NotAbove("de_start_mm", "tew_mm")],
            Outputs =
            [
                new("evaporation_mm", "mm", "evaporation of the soil"), new("ke", "1", "soil evaporation coefficient"), new("kr", "1", "reduction by dryness, 1 is none"), new("few", "1", "share that is wet and open to the sun"),
                new("de_end_mm", "mm", "depletion of the top soil tonight"), new("kc", "1", "basal and soil coefficient together"), new("percolation_mm", "mm", "passed below the top soil"),
            ],
            Along = "wetting_on_fw_mm", Shown = (0, 20),
            Formula = "Ke = min(Kr (Kc max - Kcb), few Kc max); Kr = (TEW - De)/(TEW - REW)",
            Source = Fao56 + "equations 71 to 79.",
            Reckon = g =>
            {
                double few = DualCropCoefficient.ExposedWetted(1 - g["exposed_fraction"], g["fw"]);
                var soil = DualCropCoefficient.Day(
                    g.Or("de_start_mm", g["tew_mm"]), g["tew_mm"], g["rew_mm"], g["kcb"], g["kc_max"], few, g["eto_mm_day"], g["wetting_on_fw_mm"]);
                return [soil.EvaporationMm, soil.EvaporationCoefficient, soil.Reduction, few, soil.DepletionMm, g["kcb"] + soil.EvaporationCoefficient, soil.PercolationMm];
            },
            Meaning = a => $"The soil loses {a.Say("evaporation_mm")}, the plants {Figure.Say(a.Given["kcb"] * a.Given["eto_mm_day"], "mm")}.",
        },
        new("water-stress-day", "How much do my plants use on a dry day?")
        {
            Explanation = "A day without rain or watering: whether plants suffer, what they use, and how far the root zone is down at night.",
            Inputs =
            [
                Number("dr_start_mm", "mm", "depletion of the root zone this morning", 0, 2000, "61"), Number("taw_mm", "mm", "total available water of the root zone", 1, 2000, "160"),
                Number("p_fraction", "1", "share that goes before plants suffer", 0.05, 0.95, "0.4"), Number("kc", "1", "crop coefficient", 0, 2, "1.2"), Et0,
            ],
            Outputs = [new("ks", "1", "stress coefficient, 1 is none"), new("etc_adj_mm", "mm", "evapotranspiration"), new("dr_end_mm", "mm", "depletion at the end")],
            Along = "dr_start_mm", Main = "etc_adj_mm", Shown = (0, 160),
            Formula = "Ks = (TAW - Dr)/((1 - p) TAW); ETc = Ks Kc ET0",
            Source = Fao56 + "equations 81, 84 and 85.",
            Reckon = g =>
            {
                var day = SoilWater.Day(g["dr_start_mm"], g["taw_mm"], g["p_fraction"], g["kc"] * g["eto_mm_day"]);
                return [day.Stress, day.EtcMm, day.DepletionMm];
            },
            Meaning = a => a["ks"] < 1 ? $"They suffer: {Amounts.Percent(a["ks"])} of what they could use, {a.Say("etc_adj_mm")}." : $"They use {a.Say("etc_adj_mm")} and do not suffer yet.",
        },
    ];
}
