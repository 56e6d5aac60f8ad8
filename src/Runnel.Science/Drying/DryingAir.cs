using Runnel.Science.Air;

namespace Runnel.Science.Drying;

/// <summary>Air and heat that carry off one kg of water.</summary>
/// <param name="RatioIn">Humidity ratio of the air taken in, kg/kg.</param>
/// <param name="HeatedRelHumidity">Relative humidity once heated, 0 to 1.</param>
/// <param name="ExhaustC">Temperature at the exit, °C.</param>
/// <param name="RatioOut">Humidity ratio at the exit, kg/kg.</param>
/// <param name="DryAirKgPerKg">Dry air, kg for each kg of water.</param>
/// <param name="HeatKJPerKg">Heat, kJ for each kg of water.</param>
/// <param name="AmbientAirM3PerKg">Air taken in, m³ for each kg of water.</param>
public readonly record struct DryingAirNeed(
    double RatioIn, double HeatedRelHumidity, double ExhaustC, double RatioOut, double DryAirKgPerKg, double HeatKJPerKg, double AmbientAirM3PerKg);

/// <summary>Air of a dryer: heated at its own humidity ratio, then cooled by the water it takes up at constant enthalpy.</summary>
/// <remarks>ASHRAE Handbook Fundamentals (2017), chapter 1, relations. Without losses of the dryer: real ones need half as much again and more.</remarks>
public static class DryingAir
{
    /// <summary>Air and heat for one kg of water.</summary>
    /// <param name="ambientC">Ambient air, °C.</param>
    /// <param name="ambientRelHumidity">Its relative humidity, 0 to 1.</param>
    /// <param name="dryingC">Heated to, °C, from ambient to 120.</param>
    /// <param name="exhaustRelHumidity">Relative humidity at the exit, above that of the heated air, to 1.</param>
    /// <param name="pressurePa">Air pressure, Pa.</param>
    /// <returns>Need.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range; also where the air would take up nothing.</exception>
    public static DryingAirNeed PerKgWater(
        double ambientC, double ambientRelHumidity, double dryingC, double exhaustRelHumidity, double pressurePa = 101_325)
    {
        Require.InRange(dryingC, ambientC, 120);
        Require.InRange(exhaustRelHumidity, 0.01, 1);
        var ambient = MoistAir.FromHumidity(ambientC, ambientRelHumidity, pressurePa);
        var heated = MoistAir.FromRatio(dryingC, ambient.HumidityRatio, pressurePa);
        if (heated.RelHumidity >= exhaustRelHumidity)
            throw new ArgumentOutOfRangeException(nameof(exhaustRelHumidity), exhaustRelHumidity, "exhaustRelHumidity must be above that of the heated air");
        double low = heated.WetBulbC - 1, high = dryingC;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (MoistAir.FromHumidity(middle, exhaustRelHumidity, pressurePa).EnthalpyKJPerKg > heated.EnthalpyKJPerKg) high = middle;
            else low = middle;
        }

        var exhaust = MoistAir.FromHumidity((low + high) / 2, exhaustRelHumidity, pressurePa);
        double air = 1 / (exhaust.HumidityRatio - heated.HumidityRatio);
        return new DryingAirNeed(
            ambient.HumidityRatio, heated.RelHumidity, exhaust.DryBulbC, exhaust.HumidityRatio, air,
            air * (heated.EnthalpyKJPerKg - ambient.EnthalpyKJPerKg), air * ambient.VolumeM3PerKg);
    }
}
