namespace Runnel.Science.Sun;

/// <summary>Julian days (UT), the time scale of the sun relations.</summary>
public static class JulianDay
{
    /// <summary>Julian day of a Gregorian date and hour.</summary>
    /// <param name="year">1900 to 2100.</param>
    /// <param name="month">1 to 12.</param>
    /// <param name="day">1 to 31.</param>
    /// <param name="hourUt">Hour of universal time, -24 to 48.</param>
    /// <returns>Julian day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Reda and Andreas (2004), equation 4.</remarks>
    public static double Of(int year, int month, int day, double hourUt)
    {
        Require.InRange(year, 1900, 2100);
        Require.InRange(month, 1, 12);
        Require.InRange(day, 1, 31);
        Require.InRange(hourUt, -24, 48);
        int y = month > 2 ? year : year - 1, m = month > 2 ? month : month + 12;
        return Math.Floor(365.25 * (y + 4716)) + Math.Floor(30.6001 * (m + 1)) + day + 2 - (y / 100) + (y / 400) - 1524.5 + (hourUt / 24);
    }

    /// <summary>Julian day of a Unix time.</summary>
    /// <param name="unixS">Seconds since 1 January 1970 UTC.</param>
    /// <returns>Julian day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The time is NaN or outside 1900 to 2100.</exception>
    /// <remarks>Definition; leap seconds are left out, as in POSIX time.</remarks>
    public static double FromUnix(double unixS)
    {
        Require.InRange(unixS, -2_208_988_800, 4_102_444_800);
        return 2_440_587.5 + (unixS / 86_400);
    }
}
