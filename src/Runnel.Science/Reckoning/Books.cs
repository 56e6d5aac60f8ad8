using Runnel.Science.Drying;
using Runnel.Science.Figures;
using Runnel.Science.Fish;
using Runnel.Science.Plants;
using Runnel.Science.Soil;
using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>What the tables of reference data say, each figure with its source.</summary>
internal static class Books
{
    private const string Fao56 = "Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, ";

    public static readonly Relation[] All =
    [
        new LookUp<CropFigures>(CropFigures.All, c => c.Source, c => c.Provenance)
            .By("crop", "crop", c => c.Crop)
            .Gives("kc_mid", "1", "crop coefficient at full cover", c => c.KcMid).Gives("kc_ini", "1", "crop coefficient at the start", c => c.KcInitial).Gives("kc_end", "1", "crop coefficient at harvest", c => c.KcEnd)
            .Gives("height_m", "m", "greatest height", c => c.HeightM)
            .Gives("kcb_ini", "1", "basal coefficient at the start", c => c.KcbInitial).Gives("kcb_mid", "1", "basal coefficient at full cover", c => c.KcbMid).Gives("kcb_end", "1", "basal coefficient at harvest", c => c.KcbEnd)
            .GivesRange("root_depth", "_m", "m", "greatest root depth", c => c.RootDepthM).Gives("p_fraction", "1", "share of the water that goes before stress", c => c.DepletionShare)
            .As("crop-coefficients", "What are the coefficients of my crop?", "Crop coefficients, height, roots and the share of the soil's water that a crop takes before it suffers, in a dry, windy standard climate.",
                Fao56 + "tables 12, 17 and 22.", a => $"At full cover {a.Say("kc_mid")} times the reference evapotranspiration."),
        new LookUp<CropStageLengths>(CropStageLengths.All, c => c.Source, c => c.Provenance)
            .By("crop", "crop", c => c.Crop).By("region", "region and planting time", c => c.Region, optional: true)
            .Gives("total_days", "d", "from planting to the end", c => c.TotalDays).Gives("ini_days", "d", "initial stage", c => c.InitialDays).Gives("dev_days", "d", "development stage", c => c.DevelopmentDays)
            .Gives("mid_days", "d", "mid stage", c => c.MidDays).Gives("late_days", "d", "late stage", c => c.LateDays)
            .Says("where", "region and planting time of these figures", c => c.Region)
            .As("crop-stages", "How long do the stages of my crop last?", "Lengths of a crop's stages in a region. Variety and warmth shift them by weeks: count your own where you can.",
                Fao56 + "table 11.", a => $"{a.Say("total_days")} in all ({a.Say("where")})."),
        new LookUp<CropNeeds>(CropNeeds.All, c => c.Source, c => c.Provenance)
            .By("crop", "crop", c => c.Crop)
            .GivesRange("ph", "", "1", "pH of the water", c => c.Ph).GivesRange("temp_c", "", "degC", "temperature it stands", c => c.TempC).GivesRange("optimal_temp_c", "", "degC", "temperature it likes", c => c.OptimalTempC)
            .GivesRange("plants_per_m2", "", "1/m2", "plants for each square metre", c => c.PlantsPerM2).GivesRange("spacing_cm", "", "cm", "distance between plants", c => c.SpacingCm)
            .GivesRange("germination_days", "", "d", "days to germinate", c => c.GerminationDays).GivesRange("germination_temp_c", "", "degC", "temperature to germinate", c => c.GerminationTempC)
            .GivesRange("growth_days", "", "d", "days from planting to harvest", c => c.GrowthDays).Says("note", "what else to know", c => c.Note)
            .As("crop-needs", "What does my crop want in fish water?", "Water, warmth, room and time of a crop that grows on fish water.",
                "FAO Fisheries and Aquaculture Technical Paper 589 (2014), appendix 1, and courses that are named beside each crop.", a => $"{Between(a, "plants_per_m2", "plants for each square metre", "")}{Between(a, "growth_days", "days to harvest", "pH " + Ends(a, "ph"))}"),
        new LookUp<DeficiencySign>(DeficiencySign.All, d => d.Source, d => d.Provenance)
            .By("deficiency_element", "element that may be short", d => d.Element)
            .Says("symptom", "what is seen", d => d.Sign).Says("symptom_leaf_age", "leaves that show it first", d => d.OldLeaves ? "old" : "new")
            .As("deficiency-sign", "What do leaves look like when an element is short?", "Signs of want. Old leaves show it first where the plant can move the element, new ones where it cannot; pH, cold roots and drowned roots look alike.",
                "FAO Fisheries and Aquaculture Technical Paper 589 (2014), section 6.2.", a => $"{a.Say("symptom")}; {a.Say("symptom_leaf_age")} leaves first."),
        new LookUp<ProduceMoisture>(ProduceMoisture.All, f => f.Source, f => f.Provenance)
            .By("food", "food", f => f.Food).By("state", "fresh or dried", f => f.IsDried ? "dried" : "fresh", optional: true).By("species", "species", f => f.Species, optional: true)
            .Gives("water_g_per_100g", "g", "water in 100 g", f => 100 * f.WaterFraction).Gives("plus_minus_g_per_100g", "g", "give or take", f => 100 * f.PlusMinus)
            .As("produce-moisture", "How much water is in my produce?", "Water in fresh and dried produce, wet basis: what a drying sum begins with. Ripeness and weather shift it by several percent.",
                "Indian Food Composition Tables (2017); USDA FoodData Central.", a => $"{a.Say("water_g_per_100g")} of water in 100 g.", Caution.Food),
        new LookUp<Kept>(Kept.All, k => k.Source, k => k.Provenance)
            .By("subject", "what it holds for", k => k.Subject)
            .Gives("moisture_max_wb_pct", "%", "water at most, wet basis", k => k["moisture_max_wb_pct"]).Gives("moisture_min_wb_pct", "%", "water at least, wet basis", k => k["moisture_min_wb_pct"])
            .Gives("water_activity_max", "1", "water activity at most", k => k["water_activity_max"]).Gives("storage_months", "mo", "keeps for", k => k["storage_months"])
            .Gives("oven_temperature_f", "degF", "oven", k => k["oven_temperature_f"]).Gives("hold_min", "min", "hold for", k => k["hold_min"])
            .Gives("condition_days_min", "d", "condition for, from", k => k["condition_days_min"]).Gives("condition_days_max", "d", "condition for, to", k => k["condition_days_max"])
            .As("drying-safety", "What keeps dried food safe?", "Limits of moisture, water activity and storage for dried food, as extension services and food law print them.",
                "Extension services (Kansas State, NCHFP), ICMSF (1980), 21 CFR 114; named beside each figure.", a => "As the source has it; where they differ, the stricter one.", Caution.Food),
        new LookUp<SoilTexture>(SoilTexture.All, t => t.Source, t => t.Provenance)
            .By("texture", "texture of the soil", t => t.Texture)
            .GivesRange("fc", "_m3_m3", "m3/m3", "water at field capacity", t => t.FieldCapacity).GivesRange("wp", "_m3_m3", "m3/m3", "water at wilting point", t => t.WiltingPoint)
            .GivesRange("fc_minus_wp", "_m3_m3", "m3/m3", "water between them", t => t.Available).GivesRange("rew", "_mm", "mm", "readily evaporable water", t => t.ReadilyEvaporableMm).GivesRange("tew", "_mm", "mm", "total evaporable water", t => t.TotalEvaporableMm)
            .As("soil-texture", "How much water does my kind of soil hold?", "Water that soils hold, by texture.", Fao56 + "table 19.", a => $"{Ends(a, "fc_minus_wp", "_m3_m3", 1000)} mm for plants in each metre of depth."),
        new LookUp<PlanningFigure>([.. PlanningFigure.Of("water taken in by soil")], f => f.Source, f => f.Provenance)
            .By("texture", "texture of the soil", f => f.Subject).GivesRange("intake", "_mm_h", "mm/h", "water taken in", f => f.Range)
            .As("intake-rate", "How fast does my soil take water in?", "Steady intake of soils by texture: watering faster than that makes puddles.", "FAO Irrigation Water Management Training Manual 5, annex 2.", a => $"{Ends(a, "intake", "_mm_h")} mm an hour."),
        new LookUp<PlanningFigure>([.. PlanningFigure.Of("share of the watering that reaches the roots")], f => f.Source, f => f.Provenance)
            .By("method", "way of watering", f => f.Subject).Gives("efficiency", "1", "share that reaches the roots", f => f.Range.Middle)
            .As("application-efficiency", "How much of my watering reaches the roots?", "Usual efficiency of ways of watering.", "FAO Irrigation Water Management Training Manual 4, annex I.", a => $"{Amounts.Percent(a["efficiency"])} of the water."),
        new LookUp<(string Surface, double Least, double Greatest)>([.. RunoffCoefficients.Surfaces.Select(s => (s, RunoffCoefficients.Of(s)!.Value.Least, RunoffCoefficients.Of(s)!.Value.Greatest))], _ => RoofSource, s => s.Surface == "tiles" ? "memory: not in the reprint" : "read: reprint of the table")
            .By("surface", "roof or ground", s => s.Surface).GivesRange("coefficient", "", "1", "share that runs off", s => new FigureRange(s.Least, s.Greatest))
            .As("runoff-coefficient", "How much of the rain runs off my roof?", "Share of rain that runs off a surface into the gutter.", RoofSource, a => $"{Ends(a, "coefficient")} of the rain."),
        new LookUp<FeedChartCell>(FeedChart.Printed, c => c.Source, c => c.Provenance)
            .By("length_class_in", "length of the trout, inches", c => c.LengthIn).By("temp_f", "water temperature, whole degrees F", c => Figure.Of(c.TempF))
            .Gives("percent_body_weight_d", "%", "feed as a share of body weight a day", c => c.PercentOfBodyWeight)
            .As("trout-feed-chart", "What does the trout chart say?", "Feed for rainbow trout by length and water temperature, as the chart prints it.", "Leitritz and Lewis (1980), Trout and Salmon Culture.", a => $"{a.Say("percent_body_weight_d")} of their weight a day.", Caution.FishLaw),
        new LookUp<SystemSize>(SystemSize.All, s => s.Source, s => s.Provenance)
            .By("tank_volume_l", "tank of the guide, litres", s => Figure.Of(s.TankL))
            .Gives("fish_biomass_kg", "kg", "fish at most", s => s.FishKg).Gives("feed_g_d", "g/d", "feed", s => s.FeedGPerDay).Gives("plant_area_m2", "m2", "leafy plants", s => s.PlantAreaM2)
            .GivesRange("filters", "_l", "L", "filters", s => s.FiltersL)
            .As("small-system", "How big are the parts of a small system?", "Sizes that go together in small systems: tank, fish, feed, filters and leafy plants.", "FAO Fisheries and Aquaculture Technical Paper 589 (2014), table 8.1.",
                a => $"Up to {a.Say("fish_biomass_kg")} of fish on {a.Say("feed_g_d")} of feed for {a.Say("plant_area_m2")} of leafy plants.", Caution.FishLaw, Caution.Drowning),
        new LookUp<(string Salt, double Percent, double Pm)>([.. Sorption.SaltsListed.Select(s => (s, 100 * Sorption.OverSalt(s)!.Value.RelHumidity, 100 * Sorption.OverSalt(s)!.Value.Pm))], _ => Greenspan, _ => "memory: from general knowledge")
            .By("salt", "salt", s => s.Salt).Gives("rh_pct", "%", "relative humidity over it at 25 °C", s => s.Percent).Gives("plus_minus_pct", "%", "give or take", s => s.Pm)
            .As("salt-humidity", "Is my hygrometer right?", "Humidity in a closed jar over a wet salt at 25 °C: a hygrometer left there for a night should show it.", Greenspan, a => $"It should show {a.Say("rh_pct")}, give or take {a.Say("plus_minus_pct")}."),
        new LookUp<PlanningFigure>([.. PlanningFigure.Of("effective diffusivity of moisture")], f => f.Source, f => f.Provenance)
            .By("food", "food and how it was dried", f => f.Subject).GivesRange("diffusivity", "_m2_s", "m2/s", "diffusivity of its moisture", f => f.Range)
            .As("moisture-diffusivity", "How fast does moisture move in my food?", "Diffusivities of moisture that were measured: only good for how large they are.", "Journals, named beside each figure.", a => $"{Ends(a, "diffusivity", "_m2_s")} m²/s."),
        new LookUp<PlanningFigure>(PlanningFigure.All, f => f.Source, f => f.Provenance)
            .By("quantity", "what to know", f => f.Quantity).By("subject", "about what", f => f.Subject, optional: true)
            .Gives("least", "1", "from", f => f.Range.Least).Gives("greatest", "1", "to", f => f.Range.Greatest).Says("unit", "unit", f => f.Unit).Says("about", "about what", f => f.Subject).Says("note", "what else to know", f => f.Note)
            .As("planning-figure", "What figures do keepers plan by?", "Targets, rates and rules of print and practice. Where several subjects or sources have a figure, name the subject too.",
                "FAO 589, Rakocy (2007) and others, named beside each figure.", a => $"{(a["least"] == a["greatest"] ? Figure.Brief(a["least"]) : $"{Figure.Brief(a["least"])} to {Figure.Brief(a["greatest"])}")} {Figure.Pretty(a.Say("unit"))} ({a.Say("about")})."),
    ];

