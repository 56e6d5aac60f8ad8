namespace Runnel.Science.Pipes;

/// <summary>Settling of particles, and how much of them a settler takes out.</summary>
/// <remarks>Fish solids are flakes, not spheres, and break in pumps: measured velocities (1.7 cm/s mean in a trout farm) are worth more than sums.</remarks>
public static class Settling
{
    /// <summary>Velocity of a small sphere, m/s, for Reynolds numbers below about 0.5.</summary>
    /// <param name="diameterM">Diameter, m.</param>
    /// <param name="particleKgPerM3">Density of the particle, kg/m³.</param>
    /// <param name="fluidKgPerM3">Density of the water, kg/m³.</param>
    /// <param name="viscosityPaS">Dynamic viscosity, Pa s.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Velocity, m/s; negative when it rises.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Stokes (1851).</remarks>
    public static double StokesMPerS(
        double diameterM, double particleKgPerM3, double fluidKgPerM3, double viscosityPaS, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Check(diameterM, particleKgPerM3, fluidKgPerM3, viscosityPaS, gravityMPerS2);
        return gravityMPerS2 * (particleKgPerM3 - fluidKgPerM3) * diameterM * diameterM / (18 * viscosityPaS);
    }

    /// <summary>Velocity of a sphere of any size, m/s.</summary>
    /// <param name="diameterM">Diameter, m.</param>
    /// <param name="particleKgPerM3">Density of the particle, kg/m³.</param>
    /// <param name="fluidKgPerM3">Density of the water, kg/m³.</param>
    /// <param name="viscosityPaS">Dynamic viscosity, Pa s.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Velocity, m/s, within 5 %; negative when it rises.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Balance of weight and drag with <see cref="DragCliftGauvin"/>; solved by bisection, since drag force rises with velocity.</remarks>
    public static double SphereMPerS(
        double diameterM, double particleKgPerM3, double fluidKgPerM3, double viscosityPaS, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        double stokes = StokesMPerS(diameterM, particleKgPerM3, fluidKgPerM3, viscosityPaS, gravityMPerS2);
        if (stokes == 0) return 0;
        double wanted = 4 * gravityMPerS2 * diameterM * Math.Abs(particleKgPerM3 - fluidKgPerM3) / (3 * fluidKgPerM3);
        double low = 0, high = Math.Abs(stokes);
        for (int i = 0; i < 100 && high - low > 1e-14 * high; i++)
        {
            double middle = (low + high) / 2;
            if (middle * middle * DragCliftGauvin(middle * diameterM * fluidKgPerM3 / viscosityPaS) < wanted) low = middle;
            else high = middle;
        }

        return Math.Sign(stokes) * (low + high) / 2;
    }

    /// <summary>Drag coefficient of a sphere in creeping flow.</summary>
    /// <param name="reynolds">Reynolds number, above 0.</param>
    /// <returns>24/Re.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The number is NaN or not above 0.</exception>
    public static double DragStokes(double reynolds)
    {
        Require.Positive(reynolds);
        return 24 / reynolds;
    }

    /// <summary>Drag coefficient of a sphere.</summary>
    /// <param name="reynolds">Reynolds number, above 0 to 3e5.</param>
    /// <returns>Drag coefficient.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The number is NaN or out of range.</exception>
    /// <remarks>Clift and Gauvin (1970), as refitted in the open library fluids 1.3.1: 24/Re (1 + 0.152 Re^0.677) + 0.417/(1 + 5070 Re^-0.94).</remarks>
    public static double DragCliftGauvin(double reynolds)
    {
        Require.InRange(reynolds, double.Epsilon, 3e5);
        return (24 / reynolds * (1 + (0.152 * Math.Pow(reynolds, 0.677)))) + (0.417 / (1 + (5070 * Math.Pow(reynolds, -0.94))));
    }

    /// <summary>Drag coefficient of a sphere, another fit.</summary>
    /// <param name="reynolds">Reynolds number, above 0 to 2.6e5.</param>
    /// <returns>Drag coefficient.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The number is NaN or out of range.</exception>
    /// <remarks>Haider and Levenspiel (1989), Powder Technology 58:63-70.</remarks>
    public static double DragHaiderLevenspiel(double reynolds)
    {
        Require.InRange(reynolds, double.Epsilon, 2.6e5);
        return (24 / reynolds * (1 + (0.1806 * Math.Pow(reynolds, 0.6459)))) + (0.4251 / (1 + (6880.95 / reynolds)));
    }

    /// <summary>Surface loading of a settler, m/h: flow over its plan.</summary>
    /// <param name="flowLPerMin">Flow, L/min.</param>
    /// <param name="areaM2">Plan, m².</param>
    /// <returns>Loading, m/h.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Davidson and Summerfelt (2005), Aquacultural Engineering 33:47-61: a radial-flow settler at 11.2 m/h removed 78 %, a swirl separator 37 %.</remarks>
    public static double SurfaceLoadingMPerH(double flowLPerMin, double areaM2)
    {
        Require.NotNegative(flowLPerMin);
        Require.Positive(areaM2);
        return flowLPerMin * 0.06 / areaM2;
    }

    /// <summary>Share of particles that an ideal settler takes out.</summary>
    /// <param name="velocityMmPerS">Settling velocity, mm/s.</param>
    /// <param name="surfaceLoadingMPerH">Surface loading, m/h, above 0.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Hazen (1904). Real settlers reach half to two thirds of it.</remarks>
    public static double IdealRemoval(double velocityMmPerS, double surfaceLoadingMPerH)
    {
        Require.NotNegative(velocityMmPerS);
        Require.Positive(surfaceLoadingMPerH);
        return Math.Min(1, velocityMmPerS * 3.6 / surfaceLoadingMPerH);
    }

    private static void Check(double diameterM, double particleKgPerM3, double fluidKgPerM3, double viscosityPaS, double gravityMPerS2)
    {
        Require.InRange(diameterM, 1e-9, 0.1);
        Require.InRange(particleKgPerM3, 1, 25_000);
        Require.InRange(fluidKgPerM3, 500, 2000);
        Require.InRange(viscosityPaS, 1e-5, 10);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
    }
}
