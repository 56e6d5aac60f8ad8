namespace Runnel.Science.Sun;

/// <summary>How many of the periodic terms are added up.</summary>
public enum SunPrecision
{
    /// <summary>The leading terms: within 0.002° of the full sum, twice as fast.</summary>
    Quick,

    /// <summary>All terms of the published algorithm: 0.0003°. The default: it too is reckoned a million times a second.</summary>
    Full,
}

/// <summary>Where the sun stands as seen from the centre of the earth.</summary>
/// <param name="RightAscensionDeg">Right ascension, degrees, 0 to 360.</param>
/// <param name="DeclinationDeg">Declination, degrees, north positive.</param>
/// <param name="SiderealDeg">Apparent sidereal time at Greenwich, degrees, 0 to 360.</param>
/// <param name="DistanceAu">Distance, astronomical units.</param>
/// <param name="EquationOfTimeMin">Solar less clock time, min.</param>
public readonly record struct SunCoordinates(
    double RightAscensionDeg, double DeclinationDeg, double SiderealDeg, double DistanceAu, double EquationOfTimeMin)
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>Coordinates at a moment.</summary>
    /// <param name="julianDay">Julian day (UT), of the years 1900 to 2100.</param>
    /// <param name="deltaTS">Terrestrial less universal time, s: 69 around 2020 to 2026.</param>
    /// <param name="precision">How many terms are added up.</param>
    /// <returns>Coordinates.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Reda and Andreas (2004), Solar Position Algorithm for Solar Radiation Applications, NREL/TP-560-34302 (revised 2008),
    /// sections 3.1 to 3.10 and A.1.</remarks>
    public static SunCoordinates At(double julianDay, double deltaTS = 69.2, SunPrecision precision = SunPrecision.Full)
    {
        Require.InRange(julianDay, 2_415_020, 2_488_435);
        Require.InRange(deltaTS, -10, 300);
        double century = (julianDay - 2_451_545) / 36_525;
        double ephemerisCentury = (julianDay + (deltaTS / 86_400) - 2_451_545) / 36_525, millennium = ephemerisCentury / 10;
        var earth = precision == SunPrecision.Full ? EarthSeries.Full : EarthSeries.Quick;
        double longitude = DegPerRad * 1e-8 * earth.Longitude.At(millennium), latitude = DegPerRad * 1e-8 * earth.Latitude.At(millennium), distance = 1e-8 * earth.Distance.At(millennium);

        var (inLongitude, inObliquity) = Nutation(ephemerisCentury, precision);
        double obliquity = (MeanObliquitySeconds(millennium / 10) / 3600) + inObliquity;
        double apparent = longitude + 180 + inLongitude - (20.4898 / (3600 * distance));
        double beta = -latitude / DegPerRad, lambda = apparent / DegPerRad, epsilon = obliquity / DegPerRad;
        var (sinLambda, cosLambda) = Math.SinCos(lambda);
        var (sinEpsilon, cosEpsilon) = Math.SinCos(epsilon);
        // The sun's latitude is a second of arc at most: its cosine is one, its sine and tangent are itself.
        double ascension = Turn(DegPerRad * Math.Atan2((sinLambda * cosEpsilon) - (beta * sinEpsilon), cosLambda));
        double declination = DegPerRad * Math.Asin((beta * cosEpsilon) + (sinEpsilon * sinLambda));

        double sidereal = Turn(280.46061837 + (360.98564736629 * (julianDay - 2_451_545))
            + (century * century * (0.000387933 - (century / 38_710_000))) + (inLongitude * cosEpsilon));
        double mean = 280.4664567 + (millennium * (360_007.6982779 + (millennium * (0.03032028 + (millennium
            * ((1.0 / 49_931) - (millennium * ((1.0 / 15_300) + (millennium / 2_000_000)))))))));
        double equation = 4 * HalfTurn(mean - 0.0057183 - ascension + (inLongitude * cosEpsilon));
        return new SunCoordinates(ascension, declination, sidereal, distance, equation);
    }

    internal static double Turn(double deg) => deg - (360 * Math.Floor(deg / 360));

    internal static double HalfTurn(double deg) => deg - (360 * Math.Round(deg / 360));

    private static double MeanObliquitySeconds(double u) =>
        84_381.448 + (u * (-4680.93 + (u * (-1.55 + (u * (1999.25 + (u * (-51.38 + (u * (-249.67 + (u * (-39.05 + (u * (7.12
        + (u * (27.87 + (u * (5.79 + (u * 2.45)))))))))))))))))));

    private static (double Longitude, double Obliquity) Nutation(double t, SunPrecision precision)
    {
        double x0 = 297.85036 + (t * (445_267.111480 + (t * (-0.0019142 + (t / 189_474)))));
        double x1 = 357.52772 + (t * (35_999.050340 + (t * (-0.0001603 - (t / 300_000)))));
        double x2 = 134.96298 + (t * (477_198.867398 + (t * (0.0086972 + (t / 56_250)))));
        double x3 = 93.27191 + (t * (483_202.017538 + (t * (-0.0036825 + (t / 327_270)))));
        double x4 = 125.04452 + (t * (-1934.136261 + (t * (0.0020708 + (t / 450_000)))));
        return (precision == SunPrecision.Full ? NutationSum.Full : NutationSum.Quick).At(t, x0 / 360, x1 / 360, x2 / 360, x3 / 360, x4 / 360);
    }
}
