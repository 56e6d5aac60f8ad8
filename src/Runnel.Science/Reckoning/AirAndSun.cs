using Runnel.Science.Air;
using Runnel.Science.Sun;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Moist air, and where the sun stands.</summary>
internal static class AirAndSun
{
    private const string Handbook = "ASHRAE Handbook Fundamentals (2017), chapter 1; saturation after Hyland and Wexler (1983).";

    private static readonly Input Temperature = Number("temperature_c", "degC", "air temperature", -60, 120, "25");
    private static readonly Input Pressure = AirPressurePa.Within(20_000, 200_000).Or("101325");

    public static readonly Relation[] All =
    [
        new("air", "How damp is my air?")
        {
            Explanation = "Everything about moist air from any two of its temperature, relative humidity, wet bulb and dew point (or the temperature and the water it holds). Below freezing the wet bulb and dew point are over ice.",
            Inputs =
            [
                Number("dry_bulb_c", "degC", "air temperature", -60, 120, "28"),
                Number("rh_pct", "%", "relative humidity", 0, 100, "70"),
                Number("wet_bulb_c", "degC", "wet bulb", -60, 95, "23"),
                Number("dew_point_c", "degC", "dew point", -60, 95, "20"),
                Number("humidity_ratio_kg_kg", "kg/kg", "water for each kg of dry air", 0, 2, "0.0168"),
                Pressure,
            ],
            Choices =
            [
                new(
                [
                    ["dry_bulb_c", "rh_pct"], ["dry_bulb_c", "wet_bulb_c"], ["dry_bulb_c", "dew_point_c"], ["wet_bulb_c", "rh_pct"], ["dew_point_c", "rh_pct"], ["wet_bulb_c", "dew_point_c"],
                    ["dry_bulb_c", "humidity_ratio_kg_kg"],
                ]),
            ],
            Rules = [Rule.NotAbove("wet_bulb_c", "dry_bulb_c"), Rule.NotAbove("dew_point_c", "dry_bulb_c"), Rule.NotAbove("dew_point_c", "wet_bulb_c")],
            Outputs =
            [
                new("vapour_pressure_pa", "Pa", "vapour pressure"),
                new("humidity_ratio_kg_kg", "kg/kg", "water for each kg of dry air"),
                new("wet_bulb_c", "degC", "wet bulb"),
                new("dew_point_c", "degC", "dew point"),
                new("rh_pct", "%", "relative humidity"),
                new("enthalpy_kj_kg", "kJ/kg", "enthalpy for each kg of dry air"),
                new("specific_volume_m3_kg", "m3/kg", "volume for each kg of dry air"),
                new("density_kg_m3", "kg/m3", "density"),
                new("vpd_pa", "Pa", "vapour pressure deficit: what the air can still take"),
                new("dry_bulb_c", "degC", "air temperature"),
            ],
            Along = "rh_pct", Main = "vpd_pa", Shown = (10, 100),
            Formula = "w = 0.621945 pw/(p - pw); h = 1.006 t + w (2501 + 1.86 t); v = 287.042 T (1 + 1.607858 w)/p",
            Source = Handbook,
            Reckon = g =>
            {
                double pressure = g["pressure_pa"];
                var air = (g.Has("dry_bulb_c"), g.Has("wet_bulb_c"), g.Has("dew_point_c"), g.Has("rh_pct")) switch
                {
                    (true, _, _, true) => MoistAir.FromHumidity(g["dry_bulb_c"], g["rh_pct"] / 100, pressure),
                    (true, true, _, _) => MoistAir.FromWetBulb(g["dry_bulb_c"], g["wet_bulb_c"], pressure),
                    (true, _, true, _) => MoistAir.FromDewPoint(g["dry_bulb_c"], g["dew_point_c"], pressure),
                    (true, _, _, _) => MoistAir.FromRatio(g["dry_bulb_c"], g["humidity_ratio_kg_kg"], pressure),
                    (_, true, true, _) => MoistAir.FromWetBulbAndDewPoint(g["wet_bulb_c"], g["dew_point_c"], pressure),
                    (_, true, _, _) => MoistAir.FromWetBulbAndHumidity(g["wet_bulb_c"], g["rh_pct"] / 100, pressure),
                    _ => MoistAir.FromDewPointAndHumidity(g["dew_point_c"], g["rh_pct"] / 100, pressure),
                };
                return
                [
                    air.VapourPressurePa, air.HumidityRatio, air.WetBulbC, air.DewPointC, 100 * air.RelHumidity, air.EnthalpyKJPerKg,
                    air.VolumeM3PerKg, air.DensityKgPerM3, air.DeficitPa, air.DryBulbC,
                ];
            },
            Meaning = a => $"{a.Say("rh_pct")} humidity, dew at {a.Say("dew_point_c")}; leaves feel a deficit of {Figure.Say(a["vpd_pa"] / 1000, "kPa")}" +
                (a["vpd_pa"] < 400 ? ", so little that leaves stay wet and mould thrives" : a["vpd_pa"] > 2000 ? ", so much that most plants close up" : ", a comfortable range for most plants") +
                " (limits of comfort: common practice).",
        },
        new("saturated-air", "How much water can air hold?")
        {
            Explanation = "Air that can take up no more, over water or below freezing over ice: vapour pressure, water and heat.",
            Inputs = [Temperature, Pressure],
            Rules = [new("temperature_c", g => SaturationPressure.OfTemperaturePa(g["temperature_c"]) < 0.99 * g["pressure_pa"], "is at the boiling point of water or above it for this pressure", "Give a lower temperature or a higher pressure")],
            Outputs =
            [
                new("humidity_ratio_kg_kg", "kg/kg", "water for each kg of dry air"), new("saturation_pressure_pa", "Pa", "saturation vapour pressure"), new("enthalpy_kj_kg", "kJ/kg", "enthalpy for each kg of dry air"),
                new("specific_volume_m3_kg", "m3/kg", "volume for each kg of dry air"),
            ],
            Along = "temperature_c", Shown = (0, 50),
            Formula = "w = 0.621945 pws/(p - pws)",
            Source = Handbook,
            Reckon = g =>
            {
                var air = MoistAir.FromHumidity(g["temperature_c"], 1, g["pressure_pa"]);
                return [air.HumidityRatio, air.VapourPressurePa, air.EnthalpyKJPerKg, air.VolumeM3PerKg];
            },
            Meaning = a => $"At most {Figure.Say(1000 * a["humidity_ratio_kg_kg"], "g")} of water in each kilogram of dry air.",
        },
        new("saturation-pressure", "What is the vapour pressure of water?")
        {
            Explanation = "Saturation vapour pressure over water, below freezing over ice, from -100 to 200 °C.",
            Inputs = [Temperature.Within(-100, 200)],
            Outputs = [new("saturation_pressure_pa", "Pa", "saturation vapour pressure")],
            Along = "temperature_c", Shown = (0, 100),
            Formula = "ln p = C8/T + C9 + C10 T + C11 T^2 + C12 T^3 + C13 ln T",
            Source = Handbook,
            Reckon = g => [SaturationPressure.OfTemperaturePa(g["temperature_c"])],
            Meaning = a => $"{a.Say("saturation_pressure_pa")}.",
        },
        new("dry-air", "How much room does dry air take?")
        {
            Explanation = "Volume, density and enthalpy of air without any water.",
            Inputs = [Temperature, Pressure],
            Outputs = [new("specific_volume_m3_kg", "m3/kg", "volume of each kg"), new("density_kg_m3", "kg/m3", "density"), new("enthalpy_kj_kg", "kJ/kg", "enthalpy")],
            Along = "temperature_c", Shown = (0, 60),
            Formula = "v = 287.042 T/p; h = 1.006 t",
            Source = Handbook,
            Reckon = g =>
            {
                var air = MoistAir.FromHumidity(g["temperature_c"], 0, g["pressure_pa"]);
                return [air.VolumeM3PerKg, air.DensityKgPerM3, MoistAir.EnthalpyOf(g["temperature_c"], 0)];
            },
            Meaning = a => $"{a.Say("specific_volume_m3_kg")}, {a.Say("density_kg_m3")}.",
        },
        WhereTheSunIs.Sun,
    ];
}
