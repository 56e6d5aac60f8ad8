using Runnel.Science.Sun;

namespace Runnel.Twin.Weather;

/// <summary>The sun of a place under a clear sky.</summary>
/// <remarks>Course of the sun by <see cref="SunCoordinates"/>, sky by <see cref="ClearSky.Ineichen"/> with a Linke turbidity of 3 (usual).</remarks>
public sealed class ClearSkyDay
{
    private const double Turbidity = 3, HalfTurnS = 43_200;

    // Means of so many moments stand for a step; one each ten minutes or so.
    private const int LookS = 600;

    private readonly double _longitudeDeg, _altitudeM, _sin, _cos;

    /// <summary>Takes the site.</summary>
    /// <param name="latitudeDeg">Degrees north, -90 to 90.</param>
    /// <param name="longitudeDeg">Degrees east, -180 to 180.</param>
    /// <param name="altitudeM">Above the sea, m.</param>
    public ClearSkyDay(double latitudeDeg, double longitudeDeg, double altitudeM)
    {
        (_longitudeDeg, _altitudeM) = (longitudeDeg, Math.Max(0, altitudeM));
        (_sin, _cos) = Math.SinCos(latitudeDeg * (Math.PI / 180));
    }

    /// <summary>Mean clear-sky irradiance of each of a row of steps, W/m2.</summary>
    /// <param name="startUnixS">When the first begins, s since 1970 UTC.</param>
    /// <param name="stepS">Length of each, s.</param>
    /// <param name="into">One for each step, of a day and a half at most.</param>
    public void MeansWPerM2(double startUnixS, double stepS, Span<double> into)
    {
        // Declination and equation of time change by a few minutes of arc an hour: taken at both ends and straight between.
        double length = stepS * into.Length;
        var first = SunCoordinates.At(JulianDay.FromUnix(startUnixS));
        var last = SunCoordinates.At(JulianDay.FromUnix(startUnixS + length));
        double outside = DiffuseSplit.ExtraterrestrialNormalWPerM2(DayOfYear(startUnixS + (length / 2)));
        int looks = Math.Max(1, (int)Math.Ceiling(stepS / LookS));
        for (int i = 0; i < into.Length; i++)
        {
            into[i] = 0;
            for (int k = 0; k < looks; k++)
            {
                double since = (i + ((k + 0.5) / looks)) * stepS, share = since / length;
                double declination = (first.DeclinationDeg + ((last.DeclinationDeg - first.DeclinationDeg) * share)) * (Math.PI / 180);
                double equation = first.EquationOfTimeMin + ((last.EquationOfTimeMin - first.EquationOfTimeMin) * share);
                double solarS = startUnixS + since + (_longitudeDeg * 240) + (equation * 60);
                double hourAngle = ((solarS % 86_400) - HalfTurnS) / HalfTurnS * Math.PI;
                var (sinDeclination, cosDeclination) = Math.SinCos(declination);
                double sine = (_sin * sinDeclination) + (_cos * cosDeclination * Math.Cos(hourAngle));
                if (sine <= 0) continue;
                double zenith = Math.Acos(Math.Min(1, sine)) * (180 / Math.PI);
                into[i] += ClearSky.Ineichen(zenith, _altitudeM, Turbidity, outside).GlobalWPerM2 / looks;
            }
        }
    }

    /// <summary>1 on the first of January, to 366.</summary>
    internal static int DayOfYear(double unixS) => DateTime.UnixEpoch.AddSeconds(unixS).DayOfYear;
}
