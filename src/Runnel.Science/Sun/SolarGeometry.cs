namespace Runnel.Science.Sun;

/// <summary>Angles of the sun on level and tilted surfaces in solar time, for collectors and panels by hand.</summary>
/// <remarks>Duffie and Beckman, Solar Engineering of Thermal Processes, chapter 1. Azimuths here count from SOUTH, west positive, as there;
/// a surface that faces the equator is 0 in the north and 180 in the south. Good to about 0.5°.</remarks>
public static class SolarGeometry
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>Declination, degrees.</summary>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <returns>Declination, degrees, north positive.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The day is out of range.</exception>
    /// <remarks>Equation 1.6.1a (Cooper 1969).</remarks>
    public static double DeclinationDeg(int dayOfYear)
    {
        Require.InRange(dayOfYear, 1, 366);
        return 23.45 * Math.Sin(2 * Math.PI * (284 + dayOfYear) / 365);
    }

    /// <summary>Solar less clock time, min.</summary>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <returns>Minutes.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The day is out of range.</exception>
    /// <remarks>Equation 1.5.3 (Spencer 1971).</remarks>
    public static double EquationOfTimeMin(int dayOfYear)
    {
        Require.InRange(dayOfYear, 1, 366);
        double b = 2 * Math.PI * (dayOfYear - 1) / 365;
        return 229.2 * (0.000075 + (0.001868 * Math.Cos(b)) - (0.032077 * Math.Sin(b)) - (0.014615 * Math.Cos(2 * b)) - (0.04089 * Math.Sin(2 * b)));
    }

    /// <summary>Solar time, h.</summary>
    /// <param name="clockH">Standard clock time, h.</param>
    /// <param name="longitudeDegWest">Longitude, degrees west.</param>
    /// <param name="zoneMeridianDegWest">Meridian of the zone, degrees west.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <returns>Solar time, h.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Equation 1.5.2.</remarks>
    public static double SolarTimeH(double clockH, double longitudeDegWest, double zoneMeridianDegWest, int dayOfYear)
    {
        Require.InRange(clockH, 0, 24);
        Require.InRange(longitudeDegWest, -360, 360);
        Require.InRange(zoneMeridianDegWest, -360, 360);
        return clockH + (((4 * SunCoordinates.HalfTurn(zoneMeridianDegWest - longitudeDegWest)) + EquationOfTimeMin(dayOfYear)) / 60);
    }

    /// <summary>Cosine of the zenith angle.</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative.</param>
    /// <param name="declinationDeg">Declination, degrees.</param>
    /// <param name="hourAngleDeg">Hour angle, degrees, 15 an hour, afternoon positive.</param>
    /// <returns>-1 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Equation 1.6.5.</remarks>
    public static double CosZenith(double latitudeDeg, double declinationDeg, double hourAngleDeg)
    {
        Require.InRange(latitudeDeg, -90, 90);
        Require.InRange(declinationDeg, -23.6, 23.6);
        Require.InRange(hourAngleDeg, -360, 360);
        double latitude = latitudeDeg / DegPerRad, declination = declinationDeg / DegPerRad;
        return Math.Clamp((Math.Cos(latitude) * Math.Cos(declination) * Math.Cos(hourAngleDeg / DegPerRad)) + (Math.Sin(latitude) * Math.Sin(declination)), -1, 1);
    }

    /// <summary>Azimuth of the sun, degrees from south, west positive.</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative.</param>
    /// <param name="declinationDeg">Declination, degrees.</param>
    /// <param name="hourAngleDeg">Hour angle, degrees, -180 to 180.</param>
    /// <returns>-180 to 180.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Equation 1.6.6 in its two-argument form, which keeps the quadrant.</remarks>
    public static double AzimuthDeg(double latitudeDeg, double declinationDeg, double hourAngleDeg)
    {
        Require.InRange(latitudeDeg, -90, 90);
        Require.InRange(declinationDeg, -23.6, 23.6);
        Require.InRange(hourAngleDeg, -180, 180);
        double latitude = latitudeDeg / DegPerRad, declination = declinationDeg / DegPerRad, hour = hourAngleDeg / DegPerRad;
        return DegPerRad * Math.Atan2(
            Math.Sin(hour) * Math.Cos(declination),
            (Math.Cos(hour) * Math.Sin(latitude) * Math.Cos(declination)) - (Math.Sin(declination) * Math.Cos(latitude)));
    }

    /// <summary>Cosine of the angle between the sun's rays and the upright of a surface.</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative.</param>
    /// <param name="declinationDeg">Declination, degrees.</param>
    /// <param name="hourAngleDeg">Hour angle, degrees, -180 to 180.</param>
    /// <param name="slopeDeg">Slope, degrees, 0 to 180.</param>
    /// <param name="surfaceAzimuthDeg">Direction the surface faces, degrees from south, west positive.</param>
    /// <returns>-1 to 1; below 0 the sun is behind.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Equation 1.6.3.</remarks>
    public static double CosIncidence(double latitudeDeg, double declinationDeg, double hourAngleDeg, double slopeDeg, double surfaceAzimuthDeg)
    {
        Require.InRange(slopeDeg, 0, 180);
        Require.InRange(surfaceAzimuthDeg, -360, 360);
        double cosZenith = CosZenith(latitudeDeg, declinationDeg, hourAngleDeg), sinZenith = Math.Sqrt(1 - (cosZenith * cosZenith));
        double turn = (AzimuthDeg(latitudeDeg, declinationDeg, hourAngleDeg) - surfaceAzimuthDeg) / DegPerRad;
        return (cosZenith * Math.Cos(slopeDeg / DegPerRad)) + (sinZenith * Math.Sin(slopeDeg / DegPerRad) * Math.Cos(turn));
    }

    /// <summary>Hour angle of sunset, degrees.</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative.</param>
    /// <param name="declinationDeg">Declination, degrees.</param>
    /// <returns>0 to 180.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Equation 1.6.10.</remarks>
    public static double SunsetAngleDeg(double latitudeDeg, double declinationDeg)
    {
        Require.InRange(latitudeDeg, -90, 90);
        Require.InRange(declinationDeg, -23.6, 23.6);
        return DegPerRad * Math.Acos(Math.Clamp(-Math.Tan(latitudeDeg / DegPerRad) * Math.Tan(declinationDeg / DegPerRad), -1, 1));
    }

    /// <summary>Radiation on a level surface outside the atmosphere between two hour angles, MJ/m².</summary>
    /// <param name="latitudeDeg">Latitude, degrees, south negative.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <param name="fromHourAngleDeg">Hour angle at the start, degrees, -180 to 180.</param>
    /// <param name="toHourAngleDeg">Hour angle at the end, degrees.</param>
    /// <param name="solarConstantWPerM2">1367 W/m².</param>
    /// <returns>Radiation, MJ/m².</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Equation 1.10.4; over the whole day it is equation 1.10.3.</remarks>
    public static double ExtraterrestrialMJPerM2(
        double latitudeDeg, int dayOfYear, double fromHourAngleDeg, double toHourAngleDeg, double solarConstantWPerM2 = 1367)
    {
        Require.InRange(latitudeDeg, -90, 90);
        Require.InRange(fromHourAngleDeg, -180, 180);
        Require.InRange(toHourAngleDeg, fromHourAngleDeg, 180);
        Require.InRange(solarConstantWPerM2, 1300, 1400);
        double declination = DeclinationDeg(dayOfYear) / DegPerRad, latitude = latitudeDeg / DegPerRad;
        double from = fromHourAngleDeg / DegPerRad, to = toHourAngleDeg / DegPerRad;
        double normal = solarConstantWPerM2 * (1 + (0.033 * Math.Cos(2 * Math.PI * dayOfYear / 365)));
        return 12 * 3600 / Math.PI * normal / 1e6 * ((Math.Cos(latitude) * Math.Cos(declination) * (Math.Sin(to) - Math.Sin(from)))
            + ((to - from) * Math.Sin(latitude) * Math.Sin(declination)));
    }
}
