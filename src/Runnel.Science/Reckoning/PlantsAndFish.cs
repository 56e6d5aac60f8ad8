using Runnel.Science.Fish;
using Runnel.Science.Plants;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Plants against fish: areas, feed, harvests, water, nitrogen.</summary>
internal static class PlantsAndFish
{
    private const string Ratios = "Rakocy, Ten guidelines (2007): rafts 60 to 100; FAO 589: leafy 40 to 50, fruiting 50 to 80; nutrient film 15 to 25 g/(m2 d).";

    private static readonly Input Area = Number("plant_area_m2", "m2", "planted area", 0, 1e6, "4");
    private static readonly Input Ratio = Number("feed_rate_ratio_g_m2_d", "g/(m2 d)", "feed for each square metre a day", 0.1, 500, "50");
    private static readonly Input Percent = Number("percent_body_weight_d", "%", "feed as a share of body weight a day", 0.001, 30, "1.5");
    private static readonly Input Biomass = Number("fish_biomass_kg", "kg", "weight of all fish", 0, 1e7, "20");
    private static readonly Input Density = Number("density_kg_m3", "kg/m3", "fish in each cubic metre of tank", 0.01, 500, "15");

    public static readonly Relation[] All =
    [
        new("whole-chain", "How many fish for my plants?")
        {
            Explanation = "From planted area over feed and fish to the tank, in one chain.",
            Inputs = [Area, Ratio, Percent, Density],
            Outputs = [new("feed_g_d", "g/d", "feed"), new("fish_biomass_kg", "kg", "fish, when grown"), new("tank_volume_l", "L", "tank")],
            Along = "plant_area_m2", Main = "fish_biomass_kg", Shown = (0, 20),
            Formula = "feed = area x ratio; fish = feed/(10 x percent); tank = 1000 fish/density",
            Source = Ratios + " Density in small systems at most 20 kg/m3 (FAO 589).",
            Cautions = [Caution.FishLaw, Caution.Drowning],
            Reckon = g =>
            {
                double feed = PlantBalance.FeedGPerDay(g["plant_area_m2"], g["feed_rate_ratio_g_m2_d"]), fish = Stocking.BiomassKg(feed, g["percent_body_weight_d"]);
                return [feed, fish, Stocking.TankL(fish, g["density_kg_m3"])];
            },
            Meaning = a => $"{a.Say("feed_g_d")} of feed, {a.Say("fish_biomass_kg")} of fish, a tank of {a.Say("tank_volume_l")}." + (a.Given["density_kg_m3"] > 20 ? " Above 20 kg/m³ is too dense for a small system." : ""),
        },
        new("feed-from-area", "How much feed do my plants want?")
        {
            Explanation = "Daily feed that keeps a planted area in nutrients.",
            Inputs = [Area, Ratio],
            Outputs = [new("feed_g_d", "g/d", "feed")],
            Along = "plant_area_m2", Shown = (0, 20),
            Formula = "area x ratio",
            Source = Ratios,
            Reckon = g => [PlantBalance.FeedGPerDay(g["plant_area_m2"], g["feed_rate_ratio_g_m2_d"])],
            Meaning = a => $"{a.Say("feed_g_d")} of feed.",
        },
        new("area-from-feed", "How many plants does my feed keep?")
        {
            Explanation = "Planted area that a daily feed keeps in nutrients.",
            Inputs = [Feed, Ratio],
            Outputs = [new("plant_area_m2", "m2", "planted area")],
            Along = "feed_g_d", Shown = (0, 1000),
            Formula = "feed/ratio",
            Source = Ratios,
            Reckon = g => [PlantBalance.AreaM2(g["feed_g_d"], g["feed_rate_ratio_g_m2_d"])],
            Meaning = a => $"{a.Say("plant_area_m2")} of plants.",
        },
        new("biomass-from-feed", "How many fish eat that feed?")
        {
            Explanation = "Weight of fish that a daily feed feeds.",
            Inputs = [Feed, Percent],
            Outputs = [new("fish_biomass_kg", "kg", "weight of all fish")],
            Along = "feed_g_d", Shown = (0, 1000),
            Formula = "feed/(10 x percent)",
            Source = "Definition.",
            Cautions = [Caution.FishLaw],
            Reckon = g => [Stocking.BiomassKg(g["feed_g_d"], g["percent_body_weight_d"])],
            Meaning = a => $"{a.Say("fish_biomass_kg")} of fish.",
        },
        new("tank-from-biomass", "How big a tank do they need?")
        {
            Explanation = "Tank for a weight of fish at a density: 10 to 20 kg/m3 is for small systems.",
            Inputs = [Biomass, Density],
            Outputs = [new("tank_volume_l", "L", "tank")],
            Along = "density_kg_m3", Shown = (5, 60),
            Formula = "1000 fish/density",
            Source = "Definition; at most 20 kg/m3 in small systems: FAO 589.",
            Cautions = [Caution.FishLaw, Caution.Drowning],
            Reckon = g => [Stocking.TankL(g["fish_biomass_kg"], g["density_kg_m3"])],
            Meaning = a => $"{a.Say("tank_volume_l")}.",
        },
        new("density", "Is my tank too full?")
        {
            Explanation = "Fish for each cubic metre of tank.",
            Inputs = [Biomass, Number("tank_volume_l", "L", "tank", 1e-3, 1e9, "1000")],
            Outputs = [new("density_kg_m3", "kg/m3", "density")],
            Along = "fish_biomass_kg", Shown = (0, 60),
            Formula = "1000 fish/litres",
            Source = "Definition; at most 20 kg/m3 in small systems: FAO 589.",
            Cautions = [Caution.FishLaw],
            Reckon = g => [Stocking.DensityKgPerM3(g["fish_biomass_kg"], g["tank_volume_l"])],
            Meaning = a => $"{a.Say("density_kg_m3")}: " + (a["density_kg_m3"] > 20 ? "more than the 20 kg/m³ of small systems; air failure leaves minutes." : "within the 20 kg/m³ of small systems."),
        },
        new("area-for-weekly-harvest", "How much bed for a weekly harvest?")
        {
            Explanation = "Plants that stand at a time, and their area, for a steady weekly harvest.",
            Inputs = [Number("plants_per_week", "1", "plants taken a week", 0, 1e6, "12"), Number("weeks_to_harvest", "wk", "weeks from planting to harvest", 0, 200, "5"), Number("plants_per_m2", "1/m2", "plants for each square metre", 0.01, 1000, "20")],
            Outputs = [new("plant_area_m2", "m2", "planted area"), new("plants", "1", "plants standing")],
            Along = "plants_per_week", Shown = (0, 50),
            Formula = "plants = a week's x weeks; area = plants/density",
            Source = "Definition; leafy 20 to 25, fruiting 4 to 8 plants for each square metre: FAO 589.",
            Reckon = g =>
            {
                double plants = PlantBalance.StandingPlants(g["plants_per_week"], 7 * g["weeks_to_harvest"], 7);
                return [plants / g["plants_per_m2"], plants];
            },
            Meaning = a => $"{a.Say("plants")} plants on {a.Say("plant_area_m2")}.",
        },
        new("succession-planting", "How many plants must stand at a time?")
        {
            Explanation = "Plants that must stand for a harvest every few days.",
            Inputs = [Number("growth_days_min", "d", "days from planting to harvest", 0, 1000, "35"), Number("transplants", "1", "plants of each harvest", 0, 1e6, "20"), Number("harvest_interval_d", "d", "days between harvests", 0.1, 365, "7")],
            Outputs = [new("plants_needed", "1", "plants standing"), new("next_harvest_days", "d", "days until the first harvest")],
            Along = "transplants", Shown = (0, 60),
            Formula = "growth days/interval x plants",
            Source = "Definition.",
            Reckon = g => [PlantBalance.StandingPlants(g["transplants"], g["growth_days_min"], g["harvest_interval_d"]), g["growth_days_min"]],
            Meaning = a => $"{a.Say("plants_needed")} plants of all ages.",
        },
        new("daily-water-loss", "How much top-up is usual?")
        {
            Explanation = "Water lost a day as a share of the system: 1 to 3 % is usual, more in dry wind.",
            Inputs = [Number("system_volume_l", "L", "water in the whole system", 0, 1e9, "2500"), Number("loss_percent_d", "%", "share lost a day", 0, 100, "2")],
            Outputs = [new("water_l_d", "L/d", "water lost")],
            Along = "loss_percent_d", Shown = (0, 10),
            Formula = "litres x percent/100",
            Source = "Definition; 1 to 3 % a day: FAO 589.",
            Reckon = g => [g["system_volume_l"] * g["loss_percent_d"] / 100],
            Meaning = a => $"{a.Say("water_l_d")}; more than that, day and night alike, is a leak.",
        },
        new("transpiration-volume", "How many litres do plants give off?")
        {
            Explanation = "Litres a day from a planted area and its evapotranspiration.",
            Inputs = [Area, Number("et_mm_d", "mm/d", "evapotranspiration", 0, 30, "4")],
            Outputs = [new("water_l_d", "L/d", "water given off")],
            Along = "et_mm_d", Shown = (0, 10),
            Formula = "area x mm",
            Source = "Definition: a millimetre on a square metre is a litre.",
            Reckon = g => [PlantBalance.WaterLPerDay(g["plant_area_m2"], g["et_mm_d"])],
            Meaning = a => $"{a.Say("water_l_d")}.",
        },
        new("nitrogen-balance", "Do plants take what the fish give?")
        {
            Explanation = "Nitrogen in a day's feed against what the plants take up.",
            Inputs = [Area, Feed, ProteinFraction, Number("nitrogen_uptake_g_m2_d", "g/(m2 d)", "nitrogen that a square metre of plants takes: 0.4 to 1", 0, 20, "0.5")],
            Outputs = [new("n_from_feed_g_d", "g/d", "nitrogen in the feed"), new("n_to_plants_g_d", "g/d", "nitrogen to the plants"), new("plant_share", "1", "share that plants take")],
            Along = "plant_area_m2", Main = "n_to_plants_g_d", Shown = (0, 20),
            Formula = "feed x protein x 0.16 against area x uptake",
            Source = "Protein holds 16 % nitrogen; fish keep a quarter to a third, solids take a part, the rest is for plants and water.",
            Reckon = g =>
            {
                double feed = PlantBalance.FeedNitrogenGPerDay(g["feed_g_d"], g["protein_fraction"]), plants = g["plant_area_m2"] * g["nitrogen_uptake_g_m2_d"];
                return [feed, plants, feed > 0 ? plants / feed : double.NaN];
            },
            Meaning = a => double.IsFinite(a["plant_share"]) ? $"Plants take {Amounts.Percent(a["plant_share"])} of the feed's nitrogen" + (a["plant_share"] > 0.6 ? ": more than fish leave over, so nitrate falls." : a["plant_share"] < 0.2 ? ": nitrate will climb." : ".") : "No feed, no nitrogen.",
        },
        new("kc-climate-adjust", "How do wind and dry air change a crop coefficient?")
        {
            Explanation = "A crop coefficient of the tables fitted to your wind, dryness and the height of the crop.",
            Inputs = [Number("kc_table", "1", "coefficient of the table", 0, 2, "1.15"), Wind2, RhMin.Named("rhmin_pct", "mean lowest relative humidity"), Number("height_m", "m", "height of the crop", 0, 30, "0.4")],
            Outputs = [new("kc", "1", "crop coefficient")],
            Along = "wind_2m_m_s", Shown = (1, 6),
            Formula = "Kc = table + (0.04 (u2 - 2) - 0.004 (RHmin - 45)) (h/3)^0.3",
            Source = "FAO-56 (Allen and others 1998), equations 62 and 65.",
            Reckon = g => [CropCoefficient.ForClimate(g["kc_table"], g["wind_2m_m_s"], g["rhmin_pct"] / 100, g["height_m"])],
            Meaning = a => $"{a.Say("kc")} times the reference evapotranspiration.",
        },
        new("kc-curve", "What is the crop coefficient today?")
        {
            Explanation = "Crop coefficient on a day of the season, from its stages.",
            Inputs =
            [
                Number("day", "d", "day from planting", 0, 1000, "40"), Number("l_ini_days", "d", "initial stage", 0, 500, "25"), Number("l_dev_days", "d", "development stage", 0.1, 500, "30"),
                Number("l_mid_days", "d", "mid stage", 0, 500, "30"), Number("l_late_days", "d", "late stage", 0.1, 500, "10"), Number("kc_ini", "1", "coefficient at the start", 0, 2, "0.7"),
                Number("kc_mid", "1", "coefficient at full cover", 0, 2, "1"), Number("kc_end", "1", "coefficient at harvest", 0, 2, "0.95"),
            ],
            Outputs = [new("kc", "1", "crop coefficient")],
            Along = "day", Shown = (0, 120),
            Formula = "level in the initial and mid stages, straight lines between",
            Source = "FAO-56 (Allen and others 1998), equation 66.",
            Reckon = g => [CropCoefficient.OnDay(new CropStages(g["l_ini_days"], g["l_dev_days"], g["l_mid_days"], g["l_late_days"], g["kc_ini"], g["kc_mid"], g["kc_end"]), g["day"])],
            Meaning = a => $"{a.Say("kc")} times the reference evapotranspiration.",
        },
    ];
}
