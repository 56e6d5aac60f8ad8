namespace Runnel.Science.Water;

/// <summary>How much of a product brings an element up: iron chelate, potassium and calcium salts, ammonia for cycling without fish.</summary>
/// <remarks>Balance of mass; as good as the strength on the label and the volume.</remarks>
public static class ElementDose
{
    /// <summary>Grams of product that raise an element in a volume.</summary>
    /// <param name="volumeL">Volume, L.</param>
    /// <param name="raiseMgPerL">Rise wanted, mg/L of the element (as N for ammonia).</param>
    /// <param name="elementFraction">Share of the element in the product, above 0 to 1: from the label, or from <see cref="ChemicalFormula"/>.</param>
    /// <returns>Grams.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double DoseG(double volumeL, double raiseMgPerL, double elementFraction)
    {
        Require.NotNegative(volumeL);
        Require.NotNegative(raiseMgPerL);
        Require.InRange(elementFraction, 1e-6, 1);
        return volumeL * raiseMgPerL / (1000 * elementFraction);
    }
}
