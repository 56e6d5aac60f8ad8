namespace Runnel.Science.Air;

/// <summary>Saturation pressure of water vapour over liquid water and over ice, and its inverse.</summary>
/// <remarks>ASHRAE Handbook Fundamentals (2017), chapter 1, equations 5 and 6 (Hyland and Wexler 1983). Over ice below the triple point.</remarks>
public static class SaturationPressure
{
    private const double TriplePointC = 0.01;

    /// <summary>Saturation pressure, Pa.</summary>
    /// <param name="tempC">Temperature, °C, -100 to 200; over ice below 0.01.</param>
    /// <returns>Pressure, Pa, within 0.03 % of the handbook's table 3.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is NaN or out of range.</exception>
    public static double OfTemperaturePa(double tempC)
    {
        Require.InRange(tempC, -100, 200);
        return Math.Exp(LogPa(tempC));
    }

    /// <summary>Temperature at which a vapour pressure saturates (dew point, or frost point over ice), °C.</summary>
    /// <param name="vapourPressurePa">Vapour pressure, Pa, 0.002 to 1.5 million.</param>
    /// <returns>Temperature, °C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is NaN or out of range.</exception>
    /// <remarks>Newton steps on the logarithm of the pressure.</remarks>
    public static double TemperatureC(double vapourPressurePa)
    {
        Require.InRange(vapourPressurePa, 0.002, 1.5e6);
        double wanted = Math.Log(vapourPressurePa), ratio = Math.Log(vapourPressurePa / 611.2);
        // Start from the Magnus form; the logarithm is nearly linear from there.
        double t = vapourPressurePa < 611.65 ? 272.62 * ratio / (22.46 - ratio) : 243.12 * ratio / (17.62 - ratio);
        for (int i = 0; i < 20; i++)
        {
            t = Math.Clamp(t, -100, 200);
            double step = (LogPa(t) - wanted) / SlopeOfLog(t);
            t -= step;
            if (Math.Abs(step) < 1e-9) break;
        }

        return t;
    }

    private static double LogPa(double tempC)
    {
        double k = tempC + 273.15;
        return tempC <= TriplePointC
            ? (-5.6745359e3 / k) + 6.3925247 + (k * (-9.677843e-3 + (k * (6.2215701e-7 + (k * (2.0747825e-9 - (9.484024e-13 * k)))))))
                + (4.1635019 * Math.Log(k))
            : (-5.8002206e3 / k) + 1.3914993 + (k * (-4.8640239e-2 + (k * (4.1764768e-5 - (1.4452093e-8 * k))))) + (6.5459673 * Math.Log(k));
    }

    private static double SlopeOfLog(double tempC)
    {
        double k = tempC + 273.15;
        return tempC <= TriplePointC
            ? (5.6745359e3 / (k * k)) - 9.677843e-3 + (k * ((2 * 6.2215701e-7) + (k * ((3 * 2.0747825e-9) - (4 * 9.484024e-13 * k))))) + (4.1635019 / k)
            : (5.8002206e3 / (k * k)) - 4.8640239e-2 + (k * ((2 * 4.1764768e-5) - (3 * 1.4452093e-8 * k))) + (6.5459673 / k);
    }
}
