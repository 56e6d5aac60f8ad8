using Runnel.Science.Fish;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Feeding, what feed becomes, and how fish grow.</summary>
internal static class FeedAndGrowth
{
    private static readonly Input Start = Number("w1_g", "g", "weight at the start", 1e-3, 1e6, "50");
    private static readonly Input End = Number("w2_g", "g", "weight at the end", 1e-3, 1e6, "500");
    private static readonly Input Days = Number("days", "d", "days", 1e-3, 1e5, "180");
    private static readonly Input Weight = Number("weight_g", "g", "weight of one fish", 1e-3, 1e6, "200");
    private static readonly Input Tgc = Number("tgc_x1000", "1", "thermal growth coefficient, times 1000", 1e-6, 10, "0.9");
    private static readonly Input Length = Number("length_cm", "cm", "length", 0.1, 500, "25");

    public static readonly Relation[] All =
    [
        new("ration", "How much should I feed today?")
        {
            Explanation = "Daily feed from the weight of the fish and a percentage of body weight: 1 to 3 % for grown fish, 4 to 10 % for fry. Take it from the feed chart of your feed and fish; feed less in cold or bad water.",
            Inputs =
            [
                Number("percent_body_weight_d", "%", "feed as a share of body weight a day", 0, 30, "1.5"), Number("n_fish", "1", "number of fish", 0, 1e8, "50"),
                Number("mean_weight_g", "g", "mean weight of a fish", 0, 1e6, "200"), Number("biomass_kg", "kg", "weight of all fish", 0, 1e7, "10"),
            ],
            Choices = [new([["n_fish", "mean_weight_g"], ["biomass_kg"]])],
            Outputs = [new("feed_g_d", "g/d", "feed"), new("biomass_kg", "kg", "weight of all fish")],
            Along = "percent_body_weight_d", Shown = (0, 5),
            Formula = "feed = 10 x biomass x percent",
            Source = "Definition; ranges after FAO Fisheries Technical Paper 589.",
            Cautions = ["What is not eaten within minutes rots: take it out and feed less."],
            Reckon = g =>
            {
                double biomass = g.Has("biomass_kg") ? g["biomass_kg"] : g["n_fish"] * g["mean_weight_g"] / 1000;
                return [Stocking.RationGPerDay(biomass, g["percent_body_weight_d"]), biomass];
            },
            Meaning = a => $"{a.Say("feed_g_d")} for {a.Say("biomass_kg")} of fish, in two or more meals.",
        },
        new("feed-conversion", "How well do they turn feed into fish?")
        {
            Explanation = "Feed given for each kilogram of growth.",
            Inputs = [Number("total_feed_kg", "kg", "feed given", 0, 1e7, "36"), Number("weight_gain_kg", "kg", "growth", 1e-6, 1e7, "24")],
            Outputs = [new("fcr", "1", "feed conversion ratio")],
            Along = "weight_gain_kg", Shown = (10, 60),
            Formula = "feed / growth",
            Source = "Definition; 1.7 to 1.8 for tilapia in raft systems (University of the Virgin Islands).",
            Reckon = g => [Stocking.FeedConversion(g["total_feed_kg"], g["weight_gain_kg"])],
            Meaning = a => $"{a.Say("fcr")} kg of feed for each kg of fish" + (a["fcr"] > 2.5 ? ": feed is lost, or the count of fish is wrong." : "."),
        },
        new("tan-from-feed", "How much ammonia comes from the feed?")
        {
            Explanation = "Ammonia nitrogen that a day's feed becomes: this is what the filter and the plants must take.",
            Inputs = [Feed, ProteinFraction],
            Outputs = [new("tan_g_d", "g/d", "total ammonia nitrogen")],
            Along = "feed_g_d", Shown = (0, 1000),
            Formula = "TAN = feed x protein x 0.092",
            Source = "Timmons and Ebeling, Recirculating Aquaculture: 0.16 N in protein x 0.80 x 0.80 x 0.90.",
            Reckon = g => [FeedWaste.TanGNPerDay(g["feed_g_d"], g["protein_fraction"])],
            Meaning = a => $"{a.Say("tan_g_d")} of ammonia nitrogen: without a filter 1000 L would rise by {Figure.Say(a["tan_g_d"], "mg/L")} a day.",
        },
        new("fao-ammonia-from-feed", "How much ammonia, by the FAO rule?")
        {
            Explanation = "Ammonia from a day's feed as the FAO manual for small systems reckons it.",
            Inputs = [Feed, ProteinFraction],
            Outputs = [new("nh3_g_d", "g/d", "ammonia, as NH3"), new("tan_g_d", "g/d", "the same as nitrogen")],
            Along = "feed_g_d", Shown = (0, 1000),
            Formula = "NH3 = feed x protein x 0.16 x 0.61 x 1.2",
            Source = "FAO Fisheries Technical Paper 589 (2014), appendix 4.",
            Reckon = g =>
            {
                double ammonia = FeedWaste.FaoAmmoniaGPerDay(g["feed_g_d"], g["protein_fraction"]);
                return [ammonia, ammonia / 1.2];
            },
            Meaning = a => $"{a.Say("nh3_g_d")} of ammonia a day.",
        },
        new("oxygen-co2-solids-from-feed", "What else does a day's feed ask of the water?")
        {
            Explanation = "Oxygen used, carbon dioxide made and solids made for a day's feed, by planning values for the whole system.",
            Inputs =
            [
                Feed, Number("oxygen_per_feed", "1", "oxygen for each g of feed: 0.4 to 1 in print", 0, 2, "0.5").Or("0.5"),
                Number("co2_per_oxygen", "1", "carbon dioxide for each g of oxygen", 0, 2, "1.375").Or("1.375"), Number("solids_per_feed", "1", "dry solids for each g of feed: 0.2 to 0.4", 0, 1, "0.25").Or("0.25"),
            ],
            Outputs = [new("o2_g_d", "g/d", "oxygen used"), new("co2_g_d", "g/d", "carbon dioxide made"), new("solids_g_d", "g/d", "solids made, dry")],
            Along = "feed_g_d", Shown = (0, 1000),
            Formula = "O2 = 0.5 feed; CO2 = 1.375 O2; solids = 0.25 feed",
            Source = "Timmons and Ebeling, planning values.",
            Reckon = g =>
            {
                var load = FeedWaste.Load(g["feed_g_d"], g["oxygen_per_feed"], g["co2_per_oxygen"], g["solids_per_feed"]);
                return [load.OxygenGPerDay, load.CarbonDioxideGPerDay, load.SolidsGPerDay];
            },
            Meaning = a => $"{Figure.Say(a["o2_g_d"] / 24, "g/h")} of oxygen on average, twice that after meals, and {a.Say("solids_g_d")} of dry solids to take out.",
        },
        new("respiration", "How much oxygen do my fish breathe?")
        {
            Explanation = "Oxygen that unfed fish of a species take up, by weight and temperature. Fed fish use 1.5 to 3 times as much.",
            Inputs = [Word("species", "species and stage", "tilapia", [.. Respiration.Models.Select(m => m.Name)]), WaterTemp.Within(0, 45), Weight],
            Outputs = [new("o2_mg_kg_h", "mg/(kg h)", "oxygen for each kg of fish and hour")],
            Along = "weight_g", Shown = (5, 1000),
            Formula = "R = a W^b f(T) ACT, times 13,560 J/g over 24 h",
            Source = "Deslauriers, Chipps, Breck, Rice and Madenjian (2017), Fisheries 42:586-596 (Fish Bioenergetics 4.0).",
            Cautions = [Caution.TimeLeft],
            Reckon = g => [Respiration.StandardMgPerKgH(Respiration.Find(g.Word("species"))!, g["weight_g"], g["temp_c"])],
            Meaning = a => a["o2_mg_kg_h"] > 0 ? $"{a.Say("o2_mg_kg_h")} unfed; plan for {Figure.Brief(1.5 * a["o2_mg_kg_h"])} to {Figure.Brief(3 * a["o2_mg_kg_h"])} when they eat." : "Too warm: this species does not live there.",
        },
        new("trout-respiration", "How much oxygen do trout breathe?")
        {
            Explanation = "Oxygen uptake of trout in production, by weight and temperature.",
            Inputs = [WaterTemp.Within(2, 22).Say("12"), Weight],
            Outputs = [new("o2_mg_kg_h", "mg/(kg h)", "oxygen for each kg of fish and hour")],
            Along = "temp_c", Shown = (2, 20),
            Formula = "K T^a W^b in pounds and degrees Fahrenheit",
            Source = "Liao (1971), as in Timmons and Ebeling.",
            Cautions = [Caution.TimeLeft],
            Reckon = g => [Respiration.TroutLiaoMgPerKgH(g["weight_g"], g["temp_c"])],
            Meaning = a => $"{a.Say("o2_mg_kg_h")}.",
        },
        new("allometric-ratio", "How much more does a big fish breathe?")
        {
            Explanation = "Uptake of one whole fish over that of a smaller one of its kind.",
            Inputs = [Word("species", "species", "carp", "carp", "brown trout", "brown bullhead"), Weight.Named("weight_g", "weight of the one").Say("100"), Number("mean_weight_g", "g", "weight of the other", 1e-3, 1e6, "1000")],
            Outputs = [new("ratio", "1", "uptake of the other over that of the one")],
            Along = "mean_weight_g", Shown = (100, 2000),
            Formula = "(W2/W1)^b; carp 0.894, brown trout 0.877, brown bullhead 0.925",
            Source = "Beamish (1964), Can. J. Zool. 42:177-188.",
            Reckon = g => [Respiration.WholeFishRatio(g["mean_weight_g"], g["weight_g"], g.Word("species") switch { "carp" => 0.894, "brown trout" => 0.877, _ => 0.925 })],
            Meaning = a => $"{a.Say("ratio")} times as much.",
        },
        new("tgc", "How fast do my fish grow for their warmth?")
        {
            Explanation = "Thermal growth coefficient from two weighings: it lets groups at different temperatures be compared.",
            Inputs = [Start, End, Days, WaterTemp.Within(0.1, 45)],
            Outputs = [new("tgc_x1000", "1", "coefficient, times 1000"), new("tgc_x100", "1", "the same, times 100")],
            Along = "days", Shown = (60, 365),
            Formula = "1000 (W2^(1/3) - W1^(1/3))/(T x days)",
            Source = "Iwama and Tautz (1981), Can. J. Fish. Aquat. Sci. 38:649-656.",
            Reckon = g =>
            {
                double found = Growth.ThermalCoefficient(g["w1_g"], g["w2_g"], g["temp_c"] * g["days"]);
                return [found, found / 10];
            },
            Meaning = a => $"{a.Say("tgc_x1000")} (times 1000); trout in good hands reach 1.3 to 2.",
        },
        new("tgc-projection", "How heavy will they be?")
        {
            Explanation = "Weight after some time at a temperature, from a thermal growth coefficient of your own fish.",
            Inputs = [Start, Days, WaterTemp.Within(0, 45), Tgc.Within(0, 10), Number("degree_days", "degC.d", "sum of the daily mean temperatures", 0, 1e6, "4500")],
            Choices = [new([["days", "temp_c"], ["degree_days"]])],
            Outputs = [new("w2_g", "g", "weight at the end")],
            Along = "days", Shown = (0, 365),
            Formula = "W2 = (W1^(1/3) + TGC/1000 x degree days)^3",
            Source = "Iwama and Tautz (1981).",
            Reckon = g => [Growth.WeightG(g["w1_g"], g["tgc_x1000"], g.Has("degree_days") ? g["degree_days"] : g["temp_c"] * g["days"])],
            Meaning = a => $"{a.Say("w2_g")} each, if feed and water stay as good.",
        },
        new("days-to-target", "When are they big enough?")
        {
            Explanation = "Days until a target weight, from a thermal growth coefficient of your own fish.",
            Inputs = [Start, WaterTemp.Within(0.1, 45), Tgc, Number("target_g", "g", "target weight", 1e-3, 1e6, "500")],
            Outputs = [new("days", "d", "days")],
            Along = "temp_c", Shown = (15, 32),
            Formula = "days = (Wt^(1/3) - W1^(1/3)) x 1000/(TGC x T)",
            Source = "Iwama and Tautz (1981).",
            Reckon = g => [Growth.DaysTo(g["w1_g"], g["target_g"], g["tgc_x1000"], g["temp_c"])],
            Meaning = a => $"{Math.Ceiling(a["days"])} days, about {Figure.Brief(a["days"] / 7)} weeks.",
        },
        new("sgr", "How many percent do they grow a day?")
        {
            Explanation = "Specific growth rate from two weighings.",
            Inputs = [Start.Say("10"), End.Say("20"), Days.Say("30")],
            Outputs = [new("sgr_percent_d", "%", "growth a day")],
            Along = "days", Shown = (10, 120),
            Formula = "100 (ln W2 - ln W1)/days",
            Source = "Definition.",
            Reckon = g => [Growth.SpecificPercentPerDay(g["w1_g"], g["w2_g"], g["days"])],
            Meaning = a => $"{a.Say("sgr_percent_d")} a day.",
        },
        new("length-weight", "How heavy is a fish of that length?")
        {
            Explanation = "Weight from length with the coefficients of a species.",
            Inputs = [Length, Number("coef_a", "1", "coefficient a, g and cm", 1e-6, 1, "0.0119"), Number("coef_b", "1", "exponent b", 2, 4, "2.99")],
            Outputs = [new("weight_g", "g", "weight")],
            Along = "length_cm", Shown = (5, 50),
            Formula = "W = a L^b",
            Source = "Length-weight relation; coefficients from the source of the species.",
            Reckon = g => [Growth.WeightOfLength(g["length_cm"], g["coef_a"], g["coef_b"])],
            Meaning = a => $"{a.Say("weight_g")}.",
        },
        new("length-weight-imperial", "How many pounds is a fish of that length?")
        {
            Explanation = "Weight in pounds from length in inches with the coefficients of a species.",
            Inputs = [Number("length_in", "in", "length", 0.1, 200, "13"), Number("coef_a", "1", "coefficient a, lb and in", 1e-7, 1, "0.000426"), Number("coef_b", "1", "exponent b", 2, 4, "2.99")],
            Outputs = [new("weight_lb", "lb", "weight")],
            Along = "length_in", Shown = (4, 30),
            Formula = "W = a L^b",
            Source = "Length-weight relation; coefficients from the source of the species.",
            Reckon = g => [Growth.WeightOfLength(g["length_in"], g["coef_a"], g["coef_b"])],
            Meaning = a => $"{a.Say("weight_lb")}.",
        },
        new("fulton-condition", "Are my fish in good flesh?")
        {
            Explanation = "Condition factor from weight and length: compare fish of one kind over time.",
            Inputs = [Start.Named("w1_g", "weight").Say("210"), Length],
            Outputs = [new("condition_k", "1", "Fulton's condition factor")],
            Along = "w1_g", Shown = (100, 400),
            Formula = "K = 100 W/L^3",
            Source = "Fulton's condition factor.",
            Reckon = g => [Growth.Condition(g["w1_g"], g["length_cm"])],
            Meaning = a => $"{a.Say("condition_k")}; what is usual differs by kind, so follow your own over time.",
        },
        new("sample-mean-and-biomass", "What does my sample say of them all?")
        {
            Explanation = "Mean weight with its 95 % interval and the weight of the whole group from a weighed sample. Netted fish are seldom a fair sample: slow ones are caught first.",
            Inputs = [Numbers("sample_weights_g", "g", "weights of the sample", 1e-3, 1e6, "21 30 25 29 22 24"), Whole("population", "1", "fish in the group", 2, 1e8, "200")],
            Rules = [new("population", g => g.Numbers("sample_weights_g").Length is var n && n >= 2 && n <= g["population"], "is smaller than the sample, or the sample has fewer than two fish", "Give two weights or more, and all fish of the group")],
            Outputs = [new("mean_g", "g", "mean weight"), new("sd_g", "g", "standard deviation"), new("ci95_half_g", "g", "half width of the 95 % interval of the mean"), new("biomass_kg", "kg", "weight of the group")],
            Along = "population", Main = "biomass_kg", Shown = (50, 1000),
            Formula = "t interval with sqrt((N - n)/(N - 1)); biomass = mean x N",
            Source = "Cochran (1977), Sampling Techniques.",
            Reckon = g =>
            {
                var sample = Growth.Sample(g.Numbers("sample_weights_g"), (int)g["population"]);
                return [sample.MeanG, sample.SdG, sample.MeanPm95G, sample.BiomassKg];
            },
            Meaning = a => $"{a.Say("mean_g")}, give or take {a.Say("ci95_half_g")}: {a.Say("biomass_kg")} in all.",
        },
    ];
}
