using Runnel.Science.Fish;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>The filter: its size, its appetite, its start.</summary>
internal static class FilterAndStart
{
    private static readonly Input Nitrite = Number("no2_mg_n_l", "mg/L as N", "nitrite nitrogen", 0, 1000, "1");
    private static readonly Input Nature = Number("theta", "1", "factor a degree", 0.9, 1.3, "1.09").Or("1.09");

    public static readonly Relation[] All =
    [
        new("media-sizing", "Is my filter big enough?")
        {
            Explanation = "Media surface and volume that the ammonia of a day's feed wants, by the FAO rule for small systems. Cold water and slime halve the rate: leave room.",
            Inputs =
            [
                Feed, ProteinFraction, Number("areal_rate_g_m2_d", "g/(m2 d)", "ammonia that a square metre takes a day, as NH3", 0.01, 10, "0.57").Or("0.57"),
                Number("specific_surface_m2_m3", "m2/m3", "surface of the media: tuff 300, clay pebbles 250, moving-bed chips 500", 1, 5000, "300"),
            ],
            Outputs = [new("media_l", "L", "media"), new("area_m2", "m2", "surface"), new("nh3_g_d", "g/d", "ammonia to take, as NH3")],
            Along = "feed_g_d", Shown = (0, 1000),
            Formula = "NH3 = feed x protein x 0.16 x 0.61 x 1.2; area = NH3/rate; litres = 1000 area/surface",
            Source = "FAO Fisheries Technical Paper 589 (2014), appendix 4.",
            Cautions = [Caution.FishLaw],
            Reckon = g =>
            {
                double load = FeedWaste.FaoAmmoniaGPerDay(g["feed_g_d"], g["protein_fraction"]), area = Nitrification.MediaAreaM2(load, g["areal_rate_g_m2_d"]);
                return [Nitrification.MediaVolumeL(area, g["specific_surface_m2_m3"]), area, load];
            },
            Meaning = a => $"{a.Say("media_l")} of media with {a.Say("area_m2")} of surface; half as much again for cold days is common practice.",
        },
        new("oxygen-and-alkalinity-demand", "What does the filter use up?")
        {
            Explanation = "Oxygen and alkalinity that nitrogen takes on its way to nitrate, and the biomass it makes.",
            Inputs = [Number("n_oxidised_g", "g", "nitrogen turned into nitrate", 0, 1e7, "5")],
            Outputs = [new("o2_g", "g", "oxygen used"), new("alkalinity_g_caco3", "g", "alkalinity used, as CaCO3"), new("biomass_g_vss", "g", "biomass made, volatile solids")],
            Along = "n_oxidised_g", Main = "alkalinity_g_caco3", Shown = (0, 30),
            Formula = "O2 = 4.57 N; alkalinity = 7.14 N; biomass = 0.17 N",
            Source = "Stoichiometry with IUPAC atomic weights; biomass: Gujer and Jenkins (1974).",
            Reckon = g => [g["n_oxidised_g"] * Nitrification.OxygenPerN, g["n_oxidised_g"] * Nitrification.AlkalinityPerN, g["n_oxidised_g"] * Nitrification.BiomassPerN],
            Meaning = a => $"{a.Say("o2_g")} of oxygen and {a.Say("alkalinity_g_caco3")} of alkalinity, which is {Figure.Say(a["alkalinity_g_caco3"] / 0.4999, "g")} of potassium bicarbonate.",
        },
        new("nitrification-ph-factor", "How much does low pH slow the filter?")
        {
            Explanation = "Factor on the rate of nitrification by pH: 1 from 7.2 up.",
            Inputs = [Ph.Within(5, 9).Say("6.5")],
            Outputs = [new("value", "1", "factor on the rate")],
            Along = "ph", Shown = (5.5, 8),
            Formula = "2.35^(pH - 7.2), at most 1",
            Source = "UCT steady-state nitrification model (Ekama and Wentzel; WRC 1984).",
            Reckon = g => [Nitrification.PhFactor(g["ph"])],
            Meaning = a => $"The filter works at {Amounts.Percent(a["value"])} of its rate.",
        },
        new("rate-temperature-correction", "How much does cold slow the filter?")
        {
            Explanation = "An areal rate carried from one temperature to another.",
            Inputs = [Number("areal_rate_g_m2_d", "g/(m2 d)", "rate at the temperature it is known for", 0, 100, "0.47"), WaterTemp.Within(0, 45).Say("15"), Number("reference_temp_c", "degC", "temperature it is known for", 0, 45, "20").Or("20"), Nature],
            Outputs = [new("rate", "g/(m2 d)", "rate at the water temperature")],
            Along = "temp_c", Shown = (5, 35),
            Formula = "rate x theta^(T - Tref)",
            Source = "Theta 1.09 for moving beds: Rusten and others (2006).",
            Reckon = g => [Nitrification.AtTemperature(g["areal_rate_g_m2_d"], g["reference_temp_c"], g["temp_c"], g["theta"])],
            Meaning = a => $"{a.Say("rate")}.",
        },
        new("free-ammonia-and-nitrous-acid", "Does the water itself hold the filter back?")
        {
            Explanation = "Free ammonia and free nitrous acid, which slow nitrifiers from about 0.1 to 1 mg/L and 0.2 mg/L on.",
            Inputs = [WaterTemp.Within(0, 45), Ph.Within(4, 11), Tan, Nitrite],
            Outputs = [new("fa_mg_n_l", "mg/L as N", "free ammonia"), new("fna_mg_n_l", "mg/L as N", "free nitrous acid")],
            Along = "ph", Shown = (6, 9),
            Formula = "FA = TAN 10^pH/(exp(6344/T) + 10^pH); FNA = NO2/(exp(-2300/T) 10^pH + 1)",
            Source = "Anthonisen, Loehr, Prakasam and Srinath (1976), J. Water Pollut. Control Fed. 48:835-852.",
            Reckon = g =>
            {
                var free = Nitrification.Free(g["temp_c"], g["ph"], g["tan_mg_n_l"], g["no2_mg_n_l"]);
                return [free.AmmoniaMgNPerL, free.NitrousAcidMgNPerL];
            },
            Meaning = a => $"{a.Say("fa_mg_n_l")} free ammonia, {a.Say("fna_mg_n_l")} free nitrous acid.",
        },
        new("nitrifier-growth", "How fast do nitrifiers grow at 20 degrees?")
        {
            Explanation = "Growth rate of ammonia oxidisers (step 1) or nitrite oxidisers (step 2) at 20 °C, under free ammonia, free nitrous acid and oxygen.",
            Inputs = [Whole("step", "1", "1 ammonia to nitrite, 2 nitrite to nitrate", 1, 2, "1"), WaterTemp.Within(0, 45).Or("20"), Ph.Within(4, 11), Oxygen, Tan, Nitrite],
            Outputs = [new("rate", "1/d", "growth rate")],
            Along = "ph", Shown = (6, 9),
            Formula = "mu FA/(K + FA + FA^2/Ki) Ki/(Ki + FNA) O2/(Ko + O2), and alike for step 2",
            Source = "Hiatt and Grady (2008), Water Environ. Res. 80:2145-2156, table 2.",
            Reckon = g =>
            {
                var free = Nitrification.Free(g["temp_c"], g["ph"], g["tan_mg_n_l"], g["no2_mg_n_l"]);
                return [g["step"] == 1 ? Nitrification.AmmoniaOxidiserGrowthPerDay(free, g["do_mg_l"]) : Nitrification.NitriteOxidiserGrowthPerDay(free, g["do_mg_l"])];
            },
            Meaning = a => a["rate"] > 0 ? $"{a.Say("rate")}: they double in {Figure.Say(Math.Log(2) / a["rate"], "d")}." : "They do not grow.",
        },
        new("epa-nitrifier-growth", "How fast do nitrifiers grow in my water?")
        {
            Explanation = "Growth rate of nitrifiers by temperature, ammonia, oxygen and pH, as sewage engineers reckon it; harsher at low pH than fish systems show.",
            Inputs = [WaterTemp.Within(0, 40), Tan, Oxygen, Ph.Within(4, 11)],
            Outputs = [new("value", "1/d", "growth rate"), new("mu_hat", "1/d", "greatest growth rate at that temperature"), new("k_n", "mg/L as N", "ammonia at half that rate")],
            Along = "temp_c", Shown = (5, 35),
            Formula = "0.47 e^(0.098 (T - 15)) N/(Kn + N) O2/(1.3 + O2) (1 - 0.833 (7.2 - pH)); Kn = 10^(0.051 T - 1.158)",
            Source = "US EPA, Process Design Manual for Nitrogen Control (1975, 1993).",
            Reckon = g =>
            [
                Nitrification.EpaGrowthPerDay(g["temp_c"], g["tan_mg_n_l"], g["do_mg_l"], g["ph"]), Nitrification.EpaGreatestGrowthPerDay(g["temp_c"]), Nitrification.EpaHalfSaturationMgNPerL(g["temp_c"]),
            ],
            Meaning = a => a["value"] > 0 ? $"{a.Say("value")}: they double in {Figure.Say(Math.Log(2) / a["value"], "d")}." : "They do not grow.",
        },
        new("epa-growth-temperature", "How fast can nitrifiers grow at this temperature?")
        {
            Explanation = "Greatest growth rate of nitrifiers by temperature, with food and oxygen in plenty.",
            Inputs = [WaterTemp.Within(0, 40)],
            Outputs = [new("value", "1/d", "greatest growth rate")],
            Along = "temp_c", Shown = (5, 35),
            Formula = "0.47 e^(0.098 (T - 15))",
            Source = "US EPA, Process Design Manual for Nitrogen Control (1975, 1993).",
            Reckon = g => [Nitrification.EpaGreatestGrowthPerDay(g["temp_c"])],
            Meaning = a => $"They can double in {Figure.Say(Math.Log(2) / a["value"], "d")}.",
        },
        new("epa-half-saturation", "At how little ammonia do nitrifiers go hungry?")
        {
            Explanation = "Ammonia at which nitrifiers grow half as fast as they could, by temperature.",
            Inputs = [WaterTemp.Within(0, 40)],
            Outputs = [new("value", "mg/L as N", "ammonia nitrogen at half the greatest rate")],
            Along = "temp_c", Shown = (5, 35),
            Formula = "10^(0.051 T - 1.158)",
            Source = "US EPA, Process Design Manual for Nitrogen Control (1975, 1993).",
            Reckon = g => [Nitrification.EpaHalfSaturationMgNPerL(g["temp_c"])],
            Meaning = a => $"At {a.Say("value")} they grow half as fast as they could.",
        },
    ];
}
