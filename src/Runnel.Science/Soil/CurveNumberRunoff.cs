namespace Runnel.Science.Soil;

/// <summary>Runoff of a storm by the curve number method.</summary>
public static class CurveNumberRunoff
{
    /// <summary>Runoff of a storm, mm.</summary>
    /// <param name="rainMm">Depth of the storm, mm.</param>
    /// <param name="curveNumber">Curve number, above 0 to 100: 98 for paving, 60 to 80 for lawns and beds.</param>
    /// <param name="initialShare">Share of the retention that goes before any runoff: 0.2.</param>
    /// <returns>Runoff, mm; 0 while the initial loss is not used up.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>USDA SCS (1972), National Engineering Handbook section 4.</remarks>
    public static double RunoffMm(double rainMm, double curveNumber, double initialShare = 0.2)
    {
        Require.NotNegative(rainMm);
        Require.InRange(curveNumber, 1, 100);
        Require.InRange(initialShare, 0, 1);
        double retention = (25400 / curveNumber) - 254;
        double excess = rainMm - (initialShare * retention);
        return excess <= 0 ? 0 : excess * excess / (excess + retention);
    }
}
