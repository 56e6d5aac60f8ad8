using CsCheck;
using Runnel.Science.Air;

namespace Runnel.Science.Tests.Air;

public sealed class AnyTwoStatesTests
{
    [Fact]
    public void Air_is_the_same_from_any_two_of_its_temperatures_and_humidity_over_ice_too() =>
        Gen.Select(Gen.Double[-35, 60], Gen.Double[0.05, 0.99], Gen.Double[60_000, 105_000]).Sample((dry, humidity, pressure) =>
        {
            var air = MoistAir.FromHumidity(dry, humidity, pressure);
            double wet = air.WetBulbC, dew = air.DewPointC;
            // The wet-bulb equations over water and over ice do not meet at 0 degC: there two states share a wet bulb.
            if (Math.Abs(wet) < 0.4) return;
            Same(air, MoistAir.FromDewPoint(dry, dew, pressure), 1e-6);
            Same(air, MoistAir.FromWetBulb(dry, wet, pressure), 1e-3);
            Same(air, MoistAir.FromDewPointAndHumidity(dew, humidity, pressure), 1e-6);
            Same(air, MoistAir.FromWetBulbAndHumidity(wet, humidity, pressure), 1e-3);
            Same(air, MoistAir.FromWetBulbAndDewPoint(wet, Math.Min(dew, wet), pressure), 1e-3);
        });

    [Fact, Trait("source", "ASHRAE Handbook Fundamentals 2017, chapter 1, example 1: 40 degC dry, 20 degC wet bulb, 101.325 kPa: dew point 7 degC, humidity 14 %")]
    public void The_handbook_state_is_found_from_its_wet_bulb_and_dew_point()
    {
        var air = MoistAir.FromWetBulbAndDewPoint(20, 7.2, 101_325);
        Assert.Equal(40, air.DryBulbC, 0.5);
        Assert.Equal(0.14, air.RelHumidity, 0.006);
    }

    [Fact]
    public void Saturated_air_has_one_temperature()
    {
        Assert.Equal(12, MoistAir.FromWetBulbAndHumidity(12, 1, 101_325).DryBulbC, 1e-6);
        Assert.Equal(12, MoistAir.FromWetBulbAndDewPoint(12, 12, 101_325).DryBulbC, 1e-6);
        Assert.Equal(12, MoistAir.FromDewPointAndHumidity(12, 1, 101_325).DryBulbC, 1e-6);
    }

    [Fact]
    public void States_that_cannot_be_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("dewPointC", () => MoistAir.FromWetBulbAndDewPoint(10, 11, 101_325));
        Assert.Throws<ArgumentOutOfRangeException>("dewPointC", () => MoistAir.FromWetBulbAndDewPoint(90, -90, 101_325));
        Assert.Throws<ArgumentOutOfRangeException>("relHumidity", () => MoistAir.FromWetBulbAndHumidity(10, 1.1, 101_325));
        Assert.Throws<ArgumentOutOfRangeException>("relHumidity", () => MoistAir.FromDewPointAndHumidity(10, 0, 101_325));
        Assert.Throws<ArgumentOutOfRangeException>("wetBulbC", () => MoistAir.FromWetBulbAndHumidity(double.NaN, 0.5, 101_325));
    }

    private static void Same(MoistAir expected, MoistAir actual, double withinC)
    {
        Assert.Equal(expected.DryBulbC, actual.DryBulbC, 5 * withinC);
        Assert.Equal(1, actual.HumidityRatio / expected.HumidityRatio, 2e-3);
    }
}
