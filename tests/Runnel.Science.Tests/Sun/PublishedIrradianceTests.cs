using Runnel.Science.Sun;

namespace Runnel.Science.Tests.Sun;

// Source: Duffie and Beckman, Solar Engineering of Thermal Processes, examples of chapters 1 and 2; pvlib-python; named in each row.
public sealed class PublishedIrradianceTests
{
    private const double DegPerRad = 180 / Math.PI;

    private static readonly PublishedTable Geometry = PublishedTable.Open("air-sun-soil/solar-geometry.csv");
    private static readonly PublishedTable Irradiance = PublishedTable.Open("air-sun-soil/irradiance.csv");

    public static IEnumerable<TheoryDataRow<string, string>> GeometryRows => Geometry.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> IrradianceRows => Irradiance.Rows;

    [Theory, MemberData(nameof(GeometryRows))]
    public void Angles_agree_with_the_book(string row, string source)
    {
        var c = Geometry[row];
        Assert.Equal(source, c.Source);
        int day = (int)c.Number("day_of_year");
        double declination = SolarGeometry.DeclinationDeg(day), latitude = c.Number("latitude_deg", 0), hour = c.Number("hour_angle_deg", 0);
        c.Compare("declination_deg", declination);
        c.Compare("sunset_angle_deg", SolarGeometry.SunsetAngleDeg(latitude, declination));
        double zenith = DegPerRad * Math.Acos(SolarGeometry.CosZenith(latitude, declination, hour));
        c.Compare("zenith_deg", zenith);
        c.Compare("altitude_deg", 90 - zenith);
        c.Compare("solar_azimuth_deg", SolarGeometry.AzimuthDeg(latitude, declination, hour));
        if (c.Has("slope_deg"))
        {
            double incidence = SolarGeometry.CosIncidence(latitude, declination, hour, c.Number("slope_deg"), c.Number("surface_azimuth_deg"));
            c.Compare("incidence_deg", DegPerRad * Math.Acos(incidence));
            c.Compare("rb", TiltedPlane.BeamRatio(incidence, SolarGeometry.CosZenith(latitude, declination, hour)));
        }

        if (c.Relation == "solar_time")
        {
            c.Compare("equation_of_time_min", SolarGeometry.EquationOfTimeMin(day));
            c.Compare("solar_time_h", SolarGeometry.SolarTimeH(c.Number("clock_h"), c.Number("longitude_deg_west"), c.Number("zone_meridian_deg_west"), day));
        }

        if (c.Expects("h0_mj_m2_day"))
        {
            double sunset = SolarGeometry.SunsetAngleDeg(latitude, declination);
            c.Compare("h0_mj_m2_day", SolarGeometry.ExtraterrestrialMJPerM2(latitude, day, -sunset, sunset, c.Number("solar_constant_w_m2")));
        }

        if (c.Expects("i0_mj_m2_h"))
            c.Compare("i0_mj_m2_h", SolarGeometry.ExtraterrestrialMJPerM2(latitude, day, hour, c.Number("hour_angle_end_deg"), c.Number("solar_constant_w_m2")));
        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(IrradianceRows))]
    public void Radiation_agrees_with_the_book_and_the_reference_library(string row, string source)
    {
        var c = Irradiance[row];
        Assert.Equal(source, c.Source);
        switch (c.Relation)
        {
            case "tilt_isotropic_hour" or "tilt_hdkr_hour": CompareHour(c); break;
            case "clear_sky_hottel_beam": CompareHottel(c); break;
            case "erbs_split": CompareErbs(c); break;
            case "tilt_models_instant": CompareTilt(c); break;
            case "clear_sky_instant": CompareClear(c); break;
            default: throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    private static void CompareHour(PublishedCase c)
    {
        double latitude = c.Number("latitude_deg"), hour = c.Number("hour_angle_deg"), slope = c.Number("slope_deg"), global = c.Number("ghi_mj_m2_h");
        int day = (int)c.Number("day_of_year");
        double declination = SolarGeometry.DeclinationDeg(day);
        double ratio = TiltedPlane.BeamRatio(
            SolarGeometry.CosIncidence(latitude, declination, hour, slope, c.Number("surface_azimuth_deg")), SolarGeometry.CosZenith(latitude, declination, hour));
        double outside = c.Number("i0_input_mj_m2_h", SolarGeometry.ExtraterrestrialMJPerM2(latitude, day, hour - 7.5, hour + 7.5));
        double diffuse = c.Number("diffuse_input_mj_m2_h", global * DiffuseSplit.ErbsDiffuseShare(global / outside));
        double beam = c.Number("beam_input_mj_m2_h", global - diffuse), anisotropy = beam / outside;
        double sky = c.Relation == "tilt_hdkr_hour" ? TiltedPlane.HdkrSky(diffuse, slope, ratio, anisotropy, beam / global) : TiltedPlane.IsotropicSky(diffuse, slope);
        c.Compare("i0_mj_m2_h", outside);
        c.Compare("kt", global / outside);
        c.Compare("diffuse_mj_m2_h", diffuse);
        c.Compare("beam_mj_m2_h", beam);
        c.Compare("rb", ratio);
        c.Compare("anisotropy_index", anisotropy);
        c.Compare("tilted_mj_m2_h", (beam * ratio) + sky + TiltedPlane.Ground(global, slope, c.Number("albedo")));
    }

    private static void CompareHottel(PublishedCase c)
    {
        double cosine = c.Number("cos_zenith");
        double transmittance = ClearSky.HottelBeamTransmittance(c.Number("elevation_m"), cosine, c.Number("r0"), c.Number("r1"), c.Number("rk"));
        c.Compare("beam_transmittance", transmittance);
        double outside = 1367 * (1 + (0.033 * Math.Cos(2 * Math.PI * c.Number("day_of_year") / 365)));
        c.Compare("beam_horizontal_w_m2", outside * transmittance * cosine);
    }

    private static void CompareErbs(PublishedCase c)
    {
        double cosine = Math.Cos(c.Number("zenith_deg") / DegPerRad), global = c.Number("ghi_w_m2");
        double clearness = global / (DiffuseSplit.ExtraterrestrialNormalWPerM2((int)c.Number("day_of_year")) * cosine);
        double diffuse = global * DiffuseSplit.ErbsDiffuseShare(clearness);
        c.Compare("kt", clearness);
        c.Compare("dhi_w_m2", diffuse);
        c.Compare("dni_w_m2", (global - diffuse) / cosine);
    }

    private static void CompareTilt(PublishedCase c)
    {
        double zenith = c.Number("zenith_deg"), slope = c.Number("slope_deg"), normal = c.Number("dni_w_m2"), diffuse = c.Number("dhi_w_m2"), global = c.Number("ghi_w_m2");
        double outside = DiffuseSplit.ExtraterrestrialNormalWPerM2((int)c.Number("day_of_year"));
        var sun = new SolarPosition(90 - zenith, 90 - zenith, c.Number("sun_azimuth_from_north_deg"), 0);
        double incidence = sun.IncidenceDeg(slope, c.Number("surface_azimuth_from_north_deg"));
        double cosZenith = Math.Cos(zenith / DegPerRad), cosIncidence = Math.Cos(incidence / DegPerRad);
        double beam = normal * Math.Max(0, cosIncidence), ground = TiltedPlane.Ground(global, slope, c.Number("albedo"));
        double ratio = TiltedPlane.BeamRatio(cosIncidence, cosZenith), anisotropy = normal / outside;
        c.Compare("dni_extra_w_m2", outside);
        c.Compare("incidence_deg", incidence);
        c.Compare("poa_beam_w_m2", beam);
        c.Compare("poa_ground_w_m2", ground);
        c.Compare("poa_isotropic_w_m2", beam + ground + TiltedPlane.IsotropicSky(diffuse, slope));
        c.Compare("poa_hay_davies_w_m2", beam + ground + TiltedPlane.HayDaviesSky(diffuse, slope, ratio, anisotropy));
        c.Compare("poa_hdkr_w_m2", beam + ground + TiltedPlane.HdkrSky(diffuse, slope, ratio, anisotropy, Math.Min(1, normal * cosZenith / global)));
    }

    private static void CompareClear(PublishedCase c)
    {
        double zenith = c.Number("zenith_deg"), altitude = c.Number("elevation_m");
        var sky = ClearSky.Ineichen(zenith, altitude, c.Number("linke_turbidity"), DiffuseSplit.ExtraterrestrialNormalWPerM2((int)c.Number("day_of_year")));
        c.Compare("air_mass_relative", ClearSky.AirMass(zenith));
        c.Compare("pressure_pa", ClearSky.PressurePa(altitude));
        c.Compare("haurwitz_ghi_w_m2", ClearSky.HaurwitzWPerM2(zenith));
        c.Compare("ineichen_ghi_w_m2", sky.GlobalWPerM2);
        c.Compare("ineichen_dni_w_m2", sky.BeamNormalWPerM2);
        c.Compare("ineichen_dhi_w_m2", sky.DiffuseWPerM2);
    }
}
