namespace Runnel.Science.Sun;

/// <summary>Radiation on a tilted plane from beam, sky and ground; for irradiance (W/m²) and for hours (MJ/m²) alike.</summary>
/// <remarks>Duffie and Beckman, Solar Engineering of Thermal Processes, sections 2.15 and 2.16.</remarks>
public static class TiltedPlane
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>Beam on the plane over beam on the level (Rb).</summary>
    /// <param name="cosIncidence">Cosine of the incidence angle, -1 to 1; behind the plane it counts as 0.</param>
    /// <param name="cosZenith">Cosine of the zenith angle, -1 to 1; not below that of 89°.</param>
    /// <returns>0 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double BeamRatio(double cosIncidence, double cosZenith)
    {
        Require.InRange(cosIncidence, -1, 1);
        Require.InRange(cosZenith, -1, 1);
        return Math.Max(0, cosIncidence) / Math.Max(0.01745, cosZenith);
    }

    /// <summary>Reflected from the ground onto the plane.</summary>
    /// <param name="globalLevel">Total radiation on the level.</param>
    /// <param name="slopeDeg">Slope, degrees, 0 to 180.</param>
    /// <param name="albedo">Share that the ground reflects: 0.2, snow 0.7.</param>
    /// <returns>Radiation in the unit of the input.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double Ground(double globalLevel, double slopeDeg, double albedo = 0.2)
    {
        Require.NotNegative(globalLevel);
        Require.InRange(slopeDeg, 0, 180);
        Require.InRange(albedo, 0, 1);
        return globalLevel * albedo * (1 - Math.Cos(slopeDeg / DegPerRad)) / 2;
    }

    /// <summary>From the sky onto the plane, the sky equally bright all over.</summary>
    /// <param name="diffuseLevel">Diffuse radiation on the level.</param>
    /// <param name="slopeDeg">Slope, degrees, 0 to 180.</param>
    /// <returns>Radiation in the unit of the input.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Liu and Jordan (1963). Low for planes that face the sun.</remarks>
    public static double IsotropicSky(double diffuseLevel, double slopeDeg)
    {
        Require.NotNegative(diffuseLevel);
        Require.InRange(slopeDeg, 0, 180);
        return diffuseLevel * (1 + Math.Cos(slopeDeg / DegPerRad)) / 2;
    }

    /// <summary>From the sky onto the plane, brighter around the sun.</summary>
    /// <param name="diffuseLevel">Diffuse radiation on the level.</param>
    /// <param name="slopeDeg">Slope, degrees, 0 to 180.</param>
    /// <param name="beamRatio">Rb, from <see cref="BeamRatio"/>.</param>
    /// <param name="anisotropy">Beam over the beam outside the atmosphere, 0 to 1.</param>
    /// <returns>Radiation in the unit of the input.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Hay and Davies (1980).</remarks>
    public static double HayDaviesSky(double diffuseLevel, double slopeDeg, double beamRatio, double anisotropy)
    {
        Require.NotNegative(beamRatio);
        Require.InRange(anisotropy, 0, 1);
        return (diffuseLevel * anisotropy * beamRatio) + ((1 - anisotropy) * IsotropicSky(diffuseLevel, slopeDeg));
    }

    /// <summary>From the sky onto the plane, brighter around the sun and at the horizon (HDKR).</summary>
    /// <param name="diffuseLevel">Diffuse radiation on the level.</param>
    /// <param name="slopeDeg">Slope, degrees, 0 to 180.</param>
    /// <param name="beamRatio">Rb, from <see cref="BeamRatio"/>.</param>
    /// <param name="anisotropy">Beam over the beam outside the atmosphere, 0 to 1.</param>
    /// <param name="beamShare">Beam over total on the level, 0 to 1.</param>
    /// <returns>Radiation in the unit of the input.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Hay, Davies, Klucher, Reindl: Reindl, Beckman and Duffie (1990), Solar Energy 45:9-17.</remarks>
    public static double HdkrSky(double diffuseLevel, double slopeDeg, double beamRatio, double anisotropy, double beamShare)
    {
        Require.NotNegative(beamRatio);
        Require.InRange(anisotropy, 0, 1);
        Require.InRange(beamShare, 0, 1);
        double half = Math.Sin(slopeDeg / DegPerRad / 2);
        return (diffuseLevel * anisotropy * beamRatio)
            + ((1 - anisotropy) * IsotropicSky(diffuseLevel, slopeDeg) * (1 + (Math.Sqrt(beamShare) * half * half * half)));
    }
}