    private const string RoofSource = "Roof runoff coefficients of rainwater handbooks (Pacey and Cullis 1986, as reprinted)";
    private const string Greenspan = "Greenspan (1977), Journal of Research of the National Bureau of Standards 81A:89-96";

    private static string Ends(Answer a, string name, string suffix = "", double times = 1) =>
        a[$"{name}_min{suffix}"] == a[$"{name}_max{suffix}"] ? Figure.Brief(times * a[$"{name}_min{suffix}"]) : $"{Figure.Brief(times * a[$"{name}_min{suffix}"])} to {Figure.Brief(times * a[$"{name}_max{suffix}"])}";

    private static string Between(Answer a, string name, string words, string otherwise) =>
        double.IsFinite(a[name + "_min"]) ? $"{Ends(a, name)} {words}. " : otherwise.Length > 0 ? otherwise + "." : "";

    // The limits of one subject on one line, as their source prints them.
    private sealed record Kept(string Subject, string Source, string Provenance, Dictionary<string, double> Limits)
    {
        public static IReadOnlyList<Kept> All { get; } =
            [.. DryingLimit.All.GroupBy(l => l.Subject).Select(s => new Kept(s.Key, s.First().Source, s.First().Provenance, s.GroupBy(l => l.Quantity).ToDictionary(l => l.Key, l => l.First().Value)))];

        public double? this[string quantity] => Limits.TryGetValue(quantity, out double value) ? value : null;
    }
}
