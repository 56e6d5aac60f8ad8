using Runnel.Science.Units;
using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Alkalinity, pH and hardness.</summary>
internal static class WaterChemistry
{
    private static readonly Input AirCO2 = Number("pco2_uatm", "uatm", "carbon dioxide in the air: 420 outdoors, 1000 and more in a closed house", 1, 100_000, "420").Or("420");

    public static readonly Relation[] All =
    [
        new("ph-of-aerated-water", "What pH should well-aerated water have?")
        {
            Explanation = "pH that water of this alkalinity comes to when it is aerated until it is in balance with air. A fish system runs 0.3 to 1.3 lower; the difference is carbon dioxide.",
            Inputs = [WaterTemp, Alkalinity, AirCO2],
            Outputs = [new("ph", "1", "pH in balance with air"), new("co2_mg_l", "mg/L", "carbon dioxide in balance with air")],
            Along = "alkalinity_mg_l_caco3", Shown = (5, 300),
            Formula = "Henry's law for CO2, then the carbonate balance of the alkalinity",
            Source = "Plummer and Busenberg (1982); Stumm and Morgan (1996).",
            Reckon = g => [Carbonate.AeratedPh(g["alkalinity_mg_l_caco3"], g["temp_c"], g["pco2_uatm"]), Carbonate.AeratedCO2MgPerL(g["temp_c"], g["pco2_uatm"])],
            Meaning = a => $"pH {a.Say("ph")}. If yours is much lower there is surplus carbon dioxide: a jar of it, stirred overnight, shows how much pH would rise with more air.",
        },
        new("ph-from-co2-alkalinity", "What pH do carbon dioxide and alkalinity make?")
        {
            Explanation = "pH of a water whose carbon dioxide and alkalinity are known.",
            Inputs = [WaterTemp, Number("co2_mg_l", "mg/L", "dissolved carbon dioxide", 1e-3, 500, "10"), Alkalinity],
            Outputs = [new("ph", "1", "pH")],
            Along = "co2_mg_l", Shown = (0.5, 60),
            Formula = "carbonate balance of the alkalinity at fixed CO2",
            Source = "Plummer and Busenberg (1982); Stumm and Morgan (1996).",
            Reckon = g => [Carbonate.PhFromCO2(g["co2_mg_l"], g["alkalinity_mg_l_caco3"], g["temp_c"])],
            Meaning = a => $"pH {a.Say("ph")}.",
        },
        new("calcite-saturation-index", "Will limestone dissolve or scale?")
        {
            Explanation = "Saturation of calcite: above 0 scale can form, below 0 shell grit and limestone dissolve.",
            Inputs = [WaterTemp, Ph.Within(4.5, 10), Alkalinity.Within(1, 1000), Number("calcium_mg_l", "mg/L", "calcium, as Ca", 0.01, 1000, "40")],
            Outputs = [new("si_calcite", "1", "saturation index, a logarithm")],
            Along = "ph", Shown = (6, 9),
            Formula = "SI = log10(ion product of Ca and CO3 / solubility of calcite)",
            Source = "Plummer and Busenberg (1982), held against PHREEQC (USGS).",
            Reckon = g => [Carbonate.CalciteIndex(g["ph"], g["alkalinity_mg_l_caco3"], g["calcium_mg_l"], g["temp_c"])],
            Meaning = a => $"{a.Say("si_calcite")}: " + (a["si_calcite"] < -0.1 ? "limestone and shell grit dissolve." : a["si_calcite"] > 0.3 ? "scale can form on heaters and pipes." : "near balance."),
        },
        new("nitrification-alkalinity-and-ph", "How far will the filter pull alkalinity down?")
        {
            Explanation = "The filter eats 7.1 mg/L of alkalinity for each mg/L of ammonia nitrogen it turns into nitrate. What is left, and the pH it has when well aerated.",
            Inputs = [WaterTemp, Alkalinity, Number("n_oxidised_mg_n_l", "mg/L as N", "nitrogen turned into nitrate", 0, 140, "5"), AirCO2],
            Rules = [new("n_oxidised_mg_n_l", g => Nitrified(g) >= 0, "takes more alkalinity than there is", "Give less nitrogen: 1 mg/L takes 7.1 mg/L of alkalinity")],
            Outputs = [new("alkalinity_mg_l_caco3", "mg/L as CaCO3", "alkalinity left"), new("ph", "1", "pH in balance with air")],
            Along = "n_oxidised_mg_n_l", Shown = (0, 11),
            Formula = "alkalinity left = alkalinity - 7.1457 N",
            Source = "Stoichiometry of nitrification; carbonate balance after Plummer and Busenberg (1982).",
            Cautions = [Caution.TestKit],
            Reckon = g => [Nitrified(g), Carbonate.AeratedPh(Nitrified(g), g["temp_c"], g["pco2_uatm"])],
            Meaning = a => $"{a.Say("alkalinity_mg_l_caco3")} left" + (a["alkalinity_mg_l_caco3"] < 40 ? ": too little to hold pH, add a base in small steps." : ", enough to hold pH."),
        },
        new("carbonate-constants", "What are the constants of carbonate at this temperature?")
        {
            Explanation = "Equilibrium constants of carbon dioxide and water, for those who reckon further by hand.",
            Inputs = [WaterTemp],
            Outputs =
            [
                new("pk1", "1", "of CO2 to bicarbonate"), new("pk2", "1", "of bicarbonate to carbonate"), new("pkw", "1", "of water"),
                new("pkh", "1", "of CO2 between water and air"), new("pk_calcite", "1", "of calcite"),
            ],
            Along = "temp_c",
            Formula = "pK = a + b T + c/T + d log T + e/T^2",
            Source = "Plummer and Busenberg (1982), Geochim. Cosmochim. Acta 46:1011-1040; water as in the PHREEQC database (USGS).",
            Reckon = g =>
            {
                var k = CarbonateConstants.At(g["temp_c"]);
                return [k.PK1, k.PK2, k.PKw, k.PKh, k.PKCalcite];
            },
            Meaning = a => $"pK1 {a.Say("pk1")}, pK2 {a.Say("pk2")}.",
        },
        new("unit-conversion", "What is that in my unit?")
        {
            Explanation = "Carries a value between units: those of hardness and alkalinity (dkh, dgh, meq_l, mg_l_caco3, mg_l_ca, mg_l_mg, mg_l_hco3, french_degree, clark_degree), and any others that measure the same thing (gal_us to L, degF to degC, L/min to m3/h).",
            Inputs = [Number("value_in", "1", "the value", -1e12, 1e12, "6"), Word("unit_in", "its unit", "dkh"), Word("unit_out", "the unit wanted", "mg_l_caco3")],
            Outputs = [new("value_out", "1", "the value in the unit wanted")],
            Along = "value_in", Shown = (0, 20),
            Formula = "value x factor (+ offset for temperatures)",
            Source = "Definitions; hardness through 100.0869 g/mol of CaCO3, one German degree being 10 mg/L CaO; other units after UCUM.",
            Reckon = g =>
            {
                string from = g.Word("unit_in"), to = g.Word("unit_out");
                if (CaCO3Of(from) is { } one && CaCO3Of(to) is { } other) return [g["value_in"] * one / other];
                return [UnitOf("unit_in", from).To(UnitOf("unit_out", to), g["value_in"])];
            },
            Meaning = a => $"{Figure.Brief(a.Given["value_in"])} {a.Given.Word("unit_in")} are {a.Say("value_out")} {a.Given.Word("unit_out")}.",
        },
        new("ph-electrode", "Is my pH electrode still good?")
        {
            Explanation = "Slope and offset of a pH electrode from its readings in two buffers.",
            Inputs =
            [
                Number("neutral_mv", "mV", "reading in the neutral buffer", -1000, 1000, "5"), Number("acid_mv", "mV", "reading in the acid buffer", -1000, 1000, "175"),
                WaterTemp.Within(0, 100), Number("neutral_ph", "1", "pH of the neutral buffer", 6, 8, "7").Or("7"), Number("acid_ph", "1", "pH of the acid buffer", 1, 5, "4").Or("4"),
            ],
            Outputs = [new("efficiency_pct", "%", "slope over the ideal one"), new("slope_mv", "mV", "slope for each pH"), new("offset_mv", "mV", "reading in the neutral buffer")],
            Along = "acid_mv", Shown = (120, 190),
            Formula = "slope = (acid - neutral)/(pH neutral - pH acid); ideal = ln(10) R T/F",
            Source = "Nernst equation with CODATA 2018; 90 to 105 % and 30 mV usually pass (common practice).",
            Reckon = g =>
            {
                var found = PhElectrode.Calibrate(g["neutral_mv"], g["acid_mv"], g["temp_c"], g["neutral_ph"], g["acid_ph"]);
                return [100 * found.Efficiency, found.SlopeMv, found.OffsetMv];
            },
            Meaning = a => $"{a.Say("efficiency_pct")} of the ideal slope: " + (a["efficiency_pct"] is >= 90 and <= 105 && Math.Abs(a["offset_mv"]) <= 30 ? "good." : "clean it, take fresh buffers, and replace it if that does not help."),
        },
    ];

    private static double Nitrified(Given g) => g["alkalinity_mg_l_caco3"] - (Fish.Nitrification.AlkalinityPerN * g["n_oxidised_mg_n_l"]);

    private static Unit UnitOf(string input, string text) => Unit.TryParse(text, out var unit) ? unit
        : throw new RefusedInputException(new Problem(input, $"\"{text}\" is no unit known here", "Give two units of one kind, such as gal_us and L, or dkh and mg_l_caco3"));

    private static double? CaCO3Of(string unit) => unit.ToLowerInvariant() switch
    {
        "mg_l_caco3" or "mg_l_caco3_hardness" => 1,
        "meq_l" or "mmol_l_hco3" => Conversions.MgCaCO3PerMeq,
        "dkh" or "dgh" => Conversions.MgCaCO3PerGermanDegree,
        "french_degree" => Conversions.MgCaCO3PerFrenchDegree,
        "clark_degree" => Conversions.MgCaCO3PerClarkDegree,
        "mg_l_ca" => Conversions.MgCaCO3PerMgCa,
        "mg_l_mg" => Conversions.MgCaCO3PerMgMg,
        "mg_l_hco3" => Conversions.MgCaCO3PerMgHCO3,
        _ => null,
    };
}
