namespace Runnel.Science.Air;

/// <summary>Vapour pressure of water in air after FAO-56 (kPa). For drying and hot air use the psychrometric relations.</summary>
/// <remarks>Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3. The exponential is that of
/// Tetens; it lies up to 0.5 % off the ASHRAE one at 60 °C.</remarks>
public static class VapourPressure
{
    /// <summary>Saturation vapour pressure over water, kPa.</summary>
    /// <param name="airTempC">Air temperature, °C, -60 to 80.</param>
    /// <returns>Saturation vapour pressure, kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 11.</remarks>
    public static double SaturationKPa(double airTempC)
    {
        Require.InRange(airTempC, -60, 80);
        return 0.6108 * Math.Exp(17.27 * airTempC / (airTempC + 237.3));
    }

    /// <summary>Mean saturation vapour pressure of a day, kPa: the mean of both ends, never that of the mean temperature.</summary>
    /// <param name="maxTempC">Highest air temperature, °C, -60 to 80.</param>
    /// <param name="minTempC">Lowest air temperature, °C, up to <paramref name="maxTempC"/>.</param>
    /// <returns>Mean saturation vapour pressure, kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A temperature is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 12.</remarks>
    public static double MeanSaturationKPa(double maxTempC, double minTempC)
    {
        Require.InRange(minTempC, -60, maxTempC);
        return (SaturationKPa(maxTempC) + SaturationKPa(minTempC)) / 2;
    }

    /// <summary>Slope of the saturation vapour pressure curve, kPa/°C.</summary>
    /// <param name="airTempC">Air temperature, °C, -60 to 80.</param>
    /// <returns>Slope, kPa/°C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 13, with its rounded coefficient 4098.</remarks>
    public static double SlopeKPaPerC(double airTempC)
    {
        double shifted = airTempC + 237.3;
        return 4098 * SaturationKPa(airTempC) / (shifted * shifted);
    }

    /// <summary>Actual vapour pressure of a day from the extremes of relative humidity, kPa.</summary>
    /// <param name="maxTempC">Highest air temperature, °C.</param>
    /// <param name="minTempC">Lowest air temperature, °C.</param>
    /// <param name="maxRelHumidity">Highest relative humidity, 0 to 1 (met with the lowest temperature).</param>
    /// <param name="minRelHumidity">Lowest relative humidity, 0 to 1 (met with the highest temperature).</param>
    /// <returns>Actual vapour pressure, kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 17: the first choice where both extremes are known.</remarks>
    public static double FromHumidityExtremesKPa(double maxTempC, double minTempC, double maxRelHumidity, double minRelHumidity)
    {
        Require.InRange(minTempC, -60, maxTempC);
        Require.InRange(maxRelHumidity, 0, 1);
        Require.InRange(minRelHumidity, 0, maxRelHumidity);
        return ((SaturationKPa(minTempC) * maxRelHumidity) + (SaturationKPa(maxTempC) * minRelHumidity)) / 2;
    }

    /// <summary>Actual vapour pressure from the highest relative humidity only, kPa; for hygrometers that err when it is dry.</summary>
    /// <param name="minTempC">Lowest air temperature, °C.</param>
    /// <param name="maxRelHumidity">Highest relative humidity, 0 to 1.</param>
    /// <returns>Actual vapour pressure, kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 18.</remarks>
    public static double FromMaxHumidityKPa(double minTempC, double maxRelHumidity)
    {
        Require.InRange(maxRelHumidity, 0, 1);
        return SaturationKPa(minTempC) * maxRelHumidity;
    }

    /// <summary>Actual vapour pressure of a day from its mean relative humidity, kPa; the least exact of the humidity forms.</summary>
    /// <param name="maxTempC">Highest air temperature, °C.</param>
    /// <param name="minTempC">Lowest air temperature, °C.</param>
    /// <param name="meanRelHumidity">Mean relative humidity, 0 to 1.</param>
    /// <returns>Actual vapour pressure, kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 19.</remarks>
    public static double FromMeanHumidityKPa(double maxTempC, double minTempC, double meanRelHumidity)
    {
        Require.InRange(meanRelHumidity, 0, 1);
        return meanRelHumidity * MeanSaturationKPa(maxTempC, minTempC);
    }

    /// <summary>Actual vapour pressure from temperature and humidity of one moment, kPa.</summary>
    /// <param name="airTempC">Air temperature, °C, -60 to 80.</param>
    /// <param name="relHumidity">Relative humidity, 0 to 1.</param>
    /// <returns>Actual vapour pressure, kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 54.</remarks>
    public static double FromHumidityKPa(double airTempC, double relHumidity)
    {
        Require.InRange(relHumidity, 0, 1);
        return relHumidity * SaturationKPa(airTempC);
    }

    /// <summary>Actual vapour pressure from the dew point, kPa.</summary>
    /// <param name="dewPointC">Dew point, °C, -60 to 80.</param>
    /// <returns>Actual vapour pressure, kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The dew point is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 14.</remarks>
    public static double FromDewPointKPa(double dewPointC) => SaturationKPa(dewPointC);

    /// <summary>Actual vapour pressure from a wet and dry bulb, kPa.</summary>
    /// <param name="dryBulbC">Dry bulb, °C.</param>
    /// <param name="wetBulbC">Wet bulb, °C, up to <paramref name="dryBulbC"/>.</param>
    /// <param name="pressureKPa">Air pressure, kPa, 40 to 110.</param>
    /// <param name="coefficientPerC">Of the instrument, 1/°C: 0.000662 ventilated (Asmann), 0.0008 natural draught, 0.0012 indoors.</param>
    /// <returns>Actual vapour pressure, kPa; below 0 where the readings cannot be true.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equations 15 and 16.</remarks>
    public static double FromWetBulbKPa(double dryBulbC, double wetBulbC, double pressureKPa, double coefficientPerC = 0.000662)
    {
        Require.InRange(dryBulbC, -60, 80);
        Require.InRange(wetBulbC, -60, dryBulbC);
        Require.InRange(pressureKPa, 40, 110);
        Require.InRange(coefficientPerC, 0.0005, 0.0015);
        return SaturationKPa(wetBulbC) - (coefficientPerC * pressureKPa * (dryBulbC - wetBulbC));
    }

    /// <summary>Vapour pressure deficit of a day, kPa.</summary>
    /// <param name="maxTempC">Highest air temperature, °C.</param>
    /// <param name="minTempC">Lowest air temperature, °C.</param>
    /// <param name="actualKPa">Actual vapour pressure, kPa.</param>
    /// <returns>Deficit, kPa; below 0 where the inputs contradict each other.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56, chapter 3: mean saturation less actual vapour pressure.</remarks>
    public static double DeficitKPa(double maxTempC, double minTempC, double actualKPa)
    {
        Require.InRange(actualKPa, 0, 50);
        return MeanSaturationKPa(maxTempC, minTempC) - actualKPa;
    }

    /// <summary>Lowest relative humidity of a day that follows from both temperatures when the dew point is near the minimum.</summary>
    /// <param name="maxTempC">Highest air temperature, °C.</param>
    /// <param name="minTempC">Lowest air temperature, °C, taken for the dew point.</param>
    /// <returns>Lowest relative humidity, 0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A temperature is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 64.</remarks>
    public static double MinHumidityFromTemperatures(double maxTempC, double minTempC)
    {
        Require.InRange(minTempC, -60, maxTempC);
        return SaturationKPa(minTempC) / SaturationKPa(maxTempC);
    }
}
