using Runnel.Science.Sun;

namespace Runnel.Science.Tests.Sun;

// Source: FAO-56 (1998) printed examples and Annex 2 tables 2.6 and 2.7, and McMahon et al. (2013); named in each row.
public sealed class PublishedRadiationTests
{
    private static readonly PublishedTable Examples = PublishedTable.Open("air-sun-soil/fao56-radiation.csv");
    private static readonly PublishedTable Annex = PublishedTable.Open("air-sun-soil/fao56-ra-table.csv");

    public static IEnumerable<TheoryDataRow<string, string>> ExampleRows => Examples.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> AnnexRows => Annex.Rows;

    [Theory, MemberData(nameof(ExampleRows))]
    public void Radiation_agrees_with_the_printed_examples(string row, string source)
    {
        var c = Examples[row];
        Assert.Equal(source, c.Source);
        switch (c.Relation)
        {
            case "ra_daily_eq21_25_34":
                CompareDay(c);
                break;
            case "rs_from_sunshine_eq35":
                c.Compare("rs_mj_m2_day", SurfaceRadiation.FromSunshineMJPerM2Day(
                    c.Number("sunshine_h"), c.Number("daylight_h"), c.Number("ra_mj_m2_day"), c.Number("angstrom_a"), c.Number("angstrom_b")));
                break;
            case "rso_eq37":
                c.Compare("rso_mj_m2_day", SurfaceRadiation.ClearSkyMJPerM2(c.Number("elevation_m"), c.Number("ra_mj_m2_day")));
                break;
            case "rs_from_temperature_range_eq50":
                c.Compare("rs_mj_m2_day", SurfaceRadiation.FromTemperatureRangeMJPerM2Day(
                    c.Number("tmax_c"), c.Number("tmin_c"), c.Number("ra_mj_m2_day"), c.Number("krs")));
                break;
            case "rns_eq38":
                c.Compare("rns_mj_m2_day", SurfaceRadiation.NetShortwaveMJPerM2(c.Number("rs_mj_m2_day"), c.Number("albedo")));
                break;
            case "rnl_daily_eq39":
                double relative = SurfaceRadiation.RelativeSolar(c.Number("rs_mj_m2_day"), c.Number("rso_mj_m2_day"));
                c.Compare("rnl_mj_m2_day", SurfaceRadiation.NetLongwaveMJPerM2Day(c.Number("tmax_c"), c.Number("tmin_c"), c.Number("ea_kpa"), relative));
                break;
            case "rn_eq40":
                c.Compare("rn_mj_m2_day", c.Number("rns_mj_m2_day") - c.Number("rnl_mj_m2_day"));
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(AnnexRows))]
    public void Radiation_and_daylight_agree_with_the_annex(string row, string source)
    {
        var c = Annex[row];
        Assert.Equal(source, c.Source);
        CompareDay(c);
        c.AssertAllCompared();
    }

    private static void CompareDay(PublishedCase c)
    {
        double latitude = c.Number("latitude_deg");
        int day = (int)c.Number("day_of_year");
        c.Compare("dr", SolarDay.InverseDistance(day));
        c.Compare("declination_rad", SolarDay.DeclinationRad(day));
        c.Compare("sunset_angle_rad", SolarDay.SunsetHourAngleRad(latitude, day));
        c.Compare("ra_mj_m2_day", SolarDay.ExtraterrestrialMJPerM2Day(latitude, day));
        c.Compare("daylight_h", SolarDay.DaylightHours(latitude, day));
    }
}
