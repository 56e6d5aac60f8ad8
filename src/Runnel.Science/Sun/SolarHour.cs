namespace Runnel.Science.Sun;

/// <summary>Sun and radiation at the top of the atmosphere by the hour, after FAO-56.</summary>
/// <remarks>Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3. Longitudes here count WEST of
/// Greenwich, as FAO-56 has it; 0.12 °E is -0.12.</remarks>
public static class SolarHour
{
    /// <summary>Seasonal correction of solar time, h (the equation of time).</summary>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <returns>Hours, about -0.25 to 0.28.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The day is out of range.</exception>
    /// <remarks>FAO-56 equations 32 and 33.</remarks>
    public static double SeasonalCorrectionH(int dayOfYear)
    {
        Require.InRange(dayOfYear, 1, 366);
        double b = 2 * Math.PI * (dayOfYear - 81) / 364;
        return (0.1645 * Math.Sin(2 * b)) - (0.1255 * Math.Cos(b)) - (0.025 * Math.Sin(b));
    }

    /// <summary>Hour angle of the sun, rad: 0 at solar noon, negative before it.</summary>
    /// <param name="clockH">Standard clock time (no daylight saving), h, 0 to 24.</param>
    /// <param name="longitudeDegWest">Longitude of the place, degrees west of Greenwich, -360 to 360.</param>
    /// <param name="zoneLongitudeDegWest">Middle of its time zone, degrees west of Greenwich (15 for each hour), -360 to 360.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <returns>Hour angle, rad, from -pi to below pi.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 31. The result is brought back to one turn, so that 0.12 W with a zone at 360 W works too.</remarks>
    public static double HourAngleRad(double clockH, double longitudeDegWest, double zoneLongitudeDegWest, int dayOfYear)
    {
        Require.InRange(clockH, 0, 24);
        Require.InRange(longitudeDegWest, -360, 360);
        Require.InRange(zoneLongitudeDegWest, -360, 360);
        double solarH = clockH + (0.06667 * TurnDeg(zoneLongitudeDegWest - longitudeDegWest)) + SeasonalCorrectionH(dayOfYear) - 12;
        return (solarH - (24 * Math.Floor((solarH + 12) / 24))) * (Math.PI / 12);
    }

    /// <summary>Elevation of the sun's centre above a level horizon, rad, without refraction.</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative, -90 to 90.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <param name="hourAngleRad">Hour angle, rad, -2 pi to 2 pi.</param>
    /// <returns>Elevation, rad; below 0 at night.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Spherical triangle with the declination of FAO-56: good to about 0.5°.</remarks>
    public static double ElevationRad(double latitudeDeg, int dayOfYear, double hourAngleRad)
    {
        Require.InRange(latitudeDeg, -90, 90);
        Require.InRange(hourAngleRad, -2 * Math.PI, 2 * Math.PI);
        double latitude = latitudeDeg * (Math.PI / 180);
        double declination = SolarDay.DeclinationRad(dayOfYear);
        double sine = (Math.Sin(latitude) * Math.Sin(declination)) + (Math.Cos(latitude) * Math.Cos(declination) * Math.Cos(hourAngleRad));
        return Math.Asin(Math.Clamp(sine, -1, 1));
    }

    /// <summary>Extraterrestrial radiation of a period up to a day on a level surface, MJ/m², with the sun's centre at the period's middle.</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative, -90 to 90.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <param name="midHourAngleRad">Hour angle at the middle of the period, rad, from <see cref="HourAngleRad"/>.</param>
    /// <param name="periodH">Length of the period, h, above 0 to 24.</param>
    /// <returns>Radiation over the period, MJ/m²; 0 when the sun is down at the middle.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equations 28 to 30, which do not clip the period at sunrise and sunset: sums of hours fall a little short of
    /// the day. <see cref="ExtraterrestrialBetweenMJPerM2"/> clips and adds up.</remarks>
    public static double ExtraterrestrialMJPerM2(double latitudeDeg, int dayOfYear, double midHourAngleRad, double periodH = 1)
    {
        Require.InRange(periodH, double.Epsilon, 24);
        Require.InRange(midHourAngleRad, -2 * Math.PI, 2 * Math.PI);
        double sunset = SolarDay.SunsetHourAngleRad(latitudeDeg, dayOfYear);
        if (Math.Abs(midHourAngleRad) > sunset) return 0;
        double half = Math.PI * periodH / 24;
        return Math.Max(0, Integral(latitudeDeg, dayOfYear, midHourAngleRad - half, midHourAngleRad + half));
    }

    /// <summary>Extraterrestrial radiation between two hour angles on a level surface, MJ/m², counting only what lies between sunrise and sunset.</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative, -90 to 90.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <param name="fromHourAngleRad">Hour angle at the start, rad, -pi to pi.</param>
    /// <param name="toHourAngleRad">Hour angle at the end, rad, from the start to pi.</param>
    /// <returns>Radiation over the period, MJ/m².</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 28, with the hour angles limited to those of sunrise and sunset.</remarks>
    public static double ExtraterrestrialBetweenMJPerM2(double latitudeDeg, int dayOfYear, double fromHourAngleRad, double toHourAngleRad)
    {
        Require.InRange(fromHourAngleRad, -Math.PI, Math.PI);
        Require.InRange(toHourAngleRad, fromHourAngleRad, Math.PI);
        double sunset = SolarDay.SunsetHourAngleRad(latitudeDeg, dayOfYear);
        return Integral(latitudeDeg, dayOfYear, Math.Clamp(fromHourAngleRad, -sunset, sunset), Math.Clamp(toHourAngleRad, -sunset, sunset));
    }

    private static double Integral(double latitudeDeg, int dayOfYear, double from, double to)
    {
        double latitude = latitudeDeg * (Math.PI / 180);
        double declination = SolarDay.DeclinationRad(dayOfYear);
        double sines = Math.Sin(latitude) * Math.Sin(declination);
        double cosines = Math.Cos(latitude) * Math.Cos(declination);
        return 12 * 60 / Math.PI * SolarDay.SolarConstantMJPerM2Min * SolarDay.InverseDistance(dayOfYear)
            * (((to - from) * sines) + (cosines * (Math.Sin(to) - Math.Sin(from))));
    }

    private static double TurnDeg(double deg) => deg - (360 * Math.Round(deg / 360));
}
