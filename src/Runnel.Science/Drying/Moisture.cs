namespace Runnel.Science.Drying;

/// <summary>What becomes of fresh produce.</summary>
/// <param name="PreparedKg">After trimming, kg.</param>
/// <param name="DriedKg">After drying, kg.</param>
/// <param name="WaterKg">Water removed, kg.</param>
/// <param name="Ratio">Fresh over dried.</param>
public readonly record struct DriedYield(double PreparedKg, double DriedKg, double WaterKg, double Ratio);

/// <summary>Moisture on wet and dry basis, and yields: they differ by a factor of several, so each name says which.</summary>
/// <remarks>Definitions; exact.</remarks>
public static class Moisture
{
    /// <summary>Dry basis from wet basis.</summary>
    /// <param name="wetBasis">Water over total, 0 to below 1.</param>
    /// <returns>Water over dry matter, kg/kg.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The input is NaN or out of range.</exception>
    public static double DryBasis(double wetBasis)
    {
        Require.InRange(wetBasis, 0, 0.9999);
        return wetBasis / (1 - wetBasis);
    }

    /// <summary>Wet basis from dry basis.</summary>
    /// <param name="dryBasis">Water over dry matter, kg/kg.</param>
    /// <returns>Water over total, 0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The input is NaN or negative.</exception>
    public static double WetBasis(double dryBasis)
    {
        Require.NotNegative(dryBasis);
        return dryBasis / (1 + dryBasis);
    }

    /// <summary>Yield of dried produce.</summary>
    /// <param name="freshKg">Fresh produce, kg.</param>
    /// <param name="trimFraction">Share trimmed off, 0 to below 1.</param>
    /// <param name="startWetBasis">Water over total at the start.</param>
    /// <param name="endWetBasis">Water over total at the end, up to the start.</param>
    /// <returns>Yield.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Balance of dry matter.</remarks>
    public static DriedYield Yield(double freshKg, double trimFraction, double startWetBasis, double endWetBasis)
    {
        Require.Positive(freshKg);
        Require.InRange(trimFraction, 0, 0.99);
        Require.InRange(startWetBasis, 0, 0.9999);
        Require.InRange(endWetBasis, 0, startWetBasis);
        double prepared = freshKg * (1 - trimFraction), dried = prepared * (1 - startWetBasis) / (1 - endWetBasis);
        return new DriedYield(prepared, dried, prepared - dried, freshKg / dried);
    }
}
