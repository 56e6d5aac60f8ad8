using Runnel.Science.Air;
using Runnel.Science.Soil;
using Runnel.Science.Sun;

namespace Runnel.Science.Tests.Air;

// Source: FAO-56 (1998) printed examples and Annex 2 tables, and McMahon et al. (2013); named in each row.
public sealed class PublishedAtmosphereTests
{
    private static readonly PublishedTable Table = PublishedTable.Open("air-sun-soil/fao56-atmosphere.csv");

    public static IEnumerable<TheoryDataRow<string, string>> Rows => Table.Rows;

    [Theory, MemberData(nameof(Rows))]
    public void Air_relations_agree_with_print(string row, string source)
    {
        var c = Table[row];
        Assert.Equal(source, c.Source);
        double T(string name = "temperature_c") => c.Number(name);
        double Share(string name) => c.Number(name) / 100;
        switch (c.Relation)
        {
            case "pressure_from_elevation_eq7":
                c.Compare("pressure_kpa", Atmosphere.PressureKPa(c.Number("elevation_m")));
                break;
            case "psychrometric_constant_eq8":
                double pressure = c.Has("pressure_kpa") ? c.Number("pressure_kpa") : Atmosphere.PressureKPa(c.Number("elevation_m"));
                c.Compare("gamma_kpa_per_c", Atmosphere.PsychrometricConstantKPaPerC(pressure));
                break;
            case "saturation_vapour_pressure_eq11":
                c.Compare("e0_kpa", VapourPressure.SaturationKPa(T()));
                break;
            case "mean_saturation_vapour_pressure_eq12":
                c.Compare("es_kpa", VapourPressure.MeanSaturationKPa(T("tmax_c"), T("tmin_c")));
                break;
            case "slope_eq13":
                c.Compare("delta_kpa_per_c", VapourPressure.SlopeKPaPerC(T()));
                break;
            case "ea_from_rhmax_rhmin_eq17":
                c.Compare("ea_kpa", VapourPressure.FromHumidityExtremesKPa(T("tmax_c"), T("tmin_c"), Share("rhmax_pct"), Share("rhmin_pct")));
                break;
            case "ea_from_rhmax_eq18":
                c.Compare("ea_kpa", VapourPressure.FromMaxHumidityKPa(T("tmin_c"), Share("rhmax_pct")));
                break;
            case "ea_from_rhmean_eq19":
                c.Compare("ea_kpa", VapourPressure.FromMeanHumidityKPa(T("tmax_c"), T("tmin_c"), Share("rhmean_pct")));
                break;
            case "ea_from_dewpoint_eq14":
                c.Compare("ea_kpa", VapourPressure.FromDewPointKPa(T("dew_point_c")));
                break;
            case "ea_from_psychrometer_eq15":
                c.Compare("ea_kpa", VapourPressure.FromWetBulbKPa(T(), T("wet_bulb_c"), c.Number("pressure_kpa"), c.Number("a_psy_per_c")));
                break;
            case "vapour_pressure_deficit":
                double actual = VapourPressure.FromHumidityExtremesKPa(T("tmax_c"), T("tmin_c"), Share("rhmax_pct"), Share("rhmin_pct"));
                c.Compare("vpd_kpa", VapourPressure.DeficitKPa(T("tmax_c"), T("tmin_c"), actual));
                break;
            case "wind_to_2m_eq47":
                c.Compare("wind_2m_m_s", Wind.At2MMPerS(c.Number("wind_m_s"), c.Number("wind_height_m")));
                break;
            case "wind_run_to_speed":
                c.Compare("wind_2m_m_s", Wind.FromRunMPerS(c.Number("wind_run_km_day")));
                break;
            case "energy_to_depth_eq20":
                c.Compare("depth_mm_day", SurfaceRadiation.ToDepthMm(c.Number("energy_mj_m2_day")));
                break;
            case "soil_heat_flux_month_eq43":
                c.Compare("soil_heat_mj_m2_day", SoilHeatFlux.MonthBetweenMJPerM2Day(T("tmonth_prev_c"), T("tmonth_next_c")));
                break;
            case "soil_heat_flux_month_eq44":
                c.Compare("soil_heat_mj_m2_day", SoilHeatFlux.MonthSoFarMJPerM2Day(T("tmonth_prev_c"), T("tmonth_c")));
                break;
            case "rhmin_from_temperatures_eq64":
                c.Compare("rhmin_pct", 100 * VapourPressure.MinHumidityFromTemperatures(T("tmax_c"), T("tmin_c")));
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }
}
