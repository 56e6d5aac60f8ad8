using Runnel.Science.Air;
using Runnel.Science.Plants;
using Runnel.Science.Sun;
using Runnel.Science.Water;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>Evapotranspiration and evaporation from the weather.</summary>
internal static class Weather
{
    private const string Fao56 = "Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56";

    public static readonly Relation[] All =
    [
        new("eto-daily", "How much did plants lose today?")
        {
            Explanation = "Reference evapotranspiration of a day: what a well-watered lawn in the open gives off. Times a crop coefficient it is what a crop needs. What was not measured may be left out: humidity is then taken from the lowest temperature, wind as 2 m/s, sun from the temperature range, and single days err by 20 to 30 %.",
            Inputs =
            [
                Latitude, Elevation, DayOfYear, Date, TempMax, TempMin, RhMax, RhMin,
                Number("ea_kpa", "kPa", "vapour pressure of the air", 0, 8, "2"),
                Number("dew_point_c", "degC", "dew point", -60, 50, "18"),
                Wind2,
                Number("wind_m_s", "m/s", "wind at another height", 0, 50, "3"),
                Number("wind_height_m", "m", "that height above the ground", 0.5, 100, "10"),
                Number("sunshine_h", "h", "hours of bright sunshine", 0, 24, "8"),
                SunOfDay,
                Number("soil_heat_mj_m2_day", "MJ/(m2 d)", "heat into the soil", -10, 10, "0").Or("0"),
                Number("angstrom_a", "1", "share of sun that comes through on an overcast day", 0, 1, "0.25").Or("0.25"),
                Number("angstrom_b", "1", "share that full sun adds", 0, 1, "0.5").Or("0.5"),
                Number("krs", "1", "coefficient of the temperature range: 0.16 inland, 0.19 at the coast", 0.1, 0.25, "0.16").Or("0.16"),
            ],
            Choices =
            [
                Day,
                new([["rhmax_pct", "rhmin_pct"], ["ea_kpa"], ["dew_point_c"]], MayBeNone: true),
                new([["wind_2m_m_s"], ["wind_m_s", "wind_height_m"]], MayBeNone: true),
                new([["rs_mj_m2_day"], ["sunshine_h"]], MayBeNone: true),
            ],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c"), Rule.NotAbove("rhmin_pct", "rhmax_pct")],
            Outputs =
            [
                new("eto_mm_day", "mm/d", "reference evapotranspiration"),
                new("rn_mj_m2_day", "MJ/(m2 d)", "net radiation"),
                new("rs_mj_m2_day", "MJ/(m2 d)", "solar radiation taken"),
            ],
            Along = "tmax_c", Shown = (15, 45),
            Formula = "ET0 = (0.408 D (Rn - G) + g 900/(T + 273) u2 (es - ea)) / (D + g (1 + 0.34 u2))",
            Source = Fao56 + ", equation 6 with equations 7 to 50.",
            Reckon = g =>
            {
                var day = Daily(g);
                return [day.Et0Mm, day.NetRadiationMJPerM2, day.SolarMJPerM2];
            },
            Meaning = a => $"{a.Say("eto_mm_day")}: a square metre of lawn gave off {Figure.Say(Math.Max(0, a["eto_mm_day"]), "L")} that day.",
        },
        new("eto-hourly", "How much do plants lose this hour?")
        {
            Explanation = "Reference evapotranspiration of one hour, in the form of FAO-56 (1998). Longitudes count west of Greenwich, as there; at night the share of sun before sunset stands in for cloud.",
            Inputs =
            [
                Number("temperature_c", "degC", "mean air temperature of the hour", -50, 60, "26"),
                Number("rh_pct", "%", "mean relative humidity", 0, 100, "60"),
                Wind2,
                Number("rs_mj_m2_h", "MJ/(m2 h)", "solar radiation of the hour", 0, 6, "1.7"),
                Elevation, Latitude,
                Number("longitude_deg_west", "deg", "longitude west of Greenwich", -360, 360, "207"),
                Number("zone_longitude_deg_west", "deg", "middle of the time zone, west of Greenwich", -360, 360, "210"),
                DayOfYear, Date,
                Number("clock_midpoint_h", "h", "middle of the hour by the clock, without daylight saving", 0, 24, "14.5"),
                Number("night_rs_rso", "1", "at night: sun over clear-sky sun two or three hours before sunset", 0, 1, "0.5").Or("0.5"),
            ],
            Choices = [Day],
            Outputs =
            [
                new("eto_mm_h", "mm/h", "reference evapotranspiration"),
                new("rn_mj_m2_h", "MJ/(m2 h)", "net radiation"),
                new("ra_mj_m2_h", "MJ/(m2 h)", "radiation above the air"),
                new("soil_heat_mj_m2_h", "MJ/(m2 h)", "heat into the soil"),
                new Output("delta_kpa_per_c", "kPa/degC", "slope of the saturation vapour pressure").Folded(),
                new Output("gamma_kpa_per_c", "kPa/degC", "psychrometric constant").Folded(),
                new Output("e0_kpa", "kPa", "saturation vapour pressure").Folded(),
                new Output("ea_kpa", "kPa", "actual vapour pressure").Folded(),
                new Output("sc_h", "h", "seasonal correction of solar time").Folded(),
                new Output("solar_angle_rad", "rad", "hour angle at the middle of the hour").Folded(),
                new Output("omega1_rad", "rad", "hour angle at its start").Folded(),
                new Output("omega2_rad", "rad", "hour angle at its end").Folded(),
                new Output("rso_mj_m2_h", "MJ/(m2 h)", "clear-sky solar radiation").Folded(),
                new Output("rs_rso", "1", "solar over clear-sky radiation").Folded(),
                new Output("rns_mj_m2_h", "MJ/(m2 h)", "net shortwave radiation").Folded(),
                new Output("rnl_mj_m2_h", "MJ/(m2 h)", "net longwave radiation").Folded(),
            ],
            Along = "rs_mj_m2_h", Shown = (0, 4),
            Formula = "ET0 = (0.408 D (Rn - G) + g 37/(T + 273) u2 (es - ea)) / (D + g (1 + 0.34 u2)); G = 0.1 Rn by day, 0.5 Rn by night",
            Source = Fao56 + ", equation 53.",
            Reckon = g =>
            {
                double angle = SolarHour.HourAngleRad(g["clock_midpoint_h"], g["longitude_deg_west"], g["zone_longitude_deg_west"], DayOf(g));
                var hour = ReferenceEvapotranspiration.Hourly(
                    g["latitude_deg"], g["elevation_m"], DayOf(g), angle, g["temperature_c"], g["rh_pct"] / 100, g["wind_2m_m_s"], g["rs_mj_m2_h"], g["night_rs_rso"]);
                double temp = g["temperature_c"], pressure = Atmosphere.PressureKPa(g["elevation_m"]), saturated = VapourPressure.SaturationKPa(temp), half = Math.PI / 24;
                double clear = SurfaceRadiation.ClearSkyMJPerM2(g["elevation_m"], hour.ExtraterrestrialMJPerM2), kept = SurfaceRadiation.NetShortwaveMJPerM2(g["rs_mj_m2_h"]);
                return
                [
                    hour.Et0Mm, hour.NetRadiationMJPerM2, hour.ExtraterrestrialMJPerM2, hour.SoilHeatMJPerM2, VapourPressure.SlopeKPaPerC(temp),
                    Atmosphere.PsychrometricConstantKPaPerC(pressure), saturated, saturated * g["rh_pct"] / 100, SolarHour.SeasonalCorrectionH(DayOf(g)), angle, angle - half, angle + half,
                    clear, SurfaceRadiation.RelativeSolar(g["rs_mj_m2_h"], clear, g["night_rs_rso"]), kept, kept - hour.NetRadiationMJPerM2,
                ];
            },
            Meaning = a => $"{a.Say("eto_mm_h")} in that hour.",
        },
        new("eto-hargreaves", "What if I only have a thermometer?")
        {
            Explanation = "Reference evapotranspiration from the day's temperatures alone. Best over weeks.",
            Inputs = [Latitude, DayOfYear, Date, TempMax, TempMin],
            Choices = [Day],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c")],
            Outputs = [new("eto_mm_day", "mm/d", "reference evapotranspiration")],
            Along = "tmax_c", Shown = (15, 45),
            Formula = "ET0 = 0.0023 (T + 17.8) sqrt(Tmax - Tmin) x 0.408 Ra",
            Source = Fao56 + ", equation 52 (Hargreaves).",
            Reckon = g => [ReferenceEvapotranspiration.HargreavesMmPerDay(g["tmax_c"], g["tmin_c"], SolarDaySum(g))],
            Meaning = a => $"About {a.Say("eto_mm_day")}, or as many litres from each square metre.",
        },
        new("extraterrestrial", "How strong is the sun on this day?")
        {
            Explanation = "Sun above the air on a level surface and the length of the day, from latitude and date: the most there can be.",
            Inputs = [Latitude, DayOfYear, Date],
            Choices = [Day],
            Outputs =
            [
                new("ra_mj_m2_day", "MJ/(m2 d)", "radiation above the air"), new("daylight_h", "h", "longest possible sunshine"),
                new Output("dr", "1", "inverse relative distance of the sun").Folded(), new Output("declination_rad", "rad", "declination").Folded(),
                new Output("sunset_angle_rad", "rad", "hour angle of sunset").Folded(),
            ],
            Along = "latitude_deg",
            Formula = "Ra = (24 x 60 / pi) 0.0820 dr (ws sin(lat) sin(d) + cos(lat) cos(d) sin(ws)); N = 24 ws / pi",
            Source = Fao56 + ", equations 21 to 34.",
            Reckon = g =>
            [
                SolarDaySum(g), SolarDay.DaylightHours(g["latitude_deg"], DayOf(g)), SolarDay.InverseDistance(DayOf(g)), SolarDay.DeclinationRad(DayOf(g)),
                SolarDay.SunsetHourAngleRad(g["latitude_deg"], DayOf(g)),
            ],
            Meaning = a => $"{a.Say("daylight_h")} of daylight; clear air lets through about three quarters of {a.Say("ra_mj_m2_day")}.",
        },
        new("open-water-evaporation", "How much does my open water lose?")
        {
            Explanation = "Evaporation from open water in a day, by Penman. A deep tank lags behind single days, and a small one in dry wind loses more.",
            Inputs =
            [
                Latitude, Elevation, DayOfYear, Date, TempMax, TempMin, RhMax, RhMin, Wind2, SunOfDay,
                Number("albedo", "1", "share of sun thrown back by the water", 0, 1, "0.08").Or("0.08"),
                Number("wind_a", "1", "constant of the wind function, mm/(d kPa)", 0, 10, "1.313").Or("1.313"),
                Number("wind_b", "1", "slope of the wind function, mm/(d kPa) for each m/s", 0, 10, "1.381").Or("1.381"),
            ],
            Choices = [Day],
            Rules = [Rule.NotAbove("tmin_c", "tmax_c"), Rule.NotAbove("rhmin_pct", "rhmax_pct")],
            Outputs = [new("evaporation_mm_day", "mm/d", "evaporation"), new("rn_mj_m2_day", "MJ/(m2 d)", "net radiation")],
            Along = "wind_2m_m_s", Shown = (0, 8),
            Formula = "E = D/(D + g) Rn/2.45 + g/(D + g) (a + b u2) (es - ea)",
            Source = "McMahon, Peel, Lowe, Srikanthan and McVicar (2013), Hydrol. Earth Syst. Sci. 17:1331-1363, equation 12 with Penman's wind function of 1956; 1948: 2.626; Shuttleworth: 2.624 and 1.407.",
            Reckon = g =>
            {
                double actual = VapourPressure.FromHumidityExtremesKPa(g["tmax_c"], g["tmin_c"], g["rhmax_pct"] / 100, g["rhmin_pct"] / 100);
                var day = OpenWaterEvaporation.PenmanDaily(
                    g["latitude_deg"], g["elevation_m"], DayOf(g), g["tmax_c"], g["tmin_c"], actual, g["wind_2m_m_s"], g["rs_mj_m2_day"], g["albedo"], g["wind_a"], g["wind_b"]);
                return [day.EvaporationMm, day.NetRadiationMJPerM2];
            },
            Meaning = a => $"{a.Say("evaporation_mm_day")}: each square metre of open water loses {Figure.Say(Math.Max(0, a["evaporation_mm_day"]), "L")} a day.",
        },
    ];

