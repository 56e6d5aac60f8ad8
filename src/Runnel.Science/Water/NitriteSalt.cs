namespace Runnel.Science.Water;

/// <summary>A dose of salt against nitrite.</summary>
/// <param name="ChlorideTargetMgPerL">Chloride wanted, mg/L.</param>
/// <param name="ChlorideNeededMgPerL">Chloride to add, mg/L.</param>
/// <param name="SaltG">Salt to add, g.</param>
public readonly record struct SaltDose(double ChlorideTargetMgPerL, double ChlorideNeededMgPerL, double SaltG);

/// <summary>Chloride keeps nitrite out of the gills of many fish, not of all (not of largemouth bass), and plants suffer from much sodium.</summary>
/// <remarks>Durborow, Crosby and Brunson (1997), SRAC Publication 462.</remarks>
public static class NitriteSalt
{
    /// <summary>Share of chloride in pure salt (NaCl).</summary>
    public const double ChloridePerSalt = 35.453 / (35.453 + 22.98977);

    /// <summary>Salt that keeps chloride at a multiple of nitrite.</summary>
    /// <param name="volumeL">Volume, L.</param>
    /// <param name="no2MgNPerL">Nitrite, mg N/L (a kit that prints NO2 shows 3.28 times as much).</param>
    /// <param name="chlorideMgPerL">Chloride in the water already, mg/L.</param>
    /// <param name="ratio">Chloride over nitrite by weight, nitrite as NO2: 10.</param>
    /// <returns>Target, need and dose.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static SaltDose Dose(double volumeL, double no2MgNPerL, double chlorideMgPerL, double ratio = 10)
    {
        Require.NotNegative(volumeL);
        Require.NotNegative(chlorideMgPerL);
        Require.InRange(ratio, 0, 100);
        double target = ratio * NitrogenForms.FromNitrogenMgPerL(no2MgNPerL, NitrogenForm.Nitrite);
        double needed = Math.Max(0, target - chlorideMgPerL);
        return new SaltDose(target, needed, SaltForChlorideG(volumeL, needed));
    }

    /// <summary>Grams of pure salt that raise chloride.</summary>
    /// <param name="volumeL">Volume, L.</param>
    /// <param name="raiseMgPerL">Rise wanted, mg/L chloride.</param>
    /// <returns>Grams.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or negative.</exception>
    public static double SaltForChlorideG(double volumeL, double raiseMgPerL)
    {
        Require.NotNegative(volumeL);
        Require.NotNegative(raiseMgPerL);
        return volumeL * raiseMgPerL / (1000 * ChloridePerSalt);
    }
}
