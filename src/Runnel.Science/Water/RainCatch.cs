namespace Runnel.Science.Water;

/// <summary>Water caught from a roof or other catchment: 1 mm on 1 m² is 1 L.</summary>
public static class RainCatch
{
    /// <summary>Litres caught from a rain.</summary>
    /// <param name="rainMm">Depth of rain, mm.</param>
    /// <param name="areaM2">Catchment in plan, m².</param>
    /// <param name="runoffCoefficient">Share that runs off, 0 to 1: metal roofs 0.7 to 1, concrete 0.6 to 0.8 (Pacey and Cullis 1986).</param>
    /// <param name="firstFlushMm">Depth diverted at the start, mm over the plan area, taken after the runoff coefficient.</param>
    /// <returns>Litres.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Definition; taking the first flush after the coefficient is common practice, and others take it before.</remarks>
    public static double YieldL(double rainMm, double areaM2, double runoffCoefficient = 1, double firstFlushMm = 0)
    {
        Require.NotNegative(rainMm);
        Require.NotNegative(areaM2);
        Require.InRange(runoffCoefficient, 0, 1);
        Require.NotNegative(firstFlushMm);
        return Math.Max(0, (rainMm * runoffCoefficient) - firstFlushMm) * areaM2;
    }

    /// <summary>Litres caught in a month after Martin: a part of each month's rain only wets the roof.</summary>
    /// <param name="rainMmPerMonth">Rain of the month, mm.</param>
    /// <param name="areaM2">Catchment in plan, m².</param>
    /// <param name="efficiency">Share of the rest that is caught: 0.8 to 0.85.</param>
    /// <param name="wettingMmPerMonth">Lost to wetting and evaporation, mm a month: 2.</param>
    /// <returns>Litres a month.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Martin (1980), as quoted in the enHealth guidance on rainwater tanks (Australia).</remarks>
    public static double MonthlyYieldL(double rainMmPerMonth, double areaM2, double efficiency = 0.85, double wettingMmPerMonth = 2)
    {
        Require.NotNegative(rainMmPerMonth);
        Require.NotNegative(areaM2);
        Require.InRange(efficiency, 0, 1);
        Require.NotNegative(wettingMmPerMonth);
        return efficiency * Math.Max(0, rainMmPerMonth - wettingMmPerMonth) * areaM2;
    }
}
