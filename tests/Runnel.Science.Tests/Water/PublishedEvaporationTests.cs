using Runnel.Science.Air;
using Runnel.Science.Plants;
using Runnel.Science.Water;

namespace Runnel.Science.Tests.Water;

// Source: McMahon et al. (2013) worked examples; Shuttleworth (1993); ASHRAE and Fernandez et al. (2010) from memory; named in each row.
public sealed class PublishedEvaporationTests
{
    private static readonly PublishedTable Table = PublishedTable.Open("air-sun-soil/open-water-evaporation.csv");

    public static IEnumerable<TheoryDataRow<string, string>> Rows => Table.Rows;

    [Theory, MemberData(nameof(Rows))]
    public void Evaporation_agrees_with_print(string row, string source)
    {
        var c = Table[row];
        Assert.Equal(source, c.Source);
        double Pressure() => Atmosphere.PressureKPa(c.Number("elevation_m"));
        switch (c.Relation)
        {
            case "open_water_penman_1956_wind":
                ComparePenman(c, c.Number("wind_a"), c.Number("wind_b"));
                break;
            case "open_water_shuttleworth_wind":
                ComparePenman(c, OpenWaterEvaporation.ShuttleworthWindA, OpenWaterEvaporation.ShuttleworthWindB);
                break;
            case "priestley_taylor":
                c.Compare("evaporation_mm_day", OpenWaterEvaporation.PriestleyTaylorMmPerDay(
                    c.Number("tmean_c"), c.Number("rn_mj_m2_day"), Pressure(), c.Number("alpha")));
                break;
            case "makkink":
                c.Compare("evaporation_mm_day", OpenWaterEvaporation.MakkinkMmPerDay(c.Number("tmean_c"), c.Number("rs_mj_m2_day"), Pressure()));
                break;
            case "turc":
                c.Compare("evaporation_mm_day", OpenWaterEvaporation.TurcMmPerDay(
                    c.Number("tmean_c"), c.Number("rhmean_pct") / 100, c.Number("rs_mj_m2_day")));
                break;
            case "hargreaves_samani_variable_c":
                c.Compare("evaporation_mm_day", OpenWaterEvaporation.HargreavesSamaniMmPerDay(
                    c.Number("tmax_c"), c.Number("tmin_c"), c.Number("ra_mj_m2_day")));
                break;
            case "tank_evaporation_ashrae":
                c.Compare("evaporation_kg_h", OpenWaterEvaporation.SmallTankKgPerH(
                    c.Number("area_m2"), c.Number("water_c"), c.Number("temperature_c"), c.Number("rh_pct") / 100, c.Number("wind_m_s"),
                    c.Number("latent_heat_kj_kg")));
                break;
            case "greenhouse_eto_almeria_radiation":
                c.Compare("eto_mm_day", GreenhouseEvapotranspiration.PlasticMmPerDay(
                    (int)c.Number("day_of_year"), c.Number("outside_radiation_mm_day"), c.Number("cover_transmissivity")));
                break;
            case "shade_net_effect":
                c.Compare("irrigation_reduction_pct", 100 * ShadeNet.IrrigationSavedShare(c.Number("shade_pct") / 100));
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    private static void ComparePenman(PublishedCase c, double windA, double windB)
    {
        double max = c.Number("tmax_c"), min = c.Number("tmin_c");
        double actual = VapourPressure.FromHumidityExtremesKPa(max, min, c.Number("rhmax_pct") / 100, c.Number("rhmin_pct") / 100);
        var day = OpenWaterEvaporation.PenmanDaily(
            c.Number("latitude_deg"), c.Number("elevation_m"), (int)c.Number("day_of_year"), max, min, actual, c.Number("wind_2m_m_s"),
            c.Number("rs_mj_m2_day"), c.Number("albedo"), windA, windB);
        c.Compare("rn_mj_m2_day", day.NetRadiationMJPerM2);
        c.Compare("evaporation_mm_day", day.EvaporationMm);
    }
}
