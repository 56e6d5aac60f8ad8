using Runnel.Science.Air;
using Runnel.Science.Plants;
using Runnel.Science.Sun;

namespace Runnel.Science.Tests.Plants;

// Source: FAO-56 (1998) Examples 17 to 20, McMahon et al. (2013) worked day, and days computed by two independent programs; named in each row.
public sealed class PublishedEvapotranspirationTests
{
    private static readonly PublishedTable Days = PublishedTable.Open("air-sun-soil/fao56-eto.csv");
    private static readonly PublishedTable Hours = PublishedTable.Open("air-sun-soil/fao56-eto-hourly.csv");

    public static IEnumerable<TheoryDataRow<string, string>> DayRows => Days.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> HourRows => Hours.Rows;

    [Theory, MemberData(nameof(DayRows))]
    public void Days_agree_with_print(string row, string source)
    {
        var c = Days[row];
        Assert.Equal(source, c.Source);
        double latitude = c.Number("latitude_deg"), max = c.Number("tmax_c"), min = c.Number("tmin_c");
        int day = (int)c.Number("day_of_year");
        double extraterrestrial = SolarDay.ExtraterrestrialMJPerM2Day(latitude, day);
        if (c.Relation == "eto_hargreaves_eq52")
        {
            c.Compare("eto_mm_day", ReferenceEvapotranspiration.HargreavesMmPerDay(max, min, extraterrestrial));
        }
        else if (c.Relation == "eto_daily_missing_data")
        {
            var estimate = ReferenceEvapotranspiration.DailyFromTemperatures(
                latitude, c.Number("elevation_m"), day, max, min, c.Number("dew_point_c"), c.Number("wind_2m_m_s"), c.Number("krs"));
            c.Compare("eto_mm_day", estimate.Et0Mm);
            c.Compare("rs_mj_m2_day", estimate.SolarMJPerM2);
        }
        else if (c.Relation is "eto_daily_fao_pm_eq6" or "eto_monthly_fao_pm_eq6")
        {
            double actual = c.Has("ea_kpa") ? c.Number("ea_kpa")
                : VapourPressure.FromHumidityExtremesKPa(max, min, c.Number("rhmax_pct") / 100, c.Number("rhmin_pct") / 100);
            double wind = c.Has("wind_2m_m_s") ? c.Number("wind_2m_m_s") : Wind.At2MMPerS(c.Number("wind_m_s"), c.Number("wind_height_m"));
            double solar = c.Has("rs_mj_m2_day") ? c.Number("rs_mj_m2_day") : SurfaceRadiation.FromSunshineMJPerM2Day(
                c.Number("sunshine_h"), SolarDay.DaylightHours(latitude, day), extraterrestrial, c.Number("angstrom_a", 0.25), c.Number("angstrom_b", 0.5));
            var reference = ReferenceEvapotranspiration.Daily(
                latitude, c.Number("elevation_m"), day, max, min, actual, wind, solar, c.Number("soil_heat_mj_m2_day", 0));
            c.Compare("eto_mm_day", reference.Et0Mm);
            c.Compare("rn_mj_m2_day", reference.NetRadiationMJPerM2);
            c.Compare("rs_mj_m2_day", reference.SolarMJPerM2);
        }
        else
        {
            throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(HourRows))]
    public void Hours_agree_with_print(string row, string source)
    {
        var c = Hours[row];
        Assert.Equal(source, c.Source);
        Assert.Equal("eto_hourly_eq53", c.Relation);
        double latitude = c.Number("latitude_deg"), altitude = c.Number("elevation_m"), temp = c.Number("temperature_c");
        double humidity = c.Number("rh_pct") / 100, solar = c.Number("rs_mj_m2_h");
        int day = (int)c.Number("day_of_year");
        double angle = SolarHour.HourAngleRad(c.Number("clock_midpoint_h"), c.Number("longitude_deg_west"), c.Number("zone_longitude_deg_west"), day);
        double night = c.Number("night_rs_rso", 0.5);
        var hour = ReferenceEvapotranspiration.Hourly(latitude, altitude, day, angle, temp, humidity, c.Number("wind_2m_m_s"), solar, night);
        double actual = VapourPressure.FromHumidityKPa(temp, humidity);
        double clearSky = SurfaceRadiation.ClearSkyMJPerM2(altitude, hour.ExtraterrestrialMJPerM2);
        double relative = SurfaceRadiation.RelativeSolar(solar, clearSky, night);

        c.Compare("delta_kpa_per_c", VapourPressure.SlopeKPaPerC(temp));
        c.Compare("gamma_kpa_per_c", Atmosphere.PsychrometricConstantKPaPerC(Atmosphere.PressureKPa(altitude)));
        c.Compare("e0_kpa", VapourPressure.SaturationKPa(temp));
        c.Compare("ea_kpa", actual);
        c.Compare("solar_angle_rad", angle);
        c.Compare("omega1_rad", angle - (Math.PI / 24));
        c.Compare("omega2_rad", angle + (Math.PI / 24));
        c.Compare("sc_h", SolarHour.SeasonalCorrectionH(day));
        c.Compare("ra_mj_m2_h", hour.ExtraterrestrialMJPerM2);
        c.Compare("rso_mj_m2_h", clearSky);
        c.Compare("rs_rso", relative);
        c.Compare("rnl_mj_m2_h", SurfaceRadiation.NetLongwaveMJPerM2Hour(temp, actual, relative));
        c.Compare("rns_mj_m2_h", SurfaceRadiation.NetShortwaveMJPerM2(solar));
        c.Compare("rn_mj_m2_h", hour.NetRadiationMJPerM2);
        c.Compare("soil_heat_mj_m2_h", hour.SoilHeatMJPerM2);
        c.Compare("eto_mm_h", hour.Et0Mm);
        c.AssertAllCompared();
    }
}
