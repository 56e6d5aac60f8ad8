namespace Runnel.Science.Fish;

/// <summary>Sums of feeding and stocking, by definition.</summary>
/// <remarks>Definitions; exact. Rations in print: 1 to 2 % of body weight a day at grow-out (FAO Fisheries Technical Paper 589, 2014,
/// section 7.2); density below 20 kg/m³ in small systems (its key guidelines).</remarks>
public static class Stocking
{
    /// <summary>Daily ration, g.</summary>
    /// <param name="biomassKg">Weight of all fish, kg.</param>
    /// <param name="percentOfBodyWeight">Ration, % of body weight a day.</param>
    /// <returns>g a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double RationGPerDay(double biomassKg, double percentOfBodyWeight)
    {
        Require.NotNegative(biomassKg);
        Require.InRange(percentOfBodyWeight, 0, 30);
        return biomassKg * 10 * percentOfBodyWeight;
    }

    /// <summary>Fish that a feed feeds, kg.</summary>
    /// <param name="feedGPerDay">Feed, g a day.</param>
    /// <param name="percentOfBodyWeight">Ration, % of body weight a day, above 0.</param>
    /// <returns>kg.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double BiomassKg(double feedGPerDay, double percentOfBodyWeight)
    {
        Require.NotNegative(feedGPerDay);
        Require.InRange(percentOfBodyWeight, 1e-3, 30);
        return feedGPerDay / (10 * percentOfBodyWeight);
    }

    /// <summary>Feed conversion: feed over growth.</summary>
    /// <param name="feedKg">Feed given, kg.</param>
    /// <param name="gainKg">Growth, kg, above 0.</param>
    /// <returns>Ratio; 1.4 to 1.8 is realistic.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double FeedConversion(double feedKg, double gainKg)
    {
        Require.NotNegative(feedKg);
        Require.Positive(gainKg);
        return feedKg / gainKg;
    }

    /// <summary>Stocking density, kg/m³.</summary>
    /// <param name="biomassKg">Weight of all fish, kg.</param>
    /// <param name="tankL">Tank, L.</param>
    /// <returns>kg/m³; beginners stay below 20 (FAO 589).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double DensityKgPerM3(double biomassKg, double tankL)
    {
        Require.NotNegative(biomassKg);
        Require.Positive(tankL);
        return 1000 * biomassKg / tankL;
    }

    /// <summary>Tank for a biomass at a density, L.</summary>
    /// <param name="biomassKg">Weight of all fish, kg.</param>
    /// <param name="densityKgPerM3">Density, kg/m³.</param>
    /// <returns>L.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double TankL(double biomassKg, double densityKgPerM3)
    {
        Require.NotNegative(biomassKg);
        Require.Positive(densityKgPerM3);
        return 1000 * biomassKg / densityKgPerM3;
    }
}