    private static double SolarDaySum(Given g) => Sun.SolarDay.ExtraterrestrialMJPerM2Day(g["latitude_deg"], DayOf(g));

    private static ReferenceDay Daily(Given g)
    {
        double max = g["tmax_c"], min = g["tmin_c"], above = SolarDaySum(g);
        double actual = g.Has("ea_kpa") ? g["ea_kpa"]
            : g.Has("dew_point_c") ? VapourPressure.FromDewPointKPa(g["dew_point_c"])
            : g.Has("rhmax_pct") ? VapourPressure.FromHumidityExtremesKPa(max, min, g["rhmax_pct"] / 100, g["rhmin_pct"] / 100)
            : VapourPressure.FromDewPointKPa(min);
        double wind = g.Has("wind_2m_m_s") ? g["wind_2m_m_s"] : g.Has("wind_m_s") ? Wind.At2MMPerS(g["wind_m_s"], g["wind_height_m"]) : 2;
        double solar = g.Has("rs_mj_m2_day") ? g["rs_mj_m2_day"]
            : g.Has("sunshine_h") ? SurfaceRadiation.FromSunshineMJPerM2Day(
                g["sunshine_h"], Sun.SolarDay.DaylightHours(g["latitude_deg"], DayOf(g)), above, g["angstrom_a"], g["angstrom_b"])
            : SurfaceRadiation.FromTemperatureRangeMJPerM2Day(max, min, above, g["krs"]);
        return ReferenceEvapotranspiration.Daily(g["latitude_deg"], g["elevation_m"], DayOf(g), max, min, actual, wind, solar, g["soil_heat_mj_m2_day"]);
    }
}
