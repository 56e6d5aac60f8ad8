namespace Runnel.Science.Sun;

/// <summary>Sun and radiation at the top of the atmosphere by day of the year, after FAO-56.</summary>
/// <remarks>Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3. Declination is good to about
/// 0.3°, enough for evapotranspiration and not for pointing a panel.</remarks>
public static class SolarDay
{
    /// <summary>Solar constant as FAO-56 has it, MJ/m² and minute (1367 W/m²).</summary>
    public const double SolarConstantMJPerM2Min = 0.0820;

    /// <summary>Inverse relative distance from the earth to the sun.</summary>
    /// <param name="dayOfYear">1 on the first of January, to 366.</param>
    /// <returns>About 0.967 to 1.033.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The day is out of range.</exception>
    /// <remarks>FAO-56 equation 23.</remarks>
    public static double InverseDistance(int dayOfYear)
    {
        Require.InRange(dayOfYear, 1, 366);
        return 1 + (0.033 * Math.Cos(2 * Math.PI / 365 * dayOfYear));
    }

    /// <summary>Solar declination, rad; north is positive.</summary>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <returns>Declination, rad.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The day is out of range.</exception>
    /// <remarks>FAO-56 equation 24.</remarks>
    public static double DeclinationRad(int dayOfYear)
    {
        Require.InRange(dayOfYear, 1, 366);
        return 0.409 * Math.Sin((2 * Math.PI / 365 * dayOfYear) - 1.39);
    }

    /// <summary>Hour angle of sunset, rad: 0 in polar night, pi in midnight sun.</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative, -90 to 90.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <returns>Hour angle, rad, 0 to pi.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 25, its cosine limited to -1 and 1 beyond the polar circles.</remarks>
    public static double SunsetHourAngleRad(double latitudeDeg, int dayOfYear)
    {
        Require.InRange(latitudeDeg, -90, 90);
        double cosine = -Math.Tan(latitudeDeg * (Math.PI / 180)) * Math.Tan(DeclinationRad(dayOfYear));
        return Math.Acos(Math.Clamp(cosine, -1, 1));
    }

    /// <summary>Longest possible sunshine of a day, h.</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative, -90 to 90.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <returns>Hours, 0 to 24.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 34.</remarks>
    public static double DaylightHours(double latitudeDeg, int dayOfYear) =>
        24 / Math.PI * SunsetHourAngleRad(latitudeDeg, dayOfYear);

    /// <summary>Extraterrestrial radiation of a day on a level surface, MJ/m².</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative, -90 to 90.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <returns>Radiation, MJ/m² and day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 21.</remarks>
    public static double ExtraterrestrialMJPerM2Day(double latitudeDeg, int dayOfYear)
    {
        Require.InRange(latitudeDeg, -90, 90);
        var (sinLatitude, cosLatitude) = Math.SinCos(latitudeDeg * (Math.PI / 180));
        var (sinDeclination, cosDeclination) = Math.SinCos(DeclinationRad(dayOfYear));
        double up = sinLatitude * sinDeclination, across = cosLatitude * cosDeclination, cosine = Math.Clamp(-up / across, -1, 1);
        return 24 * 60 / Math.PI * SolarConstantMJPerM2Min * InverseDistance(dayOfYear) * ((Math.Acos(cosine) * up) + (across * Math.Sqrt(1 - (cosine * cosine))));
    }
}
