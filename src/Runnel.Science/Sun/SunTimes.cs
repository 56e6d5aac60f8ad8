namespace Runnel.Science.Sun;

/// <summary>Whether the sun crosses the horizon on a day.</summary>
public enum PolarState
{
    /// <summary>It rises or sets.</summary>
    None,

    /// <summary>It stays below.</summary>
    Night,

    /// <summary>It stays above.</summary>
    MidnightSun,
}

/// <summary>Sunrise, solar noon and sunset of a local date, in hours of the local clock.</summary>
/// <param name="SunriseH">Sunrise, h, or null where there is none before noon. Below 0 it falls on the evening before.</param>
/// <param name="NoonH">Solar noon, h.</param>
/// <param name="SunsetH">Sunset, h, or null where there is none after noon. Above 24 it falls after midnight.</param>
/// <param name="Polar">Whether the sun stays on one side of the horizon.</param>
public readonly record struct SunTimes(double? SunriseH, double NoonH, double? SunsetH, PolarState Polar)
{
    // Upper limb at the horizon: radius 16' and refraction 34'.
    private const double HorizonDeg = -0.8333, DegPerRad = 180 / Math.PI;

    /// <summary>Length of the day, h; null where the sun only rises or only sets.</summary>
    public double? DayLengthH => Polar switch
    {
        PolarState.Night => 0,
        PolarState.MidnightSun => 24,
        _ => SunsetH - SunriseH,
    };

    /// <summary>Times of a local date.</summary>
    /// <param name="year">1900 to 2100.</param>
    /// <param name="month">1 to 12.</param>
    /// <param name="day">1 to 31.</param>
    /// <param name="latitudeDeg">Latitude, degrees, south negative, -90 to 90.</param>
    /// <param name="longitudeDegEast">Longitude, degrees east of Greenwich, -180 to 180.</param>
    /// <param name="utcOffsetH">Local clock less universal time, h, -14 to 14.</param>
    /// <returns>Times about the solar noon of that date, to a few seconds; refraction moves real ones by a minute, hills by more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Sun after Reda and Andreas (2004), quick; horizon at -0.8333° as there, seen from the earth's centre; crossings by bisection.</remarks>
    public static SunTimes Of(int year, int month, int day, double latitudeDeg, double longitudeDegEast, double utcOffsetH)
    {
        Require.InRange(latitudeDeg, -90, 90);
        Require.InRange(longitudeDegEast, -180, 180);
        Require.InRange(utcOffsetH, -14, 14);
        double midnight = JulianDay.Of(year, month, day, -utcOffsetH);

        // Two turns suffice: the equation of time moves by 30 s a day.
        double noon = 12;
        for (int i = 0; i < 3; i++) noon -= HourAngleH(midnight, noon, longitudeDegEast);
        if (noon < 0) noon += 24;
        if (noon >= 24) noon -= 24;
        noon -= HourAngleH(midnight, noon, longitudeDegEast);

        bool upAtNoon = Height(midnight, noon, latitudeDeg, longitudeDegEast) > 0;
        bool upBefore = Height(midnight, noon - 12, latitudeDeg, longitudeDegEast) > 0;
        bool upAfter = Height(midnight, noon + 12, latitudeDeg, longitudeDegEast) > 0;
        double? rise = upAtNoon && !upBefore ? Crossing(midnight, noon - 12, noon, latitudeDeg, longitudeDegEast) : null;
        double? set = upAtNoon && !upAfter ? Crossing(midnight, noon + 12, noon, latitudeDeg, longitudeDegEast) : null;
        var polar = !upAtNoon ? PolarState.Night : upBefore && upAfter ? PolarState.MidnightSun : PolarState.None;
        return new SunTimes(rise, noon, set, polar);
    }

    private static double HourAngleH(double midnight, double hour, double longitudeDegEast)
    {
        var sun = SunCoordinates.At(midnight + (hour / 24), precision: SunPrecision.Quick);
        return SunCoordinates.HalfTurn(sun.SiderealDeg + longitudeDegEast - sun.RightAscensionDeg) / 15;
    }

    private static double Height(double midnight, double hour, double latitudeDeg, double longitudeDegEast)
    {
        var sun = SunCoordinates.At(midnight + (hour / 24), precision: SunPrecision.Quick);
        double hourAngle = (sun.SiderealDeg + longitudeDegEast - sun.RightAscensionDeg) / DegPerRad;
        double latitude = latitudeDeg / DegPerRad, declination = sun.DeclinationDeg / DegPerRad;
        double sine = (Math.Sin(latitude) * Math.Sin(declination)) + (Math.Cos(latitude) * Math.Cos(declination) * Math.Cos(hourAngle));
        return (DegPerRad * Math.Asin(Math.Clamp(sine, -1, 1))) - HorizonDeg;
    }

    private static double Crossing(double midnight, double down, double up, double latitudeDeg, double longitudeDegEast)
    {
        for (int i = 0; i < 26; i++)
        {
            double middle = (down + up) / 2;
            if (Height(midnight, middle, latitudeDeg, longitudeDegEast) > 0) up = middle;
            else down = middle;
        }

        return (down + up) / 2;
    }
}
