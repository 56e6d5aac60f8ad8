using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>How much of what to put into the water.</summary>
internal static class Dosing
{
    private static readonly string[] Bases = [.. AlkalinityDose.Bases.Select(b => b.Formula)];
    private static readonly (string Value, string Words)[] Named =
    [
        ("KHCO3", "potassium bicarbonate"), ("NaHCO3", "sodium bicarbonate, baking soda"), ("K2CO3", "potassium carbonate, potash"), ("Na2CO3", "sodium carbonate, washing soda"),
        ("Ca(OH)2", "calcium hydroxide, hydrated lime"), ("KOH", "potassium hydroxide, caustic potash"), ("NaOH", "sodium hydroxide, caustic soda"), ("CaO", "calcium oxide, quicklime"),
        ("Mg(OH)2", "magnesium hydroxide"), ("MgO", "magnesium oxide"), ("CaCO3", "calcium carbonate, limestone"), ("MgCO3", "magnesium carbonate"), ("CaMg(CO3)2", "dolomite"),
    ];

    private static readonly Input Base = Word("substance", "the base (its formula; dolomite and limestone are known too)", "KHCO3") with { Offers = Named };
    private static readonly Input ElementFraction = Number("product_element_fraction", "1", "share of the element in the product, as a fraction", 1e-6, 1, "0.06");
    private static readonly Input Raise = Number("delta_element_mg_l", "mg/L", "rise wanted", 0, 1000, "2");
    private static readonly Input Chlorine = Number("chlorine_mg_l", "mg/L", "chlorine in the tap water", 0, 20, "2");
    private static readonly Input ChlorideRise = Number("chloride_rise_mg_l", "mg/L", "rise of chloride wanted", 0, 20_000, "100");

