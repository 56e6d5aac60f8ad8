namespace Runnel.Science.Sun;

/// <summary>Where the sun stands in the sky of a place.</summary>
/// <param name="ElevationDeg">Elevation above the horizon with refraction, degrees.</param>
/// <param name="TrueElevationDeg">Elevation without refraction, degrees.</param>
/// <param name="AzimuthDeg">Azimuth, degrees from north, eastward, 0 to 360.</param>
/// <param name="EquationOfTimeMin">Solar less clock time, min.</param>
public readonly record struct SolarPosition(double ElevationDeg, double TrueElevationDeg, double AzimuthDeg, double EquationOfTimeMin)
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>Distance from the point overhead, degrees, with refraction.</summary>
    public double ZenithDeg => 90 - ElevationDeg;

    /// <summary>Position at a moment.</summary>
    /// <param name="julianDay">Julian day (UT), of the years 1900 to 2100 (see <see cref="JulianDay"/>).</param>
    /// <param name="latitudeDeg">Latitude, degrees, south negative, -90 to 90.</param>
    /// <param name="longitudeDegEast">Longitude, degrees east of Greenwich, -180 to 180.</param>
    /// <param name="altitudeM">Altitude, m, -450 to 9000.</param>
    /// <param name="pressureKPa">Air pressure, kPa, 0 to 110; only refraction depends on it.</param>
    /// <param name="airTempC">Air temperature, °C; only refraction depends on it.</param>
    /// <param name="deltaTS">Terrestrial less universal time, s.</param>
    /// <param name="precision">How many periodic terms are added up.</param>
    /// <returns>Position, to 0.0003° (0.002° quick); refraction near the horizon varies by more than that with the weather.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Reda and Andreas (2004), Solar Position Algorithm for Solar Radiation Applications, NREL/TP-560-34302 (revised 2008),
    /// sections 3.11 to 3.15; refraction for sea-level pressure 101 kPa and 10 °C scaled, none below -0.8333°.</remarks>
    public static SolarPosition At(
        double julianDay, double latitudeDeg, double longitudeDegEast, double altitudeM = 0, double pressureKPa = 101.325,
        double airTempC = 12, double deltaTS = 69.2, SunPrecision precision = SunPrecision.Full)
    {
        Require.InRange(latitudeDeg, -90, 90);
        Require.InRange(longitudeDegEast, -180, 180);
        Require.InRange(altitudeM, -450, 9000);
        Require.InRange(pressureKPa, 0, 110);
        Require.InRange(airTempC, -90, 60);
        var sun = SunCoordinates.At(julianDay, deltaTS, precision);
        double hourAngle = (sun.SiderealDeg + longitudeDegEast - sun.RightAscensionDeg) / DegPerRad;
        double declination = sun.DeclinationDeg / DegPerRad, latitude = latitudeDeg / DegPerRad;

        // The observer stands on the surface of a flattened earth, not at its centre: the report's turn of angles, as a difference of vectors.
        const double flat = 0.99664719;
        double parallax = 8.794 / (3600 * DegPerRad * sun.DistanceAu);
        var (sinLatitude, cosLatitude) = Math.SinCos(latitude);
        double span = Math.Sqrt((cosLatitude * cosLatitude) + (flat * flat * sinLatitude * sinLatitude)), high = altitudeM / 6_378_140;
        double x = cosLatitude * ((1 / span) + high), y = sinLatitude * ((flat * flat / span) + high);
        var (sinHour, cosHour) = Math.SinCos(hourAngle);
        var (sinDeclination, cosDeclination) = Math.SinCos(declination);
        double toMeridian = (cosDeclination * cosHour) - (x * parallax), toWest = cosDeclination * sinHour, toPole = sinDeclination - (y * parallax);
        double up = (toMeridian * cosLatitude) + (toPole * sinLatitude), toSouth = (toMeridian * sinLatitude) - (toPole * cosLatitude);

        double elevation = DegPerRad * Math.Atan2(up, Math.Sqrt((toSouth * toSouth) + (toWest * toWest))), azimuth = DegPerRad * Math.Atan2(toWest, toSouth);
        double refraction = elevation < -0.8333 ? 0
            : pressureKPa / 101 * (283 / (273 + airTempC)) * 1.02 / (60 * Math.Tan((elevation + (10.3 / (elevation + 5.11))) / DegPerRad));
        return new SolarPosition(elevation + refraction, elevation, SunCoordinates.Turn(azimuth + 180), sun.EquationOfTimeMin);
    }

    /// <summary>Angle between the sun's rays and the upright of a tilted surface, degrees.</summary>
    /// <param name="slopeDeg">Slope of the surface, degrees, 0 level to 90 upright, 180 facing down.</param>
    /// <param name="surfaceAzimuthDeg">Direction it faces, degrees from north, eastward.</param>
    /// <returns>Incidence, degrees, 0 to 180.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Reda and Andreas (2004), section 3.16.</remarks>
    public double IncidenceDeg(double slopeDeg, double surfaceAzimuthDeg)
    {
        Require.InRange(slopeDeg, 0, 180);
        Require.InRange(surfaceAzimuthDeg, -360, 360);
        double zenith = ZenithDeg / DegPerRad, slope = slopeDeg / DegPerRad, turn = (AzimuthDeg - surfaceAzimuthDeg) / DegPerRad;
        double cosine = (Math.Cos(zenith) * Math.Cos(slope)) + (Math.Sin(slope) * Math.Sin(zenith) * Math.Cos(turn));
        return DegPerRad * Math.Acos(Math.Clamp(cosine, -1, 1));
    }
}
