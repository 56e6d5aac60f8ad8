namespace Runnel.Science.Sun;

/// <summary>Irradiance under a clear sky, W/m².</summary>
/// <param name="GlobalWPerM2">On the level.</param>
/// <param name="BeamNormalWPerM2">Of the beam on a surface that faces the sun.</param>
/// <param name="DiffuseWPerM2">Of the sky on the level.</param>
public readonly record struct ClearSkyIrradiance(double GlobalWPerM2, double BeamNormalWPerM2, double DiffuseWPerM2);

/// <summary>Clear-sky models, from the simplest up.</summary>
public static class ClearSky
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>Air mass relative to the way straight up.</summary>
    /// <param name="zenithDeg">Apparent zenith angle, degrees, 0 to 90.</param>
    /// <returns>1 to about 38.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The angle is NaN or out of range.</exception>
    /// <remarks>Kasten and Young (1989), Applied Optics 28:4735-4738.</remarks>
    public static double AirMass(double zenithDeg)
    {
        Require.InRange(zenithDeg, 0, 90);
        return 1 / (Math.Cos(zenithDeg / DegPerRad) + (0.50572 * Math.Pow(96.07995 - zenithDeg, -1.6364)));
    }

    /// <summary>Air pressure that scales the air mass, Pa.</summary>
    /// <param name="altitudeM">Altitude, m, -450 to 9000.</param>
    /// <returns>Pressure, Pa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is NaN or out of range.</exception>
    /// <remarks>U.S. standard atmosphere (1976), as used with these models.</remarks>
    public static double PressurePa(double altitudeM)
    {
        Require.InRange(altitudeM, -450, 9000);
        return 100 * Math.Pow((44_331.514 - altitudeM) / 11_880.516, 1 / 0.1902632);
    }

    /// <summary>Global irradiance from the zenith angle alone, W/m².</summary>
    /// <param name="zenithDeg">Apparent zenith angle, degrees, 0 to 180; 0 below the horizon.</param>
    /// <returns>Irradiance, W/m².</returns>
    /// <exception cref="ArgumentOutOfRangeException">The angle is NaN or out of range.</exception>
    /// <remarks>Haurwitz (1945), Journal of Meteorology 2:154-166: 1098 cos z exp(-0.059/cos z).</remarks>
    public static double HaurwitzWPerM2(double zenithDeg)
    {
        Require.InRange(zenithDeg, 0, 180);
        double cosine = Math.Cos(zenithDeg / DegPerRad);
        return cosine > 0 ? 1098 * cosine * Math.Exp(-0.059 / cosine) : 0;
    }

    /// <summary>Beam transmittance of a clear sky.</summary>
    /// <param name="altitudeM">Altitude, m, 0 to 2500.</param>
    /// <param name="cosZenith">Cosine of the zenith angle, above 0 to 1.</param>
    /// <param name="r0">Climate factor of the first constant: 0.97 mid-latitude summer, 0.95 tropical, 1.03 mid-latitude winter.</param>
    /// <param name="r1">Of the second: 0.99 summer, 0.98 tropical, 1.01 winter.</param>
    /// <param name="rk">Of the exponent: 1.02 summer and tropical, 1.00 winter.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Hottel (1976), Solar Energy 18:129-134, for 23 km visibility, as in Duffie and Beckman section 2.8.</remarks>
    public static double HottelBeamTransmittance(double altitudeM, double cosZenith, double r0 = 0.97, double r1 = 0.99, double rk = 1.02)
    {
        Require.InRange(altitudeM, 0, 2500);
        Require.InRange(cosZenith, 0.01, 1);
        Require.InRange(r0, 0.8, 1.2);
        Require.InRange(r1, 0.8, 1.2);
        Require.InRange(rk, 0.8, 1.2);
        double km = altitudeM / 1000;
        double a0 = r0 * (0.4237 - (0.00821 * (6 - km) * (6 - km)));
        double a1 = r1 * (0.5055 + (0.00595 * (6.5 - km) * (6.5 - km)));
        double k = rk * (0.2711 + (0.01858 * (2.5 - km) * (2.5 - km)));
        return a0 + (a1 * Math.Exp(-k / cosZenith));
    }

    /// <summary>Irradiance from the zenith angle, altitude and haze.</summary>
    /// <param name="zenithDeg">Apparent zenith angle, degrees, 0 to 90.</param>
    /// <param name="altitudeM">Altitude, m, 0 to 7000.</param>
    /// <param name="linkeTurbidity">Linke turbidity, 1 to 10: 2 clear and cold, 3 usual, 5 hazy.</param>
    /// <param name="extraterrestrialNormalWPerM2">Irradiance outside the atmosphere, W/m² (see <see cref="DiffuseSplit"/>).</param>
    /// <returns>Global, beam and diffuse irradiance.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Ineichen and Perez (2002), Solar Energy 73:151-157, with the constants as in Reno, Hansen and Stein (2012), SAND2012-2389,
    /// without the later enhancement.</remarks>
    public static ClearSkyIrradiance Ineichen(double zenithDeg, double altitudeM, double linkeTurbidity, double extraterrestrialNormalWPerM2)
    {
        Require.InRange(zenithDeg, 0, 90);
        Require.InRange(altitudeM, 0, 7000);
        Require.InRange(linkeTurbidity, 1, 10);
        Require.InRange(extraterrestrialNormalWPerM2, 1200, 1500);
        double airMass = AirMass(zenithDeg) * PressurePa(altitudeM) / 101_325, cosine = Math.Max(Math.Cos(zenithDeg / DegPerRad), 1e-9);
        double high = Math.Exp(-altitudeM / 8000), low = Math.Exp(-altitudeM / 1250);
        double global = ((5.09e-5 * altitudeM) + 0.868) * extraterrestrialNormalWPerM2 * cosine
            * Math.Exp(-((3.92e-5 * altitudeM) + 0.0387) * airMass * (high + (low * (linkeTurbidity - 1))));
        double beam = extraterrestrialNormalWPerM2 * (0.664 + (0.163 / high)) * Math.Exp(-0.09 * airMass * (linkeTurbidity - 1));
        double most = global * Math.Max(0, 1 - ((0.1 - (0.2 * Math.Exp(-linkeTurbidity))) / (0.1 + (0.882 / high)))) / cosine;
        beam = Math.Min(beam, most);
        return new ClearSkyIrradiance(global, beam, global - (beam * cosine));
    }
}
