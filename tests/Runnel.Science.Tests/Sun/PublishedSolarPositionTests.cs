using System.Globalization;
using CsCheck;
using Runnel.Science.Sun;

namespace Runnel.Science.Tests.Sun;

// Source: Reda and Andreas (2004) table A5.1; positions by nrel-spa 2.0.2 and pvlib-python, times by ERFA 2.0.0; named in each row.
public sealed class PublishedSolarPositionTests
{
    private static readonly PublishedTable Positions = PublishedTable.Open("air-sun-soil/solar-position.csv");
    private static readonly PublishedTable Times = PublishedTable.Open("air-sun-soil/sun-times.csv");

    private static readonly PublishedTable Library = PublishedTable.Open("air-sun-soil/solar-position-erfa.csv");

    public static IEnumerable<TheoryDataRow<string, string>> LibraryRows => Library.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> PositionRows => Positions.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> TimeRows => Times.Rows;

    [Theory, MemberData(nameof(PositionRows))]
    public void Positions_agree_with_the_report_and_the_reference_libraries(string row, string source)
    {
        var c = Positions[row];
        Assert.Equal(source, c.Source);
        double julian = JulianOf(c);
        var sun = PositionOf(c, julian, SunPrecision.Full);
        c.Compare("julian_day", julian);
        c.Compare("zenith_deg", sun.ZenithDeg);
        c.Compare("zenith_unrefracted_deg", 90 - sun.TrueElevationDeg);
        c.Compare("azimuth_from_north_deg", sun.AzimuthDeg);
        c.Compare("equation_of_time_min", sun.EquationOfTimeMin);
        // The report counts surface azimuth from south.
        if (c.Expects("incidence_deg"))
            c.Compare("incidence_deg", sun.IncidenceDeg(c.Number("surface_slope_deg"), c.Number("surface_azimuth_rotation_deg") + 180));
        c.AssertAllCompared();

        var quick = PositionOf(c, julian, SunPrecision.Quick);
        Assert.Equal(sun.TrueElevationDeg, quick.TrueElevationDeg, 0.002);
        Assert.Equal(0, Math.Sin((sun.AzimuthDeg - quick.AzimuthDeg) * Math.PI / 180) * Math.Cos(sun.TrueElevationDeg * Math.PI / 180) * 57.3, 0.002);
    }

    [Theory, MemberData(nameof(TimeRows))]
    public void Rise_noon_and_set_agree(string row, string source)
    {
        var c = Times[row];
        Assert.Equal(source, c.Source);
        var date = DateOnly.Parse(c.Text("local_date"), CultureInfo.InvariantCulture);
        var times = SunTimes.Of(date.Year, date.Month, date.Day, c.Number("latitude_deg"), c.Number("longitude_deg_east"), c.Number("utc_offset_h"));
        c.Compare("solar_noon_local_h", times.NoonH);
        if (c.Expects("polar"))
        {
            Assert.Equal(c.ExpectedText("polar"), times.Polar == PolarState.Night ? "night" : times.Polar == PolarState.MidnightSun ? "day" : "none");
            Assert.Null(times.SunriseH);
            Assert.Null(times.SunsetH);
        }
        else
        {
            c.Compare("sunrise_local_h", times.SunriseH!.Value);
            c.Compare("sunset_local_h", times.SunsetH!.Value);
            c.Compare("day_length_h", times.DayLengthH!.Value);
        }

        c.AssertAllCompared();
    }

    // Another theory of the earth's orbit, another nutation, another library: what both have is what the sky has.
    [Theory, MemberData(nameof(LibraryRows))]
    public void Positions_over_a_century_and_the_whole_earth_agree_with_the_library_of_the_astronomers(string row, string source)
    {
        var c = Library[row];
        Assert.Equal(source, c.Source);
        var sun = SolarPosition.At(c.Number("julian_day"), c.Number("latitude_deg"), c.Number("longitude_deg_east"), c.Number("elevation_m"), deltaTS: c.Number("delta_t_s"));
        c.Compare("zenith_unrefracted_deg", 90 - sun.TrueElevationDeg);
        c.Compare("azimuth_from_north_deg", sun.AzimuthDeg);
        c.AssertAllCompared();
    }

    [Fact]
    public void Quick_sum_stays_close_over_two_centuries() => Gen.Double[2_415_021, 2_488_000].Sample(julian =>
    {
        var full = SunCoordinates.At(julian);
        var quick = SunCoordinates.At(julian, precision: SunPrecision.Quick);
        Assert.Equal(full.DeclinationDeg, quick.DeclinationDeg, 0.0015);
        Assert.Equal(0, 57.3 * Math.Sin((full.RightAscensionDeg - quick.RightAscensionDeg) * Math.PI / 180), 0.002);
    });

    [Fact]
    public void Julian_days_agree_with_unix_time()
    {
        Assert.Equal(JulianDay.FromUnix(0), JulianDay.Of(1970, 1, 1, 0));
        Assert.Equal(JulianDay.FromUnix(951_782_400), JulianDay.Of(2000, 2, 29, 0));
        Assert.Equal(JulianDay.FromUnix(1_767_225_600), JulianDay.Of(2026, 1, 1, 0));
    }

    [Fact]
    public void At_a_pole_the_sun_stands_as_high_as_its_declination()
    {
        double julian = JulianDay.Of(2025, 6, 21, 5);
        Assert.Equal(SunCoordinates.At(julian).DeclinationDeg, SolarPosition.At(julian, 90, 0).TrueElevationDeg, 0.003);
        Assert.Equal(PolarState.MidnightSun, SunTimes.Of(2025, 6, 21, 89, 0, 0).Polar);
    }

    private static double JulianOf(PublishedCase c)
    {
        var date = DateOnly.Parse(c.Text("local_date"), CultureInfo.InvariantCulture);
        var time = TimeOnly.Parse(c.Text("local_time"), CultureInfo.InvariantCulture);
        return JulianDay.Of(date.Year, date.Month, date.Day, time.ToTimeSpan().TotalHours - c.Number("utc_offset_h"));
    }

    private static SolarPosition PositionOf(PublishedCase c, double julian, SunPrecision precision) => SolarPosition.At(
        julian, c.Number("latitude_deg"), c.Number("longitude_deg_east"), c.Number("elevation_m"), c.Number("pressure_mbar") / 10,
        c.Number("temperature_c"), c.Number("delta_t_s"), precision);
}
