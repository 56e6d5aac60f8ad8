namespace Runnel.Science.Air;

/// <summary>The standard atmosphere: pressure and temperature by altitude.</summary>
/// <remarks>ASHRAE Handbook Fundamentals (2017), chapter 1, equations 3 and 4 (table 1).</remarks>
public static class StandardAtmosphere
{
    /// <summary>Pressure, Pa.</summary>
    /// <param name="altitudeM">Altitude, m, -5000 to 11,000.</param>
    /// <returns>Pressure, Pa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is NaN or out of range.</exception>
    public static double PressurePa(double altitudeM)
    {
        Require.InRange(altitudeM, -5000, 11_000);
        return 101_325 * Math.Pow(1 - (2.25577e-5 * altitudeM), 5.2559);
    }

    /// <summary>Temperature, °C.</summary>
    /// <param name="altitudeM">Altitude, m, -5000 to 11,000.</param>
    /// <returns>Temperature, °C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is NaN or out of range.</exception>
    public static double TempC(double altitudeM)
    {
        Require.InRange(altitudeM, -5000, 11_000);
        return 15 - (0.0065 * altitudeM);
    }
}
