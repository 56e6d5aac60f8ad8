using CsCheck;
using Runnel.Science.Air;

namespace Runnel.Science.Tests.Air;

// Source: ASHRAE Handbook Fundamentals 2017 chapter 1, tables 1 to 3 and Example 1; states computed by psychrolib 2.5.0; named in each row.
public sealed class PublishedPsychrometricTests
{
    private static readonly PublishedTable States = PublishedTable.Open("air-sun-soil/psychrometrics.csv");
    private static readonly PublishedTable Handbook = PublishedTable.Open("air-sun-soil/psychrometrics-ashrae.csv");

    public static IEnumerable<TheoryDataRow<string, string>> StateRows => States.Rows;

    public static IEnumerable<TheoryDataRow<string, string>> HandbookRows => Handbook.Rows;

    [Theory, MemberData(nameof(StateRows))]
    public void States_agree_with_the_reference_library(string row, string source)
    {
        var c = States[row];
        Assert.Equal(source, c.Source);
        CompareState(c);
        c.AssertAllCompared();
    }

    [Theory, MemberData(nameof(HandbookRows))]
    public void Relations_agree_with_the_handbook(string row, string source)
    {
        var c = Handbook[row];
        Assert.Equal(source, c.Source);
        switch (c.Relation)
        {
            case "saturation_pressure_table3":
                c.Compare("saturation_pressure_pa", SaturationPressure.OfTemperaturePa(c.Number("temperature_c")));
                break;
            case "saturation_humidity_ratio_table2":
                c.Compare("humidity_ratio_kg_kg", MoistAir.FromHumidity(c.Number("temperature_c"), 1, c.Number("pressure_pa")).HumidityRatio);
                break;
            case "saturated_enthalpy_table2":
                c.Compare("enthalpy_kj_kg", MoistAir.FromHumidity(c.Number("temperature_c"), 1, c.Number("pressure_pa")).EnthalpyKJPerKg);
                break;
            case "dry_air_volume_table2":
                c.Compare("specific_volume_m3_kg", MoistAir.FromHumidity(c.Number("temperature_c"), 0, c.Number("pressure_pa")).VolumeM3PerKg);
                break;
            case "standard_atmosphere_table1":
                c.Compare("pressure_pa", StandardAtmosphere.PressurePa(c.Number("elevation_m")));
                c.Compare("temperature_c", StandardAtmosphere.TempC(c.Number("elevation_m")));
                break;
            case "moist_air_enthalpy":
                c.Compare("enthalpy_kj_kg", MoistAir.EnthalpyOf(c.Number("dry_bulb_c"), c.Number("humidity_ratio_kg_kg")));
                break;
            case "dry_air_enthalpy_table2":
                c.Compare("enthalpy_kj_kg", MoistAir.EnthalpyOf(c.Number("temperature_c"), 0));
                break;
            case "state_from_dry_and_wet_bulb" or "wet_bulb_from_rh":
                CompareState(c);
                break;
            default:
                throw c.Unknown();
        }

        c.AssertAllCompared();
    }

    [Fact]
    public void Wet_bulb_dew_point_and_humidity_lead_back_to_the_same_air() =>
        Gen.Select(Gen.Double[-30, 80], Gen.Double[0.02, 1], Gen.Double[70_000, 110_000]).Sample((dry, humidity, pressure) =>
        {
            var air = MoistAir.FromHumidity(dry, humidity, pressure);
            Assert.Equal(humidity, air.RelHumidity, 1e-9);
            Assert.Equal(1, MoistAir.FromDewPoint(dry, Math.Min(dry, air.DewPointC), pressure).HumidityRatio / air.HumidityRatio, 1e-6);
            Assert.True(air.DewPointC <= air.WetBulbC + 1e-3 && air.WetBulbC <= dry + 1e-9);
            // At 0 °C wet bulb the equations for ice and water do not meet.
            if (Math.Abs(air.WetBulbC) > 1e-3) Assert.Equal(air.HumidityRatio, MoistAir.FromWetBulb(dry, air.WetBulbC, pressure).HumidityRatio, 1e-7);
        });

    [Fact]
    public void Air_that_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("wetBulbC", () => MoistAir.FromWetBulb(60, 5, 101_325));
        Assert.Throws<ArgumentOutOfRangeException>("pressurePa", () => MoistAir.FromHumidity(110, 1, 101_325));
        Assert.Throws<ArgumentOutOfRangeException>("relHumidity", () => MoistAir.FromHumidity(20, 1.1, 101_325));
        Assert.Throws<ArgumentOutOfRangeException>("dewPointC", () => MoistAir.FromDewPoint(20, 21, 101_325));
    }

    private static void CompareState(PublishedCase c)
    {
        double dry = c.Number("dry_bulb_c"), pressure = c.Number("pressure_pa");
        var air = c.Has("rh_pct") ? MoistAir.FromHumidity(dry, c.Number("rh_pct") / 100, pressure)
            : c.Has("wet_bulb_c") ? MoistAir.FromWetBulb(dry, c.Number("wet_bulb_c"), pressure)
            : MoistAir.FromDewPoint(dry, c.Number("dew_point_c"), pressure);
        c.Compare("vapour_pressure_pa", air.VapourPressurePa);
        c.Compare("humidity_ratio_kg_kg", air.HumidityRatio);
        c.Compare("wet_bulb_c", air.WetBulbC);
        c.Compare("dew_point_c", air.DewPointC);
        c.Compare("enthalpy_kj_kg", air.EnthalpyKJPerKg);
        c.Compare("specific_volume_m3_kg", air.VolumeM3PerKg);
        c.Compare("density_kg_m3", air.DensityKgPerM3);
        c.Compare("vpd_pa", air.DeficitPa);
        c.Compare("rh_pct", 100 * air.RelHumidity);
    }
}
