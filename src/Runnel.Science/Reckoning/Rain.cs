using Runnel.Science.Soil;
using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Rain caught, run off, and of use to roots.</summary>
internal static class Rain
{
    private static readonly Input Depth = Number("rain_mm", "mm", "rain", 0, 3000, "20");
    private static readonly Input Month = Number("rain_mm_month", "mm", "rain of the month", 0, 3000, "90");
    private static readonly Input Roof = Number("area_m2", "m2", "roof or catchment, seen from above", 0, 1e6, "60");

    public static readonly Relation[] All =
    [
        new("rain-catch", "How much water does a shower bring?")
        {
            Explanation = "Litres from a roof or from open tanks: a millimetre on a square metre is a litre.",
            Inputs =
            [
                Depth, Roof,
                Number("runoff_coefficient", "1", "share that runs off: metal 0.7 to 1, tiles and concrete 0.6 to 0.8", 0, 1, "1").Or("1"),
                Number("first_flush_mm", "mm", "first rain that is thrown away, over the plan", 0, 100, "0").Or("0"),
            ],
            Outputs = [new("yield_l", "L", "water caught")],
            Along = "rain_mm", Shown = (0, 100),
            Formula = "litres = max(0, rain x coefficient - first flush) x area",
            Source = "Definition; coefficients after Pacey and Cullis (1986), Rainwater Harvesting.",
            Cautions = [Caution.Drinking],
            Reckon = g => [RainCatch.YieldL(g["rain_mm"], g["area_m2"], g["runoff_coefficient"], g["first_flush_mm"])],
            Meaning = a => $"{a.Say("yield_l")}. In a loop that is full, as much overflows: mind fish and salts on the way out.",
        },
        new("rain-catch-month", "How much will my roof bring in a month?")
        {
            Explanation = "Litres of a month from a roof, where part of the month's rain only wets it.",
            Inputs =
            [
                Month, Roof,
                Number("efficiency", "1", "share of the rest that is caught", 0, 1, "0.85").Or("0.85"),
                Number("loss_mm_month", "mm", "rain of a month that only wets the roof", 0, 100, "2").Or("2"),
            ],
            Outputs = [new("yield_l", "L", "water caught")],
            Along = "rain_mm_month", Shown = (0, 200),
            Formula = "litres = efficiency x max(0, rain - loss) x area",
            Source = "Martin (1980), as quoted in the enHealth guidance on rainwater tanks (Australia).",
            Cautions = [Caution.Drinking],
            Reckon = g => [RainCatch.MonthlyYieldL(g["rain_mm_month"], g["area_m2"], g["efficiency"], g["loss_mm_month"])],
            Meaning = a => $"{a.Say("yield_l")} in that month.",
        },
        new("effective-rain", "How much of a month's rain do roots get?")
        {
            Explanation = "Rain of a month that ends up in the root zone, by three rules of thumb. They differ: each is named.",
            Inputs = [Month],
            Outputs =
            [
                new("effective_mm_month", "mm", "FAO training manual"),
                new("dependable_mm_month", "mm", "FAO dependable rain"),
                new("usda_scs_mm_month", "mm", "USDA SCS two-branch"),
            ],
            Along = "rain_mm_month", Shown = (0, 300),
            Formula = "training manual: 0.6 P - 10 to 75 mm, 0.8 P - 25 above; dependable: 0.6 P - 10 to 70 mm, 0.8 P - 24 above; SCS: P (125 - 0.2 P)/125 to 250 mm, 125 + 0.1 P above",
            Source = "FAO Irrigation Water Management Training Manual 3; FAO/AGLW; USDA Soil Conservation Service as given by FAO.",
            Reckon = g =>
            [
                EffectiveRain.TrainingManualMmPerMonth(g["rain_mm_month"]), EffectiveRain.DependableMmPerMonth(g["rain_mm_month"]),
                EffectiveRain.TwoBranchMmPerMonth(g["rain_mm_month"]),
            ],
            Meaning = a => $"Between {Figure.Brief(Math.Min(a["effective_mm_month"], a["usda_scs_mm_month"]))} and {a.Say("usda_scs_mm_month")} reach the roots, by the rule you trust.",
        },
        new("effective-rain-storage", "How much rain do roots get in my soil?")
        {
            Explanation = "Effective rain of a month from rain, crop use and what the soil can store, in inches as the source has it.",
            Inputs =
            [
                Number("rain_in_month", "in", "rain of the month", 0, 40, "3"),
                Number("etc_in_month", "in", "crop evapotranspiration of the month", 0, 20, "5"),
                Number("usable_storage_in", "in", "usable soil storage", 0.4, 7.8, "3"),
            ],
            Outputs = [new("effective_in_month", "in", "effective rain"), new("effective_mm_month", "mm", "effective rain")],
            Along = "rain_in_month", Shown = (0, 10),
            Formula = "SF (0.70917 P^0.82416 - 0.11556) 10^(0.02426 ETc), SF = 0.531747 + 0.295164 D - 0.057697 D^2 + 0.003804 D^3, at most P and ETc",
            Source = "USDA SCS Technical Release 21; National Engineering Handbook part 623, equation 2-84.",
            Reckon = g =>
            {
                const double inch = Conversions.MmPerInch;
                double mm = EffectiveRain.StorageBasedMmPerMonth(g["rain_in_month"] * inch, g["etc_in_month"] * inch, g["usable_storage_in"] * inch);
                return [mm / inch, mm];
            },
            Meaning = a => $"{a.Say("effective_mm_month")} of it serves the crop.",
        },
        new("runoff", "How much of a storm runs off?")
        {
            Explanation = "Runoff of one storm by the curve number of the ground: 98 for paving, 60 to 80 for lawns and beds.",
            Inputs = [Depth.Say("60"), Number("curve_number", "1", "curve number of the ground", 1, 100, "75")],
            Outputs = [new("runoff_mm", "mm", "runoff")],
            Along = "rain_mm", Shown = (0, 150),
            Formula = "S = 25400/CN - 254; Q = (P - 0.2 S)^2/(P + 0.8 S) where P > 0.2 S",
            Source = "USDA SCS (1972), National Engineering Handbook section 4.",
            Cautions = [Caution.Discharge],
            Reckon = g => [CurveNumberRunoff.RunoffMm(g["rain_mm"], g["curve_number"])],
            Meaning = a => $"{a.Say("runoff_mm")} runs off; the rest soaks in.",
        },
        new("effective-rain-two-branch", "How much of a month's rain do roots get, by the USDA rule?")
        {
            Explanation = "Rain of a month that ends up in the root zone, by the rule of thumb with two branches.",
            Inputs = [Month],
            Outputs = [new("effective_mm_month", "mm", "effective rain")],
            Along = "rain_mm_month", Shown = (0, 400),
            Formula = "P (125 - 0.2 P)/125 up to 250 mm, 125 + 0.1 P beyond",
            Source = "USDA Soil Conservation Service, as in FAO irrigation software manuals.",
            Reckon = g => [EffectiveRain.TwoBranchMmPerMonth(g["rain_mm_month"])],
            Meaning = a => $"{a.Say("effective_mm_month")} of it.",
        },
        new("effective-rain-dependable", "How much of a month's rain can I count on?")
        {
            Explanation = "Rain of a month that ends up in the root zone in four years out of five, by the FAO rule for arid and sub-humid places.",
            Inputs = [Month],
            Outputs = [new("effective_mm_month", "mm", "dependable rain")],
            Along = "rain_mm_month", Shown = (0, 300),
            Formula = "0.6 P - 10 up to 70 mm, 0.8 P - 24 beyond",
            Source = "FAO/AGLW dependable rain.",
            Reckon = g => [EffectiveRain.DependableMmPerMonth(g["rain_mm_month"])],
            Meaning = a => $"{a.Say("effective_mm_month")} of it.",
        },
        new("rain-catch-us", "How many gallons does a shower bring?")
        {
            Explanation = "US gallons from a roof, in inches and square feet.",
            Inputs = [Number("rain_in", "in", "rain", 0, 120, "1"), Number("area_ft2", "ft2", "roof or catchment, seen from above", 0, 1e7, "1000"), Number("runoff_coefficient", "1", "share that runs off: metal 0.7 to 1, tiles and concrete 0.6 to 0.8", 0, 1, "1").Or("1")],
            Outputs = [new("yield_gal", "gal_us", "water caught")],
            Along = "rain_in", Shown = (0, 4),
            Formula = "gallons = 0.623 x inches x square feet x coefficient",
            Source = "Definition; coefficients after Pacey and Cullis (1986), Rainwater Harvesting.",
            Cautions = [Caution.Drinking],
            Reckon = g => [RainCatch.YieldL(g["rain_in"] * Conversions.MmPerInch, g["area_ft2"] * Conversions.M2PerSquareFoot, g["runoff_coefficient"]) / Conversions.LPerUsGallon],
            Meaning = a => $"{a.Say("yield_gal")}.",
        },
    ];
}
