using Runnel.Science.Air;
using Runnel.Science.Fish;
using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Oxygen: what water holds, what fish take, how long it lasts.</summary>
internal static class AirForFish
{
    private static readonly Input Pressure = Number("pressure_kpa", "kPa", "air pressure at the place", 50, 115, "101.325");
    private static readonly Input Mercury = Number("pressure_mmhg", "mm[Hg]", "air pressure at the place, mercury", 376, 860, "760");
    private static readonly Input Altitude = Number("altitude_m", "m", "height above sea level", -450, 5000, "100");
    private static readonly Input Salinity = Number("salinity_g_kg", "g/kg", "salinity", 0, 40, "0").Or("0");

    // A table may hold the altitude beside the pressure of that altitude.
    private static readonly OneOf PressureChoice = new([["pressure_kpa"], ["altitude_m"], ["pressure_mmhg"]])
    {
        Agrees = g => g.Has("pressure_kpa") && g.Has("altitude_m") && !g.Has("pressure_mmhg")
            && Math.Abs(g["pressure_kpa"] - (StandardAtmosphere.PressurePa(g["altitude_m"]) / 1000)) < 0.1,
    };

    public static readonly Relation[] All =
    [
        new("time-to-hypoxia", "How long can they go without air?")
        {
            Explanation = "Minutes until oxygen falls to a level at which fish suffer once the air has stopped: the oxygen in the water against what fish and bacteria use, with what the still surface lets in.",
            Inputs =
            [
                Oxygen.Named("do_mg_l", "dissolved oxygen when the air stops").Say("7"),
                Volume,
                Number("biomass_kg", "kg", "weight of all fish", 0, 1e6, "20"),
                Number("respiration_mg_kg_h", "mg/(kg h)", "oxygen that a kilogram of fish uses in an hour (150 at rest to 500 after feeding)", 0, 5000, "300"),
                Number("other_demand_g_h", "g/h", "oxygen that filter and sludge use", 0, 1e6, "1").Or("0"),
                Number("do_critical_mg_l", "mg/L", "oxygen at which fish suffer", 0, 20, "3").Or("3"),
                WaterTemp.Within(0, 40).Or("25"),
                Number("kla20_per_h", "1/h", "what the still surface lets in, as a transfer coefficient at 20 degC (0 to 0.3)", 0, 20, "0").Or("0"),
            ],
            Outputs =
            [
                new("minutes_to_critical", "min", "time until that level"),
                new Output("steady_do_mg_l", "mg/L", "oxygen it would settle at, with what the surface lets in; below 0: none is left").Folded(),
                new("demand_mg_l_h", "mg/L/h", "fall of oxygen an hour without any exchange"),
            ],
            Along = "biomass_kg", Shown = (1, 100),
            Formula = "V dO/dt = kLa (Cs - O) V - (biomass x respiration + other); without exchange t = (O - limit) V / use",
            Source = "Two-film gas transfer (Lewis and Whitman 1924), saturation by Benson and Krause (1984); fish in a stocked tank are distressed within 10 to 20 min of an air failure in print.",
            Cautions = [Caution.TimeLeft, Caution.Electric],
            Reckon = g =>
            {
                double use = ((g["biomass_kg"] * g["respiration_mg_kg_h"]) + (1000 * g["other_demand_g_h"])) / Math.Max(g["volume_l"], 1e-6);
                double transfer = Aeration.TransferPerH(g["kla20_per_h"], g["temp_c"]), saturation = OxygenSaturation.MgPerL(g["temp_c"]);
                double hours = OxygenAfterAirFailure.HoursTo(g["do_critical_mg_l"], g["do_mg_l"], saturation, transfer, use);
                return [60 * hours, transfer > 0 ? OxygenAfterAirFailure.SteadyMgPerL(saturation, transfer, use) : double.NaN, use];
            },
            Meaning = a => double.IsFinite(a["minutes_to_critical"])
                ? $"At most {Amounts.Minutes(a["minutes_to_critical"])} until oxygen is at {Figure.Say(a.Given["do_critical_mg_l"], "mg/L")}, where fish suffer. It falls by {Figure.Brief(a["demand_mg_l_h"] / 60)} mg/L a minute."
                : $"The surface keeps up by itself, at {a.Say("steady_do_mg_l")}; still, do not rely on it.",
        },
        new("oxygen-saturation", "How much oxygen can my water hold?")
        {
            Explanation = "Oxygen that water holds when it is in balance with air: less when warm, salty or high up. No air pump lifts it above this.",
            Inputs = [WaterTemp.Within(0, 40), Salinity, Pressure, Altitude, Mercury],
            Choices = [PressureChoice],
            Outputs = [new("do_sat_mg_l", "mg/L", "oxygen at saturation")],
            Along = "temp_c",
            Formula = "Benson-Krause polynomial of 1/T with salinity, scaled by pressure less water vapour",
            Source = "Benson and Krause (1984), Limnol. Oceanogr. 29:620-632, as printed in APHA Standard Methods 4500-O; altitude by the standard atmosphere.",
            Reckon = g => [Saturation(g)],
            Meaning = a => $"In balance with air this water holds {a.Say("do_sat_mg_l")}. Warm-water fish want 4 to 6 and cold-water fish 6 to 8 mg/L at least (FAO 589).",
        },
        new("percent-saturation", "Is my oxygen reading good for this temperature?")
        {
            Explanation = "A reading of dissolved oxygen as a share of what the water could hold here.",
            Inputs = [WaterTemp.Within(0, 40), Salinity, Pressure, Altitude, Mercury, Oxygen],
            Choices = [PressureChoice],
            Outputs = [new("percent_sat", "%", "share of saturation"), new("do_sat_mg_l", "mg/L", "oxygen at saturation")],
            Along = "do_mg_l", Shown = (0, 12),
            Formula = "100 x reading / saturation (Benson-Krause)",
            Source = "Benson and Krause (1984), as printed in APHA Standard Methods 4500-O.",
            Reckon = g => [100 * g["do_mg_l"] / Saturation(g), Saturation(g)],
            Meaning = a => $"{a.Say("percent_sat")} of saturation. " + (a["percent_sat"] > 105 ? "Above saturation: algae or plants in light, or a wrong reading; it falls at night." : a["percent_sat"] < 60 ? "Low: more air, less feed." : "A fair reading."),
        },
        new("oxygen-lost-to-salt", "How much oxygen does salt cost?")
        {
            Explanation = "Oxygen that water can hold less for each gram of salt in a kilogram, as the mean from fresh water to a salinity.",
            Inputs = [WaterTemp.Within(0, 40), Number("salinity_g_kg", "g/kg", "salinity", 0.1, 40, "35").Or("35")],
            Outputs = [new("salinity_slope_mg_l_per_g_kg", "mg/L", "lost for each g/kg of salt"), new("do_sat_mg_l", "mg/L", "oxygen at saturation at that salinity")],
            Along = "temp_c", Shown = (0, 35),
            Formula = "(saturation in fresh water - saturation at S)/S",
            Source = "Benson and Krause (1984), as printed in APHA Standard Methods 4500-O; EN 25814 has 1 to 4 % less.",
            Reckon = g =>
            {
                double salt = OxygenSaturation.MgPerL(g["temp_c"], salinityGPerKg: g["salinity_g_kg"]);
                return [(OxygenSaturation.MgPerL(g["temp_c"]) - salt) / g["salinity_g_kg"], salt];
            },
            Meaning = a => $"Each gram of salt in a kilogram of water costs {a.Say("salinity_slope_mg_l_per_g_kg")} of oxygen.",
        },
    ];

    private static double Saturation(Given g)
    {
        double kPa = g.Has("pressure_kpa") ? g["pressure_kpa"] : g.Has("pressure_mmhg") ? g["pressure_mmhg"] * Conversions.KPaPerMmHg : StandardAtmosphere.PressurePa(g["altitude_m"]) / 1000;
        return OxygenSaturation.MgPerL(g["temp_c"], kPa, g["salinity_g_kg"]);
    }
}