    public static readonly Relation[] All =
    [
        new("dose-to-raise-alkalinity", "How much bicarbonate?")
        {
            Explanation = "Grams of a base that raise the alkalinity of a volume. Alkalinity feeds the filter and holds pH; potassium and calcium bases feed plants as well, sodium ones do not.",
            Inputs = [Base, Volume, Number("delta_alkalinity_mg_l_caco3", "mg/L as CaCO3", "rise of alkalinity wanted", 0, 1000, "20"), Number("purity", "1", "share of the product that is the base", 0.01, 1, "1").Or("1")],
            Outputs = [new("dose_g", "g", "dose"), new("dose_mmol_l", "mmol/L", "dose for each litre")],
            Along = "delta_alkalinity_mg_l_caco3", Shown = (0, 60),
            Formula = "g = litres x rise / (mg CaCO3 for each g x purity); mg CaCO3 for each g = 1000 x equivalents x 50.04 / molar mass",
            Source = "Stoichiometry with IUPAC atomic weights. Technical grades hold 85 to 98 %; carbonates of calcium and magnesium dissolve slowly.",
            Cautions = [Caution.Dose, Caution.Caustic, "Ammonia grows more harmful as pH rises: test ammonia before you raise pH. Fish stand 0.2 to 0.3 of pH a day (common practice)."],
            Reckon = g =>
            {
                var alkaline = BaseOf(g);
                double dose = AlkalinityDose.DoseG(alkaline, g["volume_l"], g["delta_alkalinity_mg_l_caco3"], g["purity"]);
                return [dose, g["delta_alkalinity_mg_l_caco3"] / Conversions.MgCaCO3PerMeq / alkaline.Equivalents];
            },
            Meaning = a => $"{a.Say("dose_g")} of {Called(a.Given.Word("substance"))}" +
                (BaseOf(a.Given).Carbon == 0 ? ". It burns and lifts pH at once: many small steps." : BaseOf(a.Given).DissolvesSlowly ? ", which dissolves slowly and only while the water is soft: hang it in a bag." : ", dissolved first and given in two or more parts."),
        },
        new("alkalinity-per-gram", "Which base gives most for its weight?")
        {
            Explanation = "Alkalinity that one gram of a base gives, pure and fully dissolved.",
            Inputs = [Base],
            Outputs = [new("alkalinity_per_g_mg_caco3", "mg/g", "alkalinity as CaCO3 from one gram")],
            Formula = "1000 x equivalents x 50.04 / molar mass",
            Source = "Stoichiometry with IUPAC atomic weights.",
            Cautions = [Caution.Caustic],
            Reckon = g => [BaseOf(g).AlkalinityMgCaCO3PerG],
            Meaning = a => $"A gram lifts 100 L by {Figure.Say(a["alkalinity_per_g_mg_caco3"] / 100, "mg/L as CaCO3")}.",
        },
        new("ph-after-base", "Where will pH go after the dose?")
        {
            Explanation = "pH right after a base is stirred in, and later when air has driven surplus carbon dioxide out. A tank full of fish stays 0.3 to 1.3 below the aerated value.",
            Inputs =
            [
                Base, WaterTemp, Number("start_ph", "1", "pH before", 4.5, 10, "6.4"), Number("start_alkalinity_mg_l_caco3", "mg/L as CaCO3", "alkalinity before", 0, 1000, "20"),
                Number("dose_mmol_l", "mmol/L", "dose", 0, 5, "0.4"), Number("pco2_uatm", "uatm", "carbon dioxide in the air", 1, 100_000, "420").Or("420"),
            ],
            Outputs = [new("ph_closed", "1", "pH at once"), new("ph_aerated", "1", "pH after long aeration"), new("alkalinity_mg_l_caco3", "mg/L as CaCO3", "alkalinity after"), new("dose_mg_l", "mg/L", "dose by weight")],
            Along = "dose_mmol_l", Shown = (0, 1.5),
            Formula = "carbonate balance before and after, carbon kept for the closed value and set by air for the aerated one",
            Source = "Plummer and Busenberg (1982); Stumm and Morgan (1996).",
            Cautions = [Caution.Dose, Caution.Caustic, "Ammonia grows more harmful as pH rises: test ammonia before you raise pH."],
            Reckon = g =>
            {
                var alkaline = BaseOf(g);
                double dose = g["dose_mmol_l"], start = g["start_alkalinity_mg_l_caco3"], added = dose * alkaline.Equivalents * Conversions.MgCaCO3PerMeq;
                return
                [
                    Carbonate.PhAfterBase(g["start_ph"], start, added, dose * alkaline.Carbon, g["temp_c"]), Carbonate.AeratedPh(start + added, g["temp_c"], g["pco2_uatm"]),
                    start + added, dose * ChemicalFormula.MolarMass(alkaline.Formula),
                ];
            },
            Meaning = a => $"pH goes from {Figure.Brief(a.Given["start_ph"])} to {a.Say("ph_closed")} at once and towards {a.Say("ph_aerated")} with air." +
                (a["ph_closed"] - a.Given["start_ph"] > 0.3 ? " That is more than fish stand in a day: give it in parts over days." : ""),
        },
        new("element-dose", "How much of a product brings an element up?")
        {
            Explanation = "Grams of a product that raise an element: potassium, calcium, magnesium. The share of the element comes from the label, or from the formula of a pure salt.",
            Inputs = [Volume, Raise.Say("20"), ElementFraction.Say("0.4"), Word("element", "the element's symbol", "K"), Word("substance", "formula of the pure salt", "K2SO4")],
            Choices = [new([["element", "substance"], ["product_element_fraction"]]) { Agrees = _ => true }],
            Outputs = [new("dose_g", "g", "dose"), new("product_element_fraction", "1", "share of the element in the product")],
            Along = "delta_element_mg_l", Shown = (0, 60),
            Formula = "g = litres x rise / (1000 x share)",
            Source = "Definition; shares of pure salts from IUPAC atomic weights.",
            Cautions = [Caution.Dose],
            Reckon = g =>
            {
                double share = g.Has("product_element_fraction") ? g["product_element_fraction"] : Share(g.Word("element"), g.Word("substance"));
                return [ElementDose.DoseG(g["volume_l"], g["delta_element_mg_l"], share), share];
            },
            Meaning = a => $"{a.Say("dose_g")}; it holds {Amounts.Percent(a["product_element_fraction"])} of the element.",
        },
        new("element-fraction", "How much of the element is in this salt?")
        {
            Explanation = "Share of an element in a pure substance, by weight: Ca in CaSO4.2H2O.",
            Inputs = [Word("substance", "element and formula, as in: K in K2SO4", "K in K2SO4")],
            Outputs = [new("mass_fraction", "1", "share of the element")],
            Formula = "mass of the element / molar mass",
            Source = "IUPAC abridged atomic weights.",
            Reckon = g =>
            {
                string text = g.Word("substance");
                int at = text.IndexOf(" in ", StringComparison.Ordinal);
                if (at < 1) throw new RefusedInputException(new Problem("substance", $"\"{text}\" names no element", "Write it as in: K in K2SO4"));
                return [Share(text[..at], text[(at + 4)..])];
            },
            Meaning = a => $"{Amounts.Percent(a["mass_fraction"])} by weight.",
        },
        new("iron-chelate-dose", "How much iron do my plants need?")
        {
            Explanation = "Grams of an iron chelate that raise iron. Yellow young leaves with green veins want iron; 2 mg/L every three weeks is usual. Above pH 7 take a chelate that holds there (DTPA to 7.5, EDDHA above; common practice).",
            Inputs = [Volume, Raise, ElementFraction.Named("product_element_fraction", "share of iron in the product: the label says 6 to 13 %").Say("0.11")],
            Outputs = [new("dose_g", "g", "dose")],
            Along = "delta_element_mg_l", Shown = (0, 4),
            Formula = "g = litres x rise / (1000 x share)",
            Source = "Definition; 2 mg/L every three weeks: University of the Virgin Islands aquaponics notes; 1 to 2 mg/L: FAO 589 section 8.3.",
            Cautions = [Caution.Dose],
            Reckon = g => [ElementDose.DoseG(g["volume_l"], g["delta_element_mg_l"], g["product_element_fraction"])],
            Meaning = a => $"{a.Say("dose_g")}, dissolved in a bucket and poured where the water moves.",
        },
        new("fishless-ammonia-dose", "How much ammonia starts a filter without fish?")
        {
            Explanation = "Grams of an ammonium salt, or of household ammonia, that bring total ammonia nitrogen to a level for starting a filter before any fish come.",
            Inputs = [Volume, Raise.Named("delta_element_mg_l", "total ammonia nitrogen wanted, as N"), ElementFraction.Named("product_element_fraction", "nitrogen in the product: ammonium chloride 0.262, sulfate 0.212, 10 % ammonia water 0.082").Say("0.26185")],
            Outputs = [new("dose_g", "g", "dose")],
            Along = "delta_element_mg_l", Shown = (0, 5),
            Formula = "g = litres x rise / (1000 x share)",
            Source = "Stoichiometry with IUPAC atomic weights.",
            Cautions = ["Only while there are no fish: this dose would kill them.", "Ammonia water burns eyes and lungs, and must never meet chlorine bleach: gloves, goggles, open air.", Caution.Dose],
            Reckon = g => [ElementDose.DoseG(g["volume_l"], g["delta_element_mg_l"], g["product_element_fraction"])],
            Meaning = a => $"{a.Say("dose_g")}; wait until ammonia and nitrite both read nothing within a day before fish come.",
        },
        new("dechlorination-thiosulfate", "How much thiosulfate takes the chlorine out?")
        {
            Explanation = "Grams of sodium thiosulfate (pentahydrate crystals) for tap water with chlorine. The ammonia of chloramine stays behind and needs the filter.",
            Inputs = [Volume.Say("400"), Chlorine],
            Outputs = [new("dose_g", "g", "dose")],
            Along = "chlorine_mg_l", Shown = (0, 5),
            Formula = "g = litres x chlorine / 1000 x 2 x 248.18 / 70.906",
            Source = "Stoichiometry to tetrathionate, the safe side.",
            Cautions = [Caution.Dose, Caution.TestKit],
            Reckon = g => [Dechlorination.ThiosulfateG(g["volume_l"], g["chlorine_mg_l"])],
            Meaning = a => $"{a.Say("dose_g")}; test for chlorine again before the water meets fish.",
        },
        new("dechlorination-ascorbate", "How much vitamin C takes the chlorine out?")
        {
            Explanation = "Grams of ascorbic acid for tap water with chlorine. It lowers pH a little; the ammonia of chloramine stays behind.",
            Inputs = [Volume.Say("400"), Chlorine],
            Outputs = [new("dose_g", "g", "dose")],
            Along = "chlorine_mg_l", Shown = (0, 5),
            Formula = "g = litres x chlorine / 1000 x 176.12 / 70.906",
            Source = "Stoichiometry.",
            Cautions = [Caution.Dose, Caution.TestKit],
            Reckon = g => [Dechlorination.AscorbicAcidG(g["volume_l"], g["chlorine_mg_l"])],
            Meaning = a => $"{a.Say("dose_g")}; test for chlorine again before the water meets fish.",
        },
        new("salt-dose-on-no2", "How much salt protects from nitrite?")
        {
            Explanation = "Chloride keeps nitrite out of the gills of most fish. Grams of pure salt that bring chloride to a multiple of nitrite (as NO2), counting the chloride that is there. It buys time; it does not remove nitrite.",
            Inputs =
            [
                Volume, Number("no2_mg_l", "mg/L", "nitrite, as NO2", 0, 500, "3"), Number("no2_n_mg_l", "mg/L as N", "nitrite, as nitrogen", 0, 150, "0.9"),
                Number("chloride_mg_l", "mg/L", "chloride in the water", 0, 20_000, "10"), Number("ratio_cl_to_no2", "1", "chloride over nitrite by weight", 0, 100, "10").Or("10"),
            ],
            Choices = [new([["no2_mg_l"], ["no2_n_mg_l"]]) { Agrees = g => Math.Abs(g["no2_mg_l"] - NitrogenForms.FromNitrogenMgPerL(g["no2_n_mg_l"], NitrogenForm.Nitrite)) <= 0.005 * g["no2_mg_l"] + 0.001 }],
            Outputs = [new("salt_g", "g", "salt"), new("chloride_needed_mg_l", "mg/L", "chloride to add"), new("chloride_target_mg_l", "mg/L", "chloride wanted")],
            Along = "no2_mg_l", Shown = (0, 10),
            Formula = "chloride wanted = ratio x NO2; salt = litres x (wanted - there) / (1000 x 0.6066)",
            Source = "Durborow, Crosby and Brunson (1997), SRAC Publication 462: at least ten times nitrite; 100 mg/L as insurance.",
            Cautions = [Caution.Dose, Caution.Vet, Caution.Plants, "It does not help largemouth bass and their kin, and never use salt with additives."],
            Reckon = g =>
            {
                double nitrogen = g.Has("no2_n_mg_l") ? g["no2_n_mg_l"] : NitrogenForms.ToNitrogenMgPerL(g["no2_mg_l"], NitrogenForm.Nitrite);
                var dose = NitriteSalt.Dose(g["volume_l"], nitrogen, g["chloride_mg_l"], g["ratio_cl_to_no2"]);
                return [dose.SaltG, dose.ChlorideNeededMgPerL, dose.ChlorideTargetMgPerL];
            },
            Meaning = a => a["salt_g"] > 0 ? $"{a.Say("salt_g")} of pure salt, dissolved and given over hours; stop feeding until nitrite falls." : "The chloride that is there is enough; stop feeding until nitrite falls.",
        },
        new("salt-for-chloride", "How much salt raises chloride?")
        {
            Explanation = "Grams of pure salt that raise chloride in a volume.",
            Inputs = [Volume, ChlorideRise],
            Outputs = [new("salt_g", "g", "salt"), new("salt_mg_l", "mg/L", "salt for each litre"), new Output("value", "mg/L", "salt for each litre").Folded()],
            Along = "chloride_rise_mg_l", Shown = (0, 300),
            Formula = "salt = litres x rise / (1000 x 0.6066)",
            Source = "Stoichiometry of NaCl; 100 mg/L of chloride as insurance against nitrite: SRAC Publication 462.",
            Cautions = [Caution.Dose, Caution.Plants],
            Reckon = g => [NitriteSalt.SaltForChlorideG(g["volume_l"], g["chloride_rise_mg_l"]), NitriteSalt.SaltForChlorideG(1000, g["chloride_rise_mg_l"]), NitriteSalt.SaltForChlorideG(1000, g["chloride_rise_mg_l"])],
            Meaning = a => $"{a.Say("salt_g")}, or {a.Say("salt_mg_l")}.",
        },
        new("salt-for-pond", "How much salt does a pond take?")
        {
            Explanation = "Salt for a pond measured in acre-feet, in pounds, as the bulletins have it.",
            Inputs = [Number("acre_feet", "acre.ft", "volume of the pond", 0, 1e5, "5"), ChlorideRise.Say("10")],
            Outputs = [new("salt_lb", "lb", "salt"), new("salt_kg", "kg", "salt")],
            Along = "chloride_rise_mg_l", Shown = (0, 100),
            Formula = "salt = volume x rise / 0.6066",
            Source = "Stoichiometry; SRAC Publication 462 rounds to 4.5 lb an acre-foot for each mg/L.",
            Cautions = [Caution.Dose, Caution.Discharge],
            Reckon = g =>
            {
                double grams = NitriteSalt.SaltForChlorideG(g["acre_feet"] * Conversions.LPerAcreFoot, g["chloride_rise_mg_l"]);
                return [grams / Conversions.GPerPound, grams / 1000];
            },
            Meaning = a => $"{a.Say("salt_lb")}, {a.Say("salt_kg")}.",
        },
        new("nitrite-chloride-ratio", "Is the ratio on nitrite or on its nitrogen?")
        {
            Explanation = "A ratio of chloride to nitrite, carried between nitrite as the ion and as nitrogen. Ten on the ion is thirty-three on the nitrogen.",
            Inputs = [Number("ratio_cl_to_no2", "1", "ratio to nitrite as NO2", 0, 1000, "10"), Number("ratio_cl_to_no2_n", "1", "ratio to nitrite as N", 0, 1000, "20")],
            Choices = [new([["ratio_cl_to_no2"], ["ratio_cl_to_no2_n"]])],
            Outputs = [new("ratio_cl_to_no2", "1", "ratio to nitrite as NO2"), new("ratio_cl_to_no2_n", "1", "ratio to nitrite as N")],
            Formula = "ratio on N = 3.2845 x ratio on NO2",
            Source = "IUPAC abridged atomic weights.",
            Reckon = g =>
            {
                double perN = NitrogenForms.MassPerN(NitrogenForm.Nitrite), onIon = g.Has("ratio_cl_to_no2") ? g["ratio_cl_to_no2"] : g["ratio_cl_to_no2_n"] / perN;
                return [onIon, onIon * perN];
            },
            Meaning = a => $"{a.Say("ratio_cl_to_no2")} to 1 on nitrite, {a.Say("ratio_cl_to_no2_n")} to 1 on its nitrogen.",
        },
    ];

    // As it stands on the bag, with the formula behind.
    private static string Called(string substance) => Named.FirstOrDefault(n => n.Value == substance) is { Words: { } words } ? $"{words.Split(',')[0]} ({substance})" : substance;

    private static AlkalineBase BaseOf(Given g) => AlkalinityDose.Find(g.Word("substance")) ?? throw new RefusedInputException(
        new Problem("substance", $"\"{g.Word("substance")}\" is not known", $"Give one of {string.Join(", ", Bases)}"));

    private static double Share(string element, string substance)
    {
        double share;
        try
        {
            share = ChemicalFormula.MassFraction(element.Trim(), substance.Trim() == "urea" ? "CO(NH2)2" : substance.Trim());
        }
        catch (FormatException error)
        {
            throw new RefusedInputException(new Problem("substance", error.Message, "Write a formula such as K2SO4 or CaSO4.2H2O"));
        }

        return share > 0 ? share : throw new RefusedInputException(new Problem("substance", $"{substance} holds no {element}", "Check the symbol and the formula"));
    }
}
