using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>What a water test says beyond the figure on its strip.</summary>
internal static class WaterTests
{
    public static readonly Relation[] All =
    [
        new("ammonia", "Is my ammonia harmful?")
        {
            Explanation = "A test shows all ammonia together. Only the un-ionised part harms fish, and it grows with pH and warmth: the same reading can be harmless at pH 6.8 and deadly at 8.5.",
            Inputs = [WaterTemp, Ph.Say("8"), Tan],
            Outputs =
            [
                new("f_nh3", "1", "share of the ammonia that is un-ionised"),
                new("nh3_mg_n_l", "mg/L as N", "un-ionised ammonia nitrogen"),
                new("nh3_mg_l", "mg/L as NH3", "un-ionised ammonia"),
            ],
            Along = "ph", Shown = (6, 9.5), Main = "nh3_mg_n_l",
            Formula = "pKa = 0.09018 + 2729.92 / (T + 273.15); f = 1 / (1 + 10^(pKa - pH)); NH3-N = f x TAN",
            Source = "Emerson, Russo, Lund and Thurston (1975), J. Fish. Res. Board Can. 32:2379-2383; limits 0.05 and 2 mg/L: UF/IFAS Extension FA16. Fresh water; 3 to 11 % high in mineralised water.",
            Cautions = [Caution.TestKit, Caution.Vet],
            Reckon = g =>
            {
                double nh3 = Ammonia.UnionisedMgNPerL(g["tan_mg_n_l"], g["ph"], g["temp_c"]);
                return [Ammonia.UnionisedFraction(g["ph"], g["temp_c"]), nh3, NitrogenForms.FromNitrogenMgPerL(nh3, NitrogenForm.Ammonia)];
            },
            Meaning = a => (a["nh3_mg_n_l"] switch { >= 2 => "It kills. ", >= 0.05 => "Yes, it is harmful. ", >= 0.02 => "Not yet, but it is near. ", _ => "No. " }) +
                $"{Amounts.Percent(a["f_nh3"])} of the ammonia is un-ionised: {a.Say("nh3_mg_n_l")}. " + a["nh3_mg_n_l"] switch
            {
                >= 2 => "Fish die near 2 mg/L: stop feeding, change water, and keep pH from rising.",
                >= 0.05 => "Harm begins at 0.05 mg/L: stop feeding, add air, change water, and do not raise pH.",
                >= 0.02 => "Below 0.05 mg/L, where harm begins, but not by much: feed less and test again tomorrow.",
                _ => "Well below 0.05 mg/L, where harm begins.",
            },
        },
        new("ammonia-fraction", "What share of ammonia is un-ionised?")
        {
            Explanation = "The share of total ammonia that is un-ionised, from pH and temperature alone, for those who want the factor of the printed tables.",
            Inputs = [WaterTemp, Ph],
            Outputs = [new("f_nh3", "1", "share of the ammonia that is un-ionised"), new("pka", "1", "acidity constant of ammonium")],
            Along = "ph", Shown = (6, 9.5),
            Formula = "pKa = 0.09018 + 2729.92 / (T + 273.15); f = 1 / (1 + 10^(pKa - pH))",
            Source = "Emerson, Russo, Lund and Thurston (1975), J. Fish. Res. Board Can. 32:2379-2383.",
            Reckon = g => [Ammonia.UnionisedFraction(g["ph"], g["temp_c"]), Ammonia.PKa(g["temp_c"])],
            Meaning = a => $"{Amounts.Percent(a["f_nh3"])} of the ammonia is un-ionised, the form that harms fish.",
        },
        new("tan-limit-from-nh3-limit", "How high may my ammonia test read?")
        {
            Explanation = "The reading of a total-ammonia test at which un-ionised ammonia reaches a limit, at this pH and temperature.",
            Inputs = [WaterTemp, Ph, Number("limit_nh3_mg_n_l", "mg/L as N", "limit of un-ionised ammonia", 0, 10, "0.05").Or("0.05")],
            Outputs = [new("tan_limit_mg_n_l", "mg/L as N", "total ammonia nitrogen at that limit")],
            Along = "ph", Shown = (6, 9),
            Formula = "TAN = limit x (1 + 10^(pKa - pH)), pKa = 0.09018 + 2729.92 / (T + 273.15)",
            Source = "Emerson et al. (1975); limit 0.05 mg/L as N, where harm begins: UF/IFAS Extension FA16.",
            Cautions = [Caution.TestKit],
            Reckon = g => [Ammonia.TanLimitMgNPerL(g["limit_nh3_mg_n_l"], g["ph"], g["temp_c"])],
            Meaning = a => $"A test that shows {a.Say("tan_limit_mg_n_l")} is at the limit; stay well below it.",
        },
        new("ammonia-criteria", "What does the regulator's ammonia rule allow?")
        {
            Explanation = "Total ammonia that the United States criteria for fresh water allow in a river, for an hour and for a month. Made for mussels and the most delicate fish: stricter than a fish tank needs.",
            Inputs = [WaterTemp.Within(0, 30).Say("20"), Ph.Within(6.5, 9).Say("7")],
            Outputs =
            [
                new("tan_acute_mg_n_l", "mg/L as N", "one-hour average"),
                new("tan_chronic_mg_n_l", "mg/L as N", "30-day average"),
                new("tan_chronic_4d_mg_n_l", "mg/L as N", "highest four-day average within the 30 days"),
            ],
            Along = "ph", Shown = (6.5, 9),
            Formula = "acute = 0.7249 x (0.0114/(1 + 10^(7.204 - pH)) + 1.6181/(1 + 10^(pH - 7.204))) x min(51.93, 23.12 x 10^(0.036 (20 - T))); chronic alike with 0.8876; four days 2.5 x chronic",
            Source = "US EPA (2013), Aquatic life ambient water quality criteria for ammonia, freshwater; constants from memory, held against the printed 17 and 1.9 mg/L at pH 7 and 20 °C.",
            Cautions = [Caution.Discharge],
            Reckon = g => [Ammonia.EpaAcuteMgNPerL(g["ph"], g["temp_c"]), Ammonia.EpaChronicMgNPerL(g["ph"], g["temp_c"]), 2.5 * Ammonia.EpaChronicMgNPerL(g["ph"], g["temp_c"])],
            Meaning = a => $"{a.Say("tan_acute_mg_n_l")} for an hour, {a.Say("tan_chronic_mg_n_l")} over a month.",
        },
        new("nitrogen-forms", "Is my test in nitrogen or in the ion?")
        {
            Explanation = "Kits print either the ion or its nitrogen, and the two differ by 1.2 to 4.4 times. Gives both ways from one figure.",
            Inputs = [Word("ion", "the ion", "no3", "nh3", "nh4", "no2", "no3"), Number("mass_in_mg_l", "mg/L", "the reading", 0, 1e5, "10")],
            Outputs = [new("mass_out_mg_l", "mg/L", "as the ion, if the reading is nitrogen"), new("mg_n_l", "mg/L as N", "as nitrogen, if the reading is the ion")],
            Along = "mass_in_mg_l", Shown = (0, 100),
            Formula = "NH3 = 1.2159 N; NH4 = 1.2878 N; NO2 = 3.2845 N; NO3 = 4.4268 N",
            Source = "IUPAC abridged atomic weights.",
            Reckon = g =>
            {
                var form = g.Word("ion") switch { "nh3" => NitrogenForm.Ammonia, "nh4" => NitrogenForm.Ammonium, "no2" => NitrogenForm.Nitrite, _ => NitrogenForm.Nitrate };
                return [NitrogenForms.FromNitrogenMgPerL(g["mass_in_mg_l"], form), NitrogenForms.ToNitrogenMgPerL(g["mass_in_mg_l"], form)];
            },
            Meaning = a => $"Read as nitrogen, the reading is {a.Say("mass_out_mg_l")} of the ion; read as the ion, it is {a.Say("mg_n_l")}.",
        },
        new("carbon-dioxide", "How much carbon dioxide is in the water?")
        {
            Explanation = "Carbon dioxide from pH and alkalinity. It drives pH down and slows the breathing of fish; more air drives it out.",
            Inputs = [WaterTemp, Ph.Within(4.5, 11).Say("6.8"), Alkalinity],
            Outputs = [new("co2_mg_l", "mg/L", "dissolved carbon dioxide")],
            Along = "ph", Shown = (6, 8.5),
            Formula = "carbonate balance of the alkalinity: Alk = [HCO3] + 2 [CO3] + [OH] - [H], with Davies activities",
            Source = "Constants: Plummer and Busenberg (1982), Geochim. Cosmochim. Acta 46:1011-1040; method as Stumm and Morgan, Aquatic Chemistry (1996). Within 6 % of Tucker (1984), SRAC 464.",
            Cautions = [Caution.TestKit],
            Reckon = g => [Carbonate.CO2MgPerL(g["ph"], g["alkalinity_mg_l_caco3"], g["temp_c"])],
            Meaning = a => a["co2_mg_l"] switch
            {
                > 60 => $"{a.Say("co2_mg_l")} is dangerous to most fish: add air at once.",
                > 20 => $"{a.Say("co2_mg_l")} is more than the 20 mg/L that most fish are kept below (common practice): strip it with more air.",
                _ => $"{a.Say("co2_mg_l")}, below the 20 mg/L that most fish are kept below (common practice).",
            },
        },
        new("carbon-dioxide-factor", "What is the table factor for carbon dioxide?")
        {
            Explanation = "Carbon dioxide for each mg/L of alkalinity, as the printed tables for pond keepers have it.",
            Inputs = [WaterTemp, Ph.Within(5, 8.5).Say("7"), Alkalinity.Or("100")],
            Outputs = [new("factor_co2_per_alk", "1", "mg/L of carbon dioxide for each mg/L of alkalinity as CaCO3"), new("co2_mg_l", "mg/L", "dissolved carbon dioxide")],
            Along = "ph", Shown = (6, 8.5),
            Formula = "factor = (44.01 / 50.04) x 10^(pK1 - pH); CO2 = factor x alkalinity",
            Source = "Tucker (1984), table 2 of SRAC Publication 464: all alkalinity taken as bicarbonate.",
            Reckon = g =>
            {
                double factor = Carbonate.CO2PerAlkalinity(g["ph"], g["temp_c"]);
                return [factor, factor * g["alkalinity_mg_l_caco3"]];
            },
            Meaning = a => $"Alkalinity times {Figure.Brief(a["factor_co2_per_alk"])} gives {a.Say("co2_mg_l")} of carbon dioxide.",
        },
    ];
}
