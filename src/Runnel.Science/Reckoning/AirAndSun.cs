using Runnel.Science.Air;
using Runnel.Science.Sun;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Moist air, and where the sun stands.</summary>
internal static class AirAndSun
{
    private static readonly Input DryBulb = Number("dry_bulb_c", "degC", "air temperature", -60, 120, "28");

    public static readonly Relation[] All =
    [
        new("air", "How damp is my air?")
        {
            Explanation = "Everything about moist air from its temperature and one measure of damp: relative humidity, the wet bulb, or the dew point. Below freezing the wet bulb and dew point are over ice.",
            Inputs =
            [
                DryBulb,
                Number("rh_pct", "%", "relative humidity", 0, 100, "70"),
                Number("wet_bulb_c", "degC", "wet bulb", -60, 120, "23"),
                Number("dew_point_c", "degC", "dew point", -60, 120, "20"),
                AirPressurePa.Within(20_000, 200_000),
            ],
            Choices = [new([["rh_pct"], ["wet_bulb_c"], ["dew_point_c"]])],
            Rules = [Rule.NotAbove("wet_bulb_c", "dry_bulb_c"), Rule.NotAbove("dew_point_c", "dry_bulb_c")],
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
            ],
            Along = "rh_pct", Main = "vpd_pa", Shown = (10, 100),
            Formula = "w = 0.621945 pw/(p - pw); h = 1.006 t + w (2501 + 1.86 t); v = 287.042 T (1 + 1.607858 w)/p",
            Source = "ASHRAE Handbook Fundamentals (2017), chapter 1; saturation after Hyland and Wexler (1983).",
            Reckon = g =>
            {
                var air = g.Has("rh_pct") ? MoistAir.FromHumidity(g["dry_bulb_c"], g["rh_pct"] / 100, g["pressure_pa"])
                    : g.Has("wet_bulb_c") ? MoistAir.FromWetBulb(g["dry_bulb_c"], g["wet_bulb_c"], g["pressure_pa"])
                    : MoistAir.FromDewPoint(g["dry_bulb_c"], g["dew_point_c"], g["pressure_pa"]);
                return
                [
                    air.VapourPressurePa, air.HumidityRatio, air.WetBulbC, air.DewPointC, 100 * air.RelHumidity, air.EnthalpyKJPerKg,
                    air.VolumeM3PerKg, air.DensityKgPerM3, air.DeficitPa,
                ];
            },
            Meaning = a => $"{a.Say("rh_pct")} humidity, dew at {a.Say("dew_point_c")}; leaves feel a deficit of {Figure.Say(a["vpd_pa"] / 1000, "kPa")}" +
                (a["vpd_pa"] < 400 ? ", so little that leaves stay wet and mould thrives" : a["vpd_pa"] > 2000 ? ", so much that most plants close up" : ", a comfortable range for most plants") +
                " (limits of comfort: common practice).",
        },
        new("sun", "Where does the sun stand?")
        {
            Explanation = "Height and direction of the sun at a moment, and sunrise, noon and sunset of that day in the offset of the time given. Height is without refraction, which lifts the sun by half a degree at the horizon.",
            Inputs = [Latitude, LongitudeEast, new Input("time", "time", "moment with its offset") { Kind = InputKind.Time, Example = "2026-01-15T09:00:00+10:00" }],
            Outputs =
            [
                new("elevation_deg", "deg", "height above the horizon, without refraction"),
                new("azimuth_deg", "deg", "direction from north, eastward"),
                new("sunrise", "time", "sunrise"),
                new("solar_noon", "time", "solar noon"),
                new("sunset", "time", "sunset"),
                new("day_length_h", "h", "from sunrise to sunset"),
                new("apparent_elevation_deg", "deg", "height as seen, with refraction at sea level"),
            ],
            Along = "latitude_deg", Shown = (-66, 66),
            Formula = "sums of periodic terms of the earth's orbit, then spherical astronomy",
            Source = "Reda and Andreas (2004), Solar Position Algorithm, NREL/TP-560-34302; to 0.0003 degrees. Rise and set where the upper limb meets a level horizon (-0.8333 degrees).",
            Rules = [new("time", g => g.Time("time").Year is >= 1901 and <= 2099, "is out of range", "Give a time of the years 1901 to 2099")],
            Reckon = g =>
            {
                var time = g.Time("time");
                var sun = SolarPosition.At(JulianDay.FromUnix(time.ToUnixTimeMilliseconds() / 1000.0), g["latitude_deg"], g["longitude_deg_east"]);
                var day = SunTimes.Of(time.Year, time.Month, time.Day, g["latitude_deg"], g["longitude_deg_east"], time.Offset.TotalHours);
                return
                [
                    sun.TrueElevationDeg, sun.AzimuthDeg, At(time, day.SunriseH), At(time, day.NoonH), At(time, day.SunsetH), day.DayLengthH, sun.ElevationDeg,
                ];
            },
            Meaning = a => $"The sun stands {Figure.Brief(Math.Abs(a["elevation_deg"]))}° {(a["elevation_deg"] < 0 ? "below" : "above")} the horizon, at {Figure.Brief(a["azimuth_deg"])}° from north. " +
                (double.IsFinite(a["day_length_h"]) ? $"The day lasts {a.Say("day_length_h")}." : "It rises or sets only once that day."),
        },
    ];

    private static string? At(DateTimeOffset day, double? hours) => hours is { } h ? Rfc3339.Of(day, h) : null;
}
