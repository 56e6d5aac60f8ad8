namespace Runnel.Science.Air;

/// <summary>Wind speed at the height the evaporation relations want.</summary>
public static class Wind
{
    /// <summary>Wind speed at 2 m from one measured at another height over short grass, m/s.</summary>
    /// <param name="windMPerS">Wind speed at <paramref name="heightM"/>, m/s, 0 to 100.</param>
    /// <param name="heightM">Height of the instrument above the ground, m, 0.5 to 100.</param>
    /// <returns>Wind speed at 2 m, m/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 (1998) equation 47, logarithmic profile. Not valid between buildings or inside a canopy.</remarks>
    public static double At2MMPerS(double windMPerS, double heightM)
    {
        Require.InRange(windMPerS, 0, 100);
        Require.InRange(heightM, 0.5, 100);
        // The printed constants give 0.9998 at 2 m, where nothing is to be converted.
        return heightM == 2 ? windMPerS : windMPerS * 4.87 / Math.Log((67.8 * heightM) - 5.42);
    }

    /// <summary>Mean wind speed of a day from its wind run, m/s.</summary>
    /// <param name="windRunKmPerDay">Wind run, km a day, 0 to 8000.</param>
    /// <returns>Wind speed, m/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The run is NaN or out of range.</exception>
    /// <remarks>Definition.</remarks>
    public static double FromRunMPerS(double windRunKmPerDay)
    {
        Require.InRange(windRunKmPerDay, 0, 8000);
        return windRunKmPerDay / 86.4;
    }
}
