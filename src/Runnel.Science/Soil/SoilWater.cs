namespace Runnel.Science.Soil;

/// <summary>Root zone after a day.</summary>
/// <param name="Stress">Stress coefficient Ks, 0 to 1 (1 is none).</param>
/// <param name="EtcMm">Evapotranspiration that came about, mm.</param>
/// <param name="DepletionMm">Depletion at the end, mm: 0 is field capacity.</param>
/// <param name="PercolationMm">Lost below the roots, mm.</param>
public readonly record struct SoilWaterDay(double Stress, double EtcMm, double DepletionMm, double PercolationMm);

/// <summary>Water in the root zone after FAO-56.</summary>
/// <remarks>Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 8.</remarks>
public static class SoilWater
{
    /// <summary>Total available water of the root zone, mm.</summary>
    /// <param name="fieldCapacity">Water at field capacity, m³/m³.</param>
    /// <param name="wiltingPoint">Water at wilting point, m³/m³, up to field capacity.</param>
    /// <param name="rootDepthM">Root depth, m.</param>
    /// <returns>mm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 82.</remarks>
    public static double TotalAvailableMm(double fieldCapacity, double wiltingPoint, double rootDepthM)
    {
        Require.InRange(fieldCapacity, 0, 0.8);
        Require.InRange(wiltingPoint, 0, fieldCapacity);
        Require.InRange(rootDepthM, 0, 5);
        return 1000 * (fieldCapacity - wiltingPoint) * rootDepthM;
    }

    /// <summary>Share of the available water that goes before stress, by the day's use.</summary>
    /// <param name="tableShare">Share of table 22, for 5 mm a day.</param>
    /// <param name="etcMmPerDay">Crop evapotranspiration, mm a day.</param>
    /// <returns>0.1 to 0.8.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56, table 22 footnote: p + 0.04 (5 - ETc).</remarks>
    public static double DepletionShare(double tableShare, double etcMmPerDay)
    {
        Require.InRange(tableShare, 0, 1);
        Require.InRange(etcMmPerDay, 0, 30);
        return Math.Clamp(tableShare + (0.04 * (5 - etcMmPerDay)), 0.1, 0.8);
    }

    /// <summary>Stress coefficient Ks.</summary>
    /// <param name="depletionMm">Depletion, mm, 0 or more.</param>
    /// <param name="totalAvailableMm">Total available water, mm, above 0.</param>
    /// <param name="depletionShare">Share that goes before stress, 0 to below 1.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equation 84.</remarks>
    public static double Stress(double depletionMm, double totalAvailableMm, double depletionShare)
    {
        Require.NotNegative(depletionMm);
        Require.Positive(totalAvailableMm);
        Require.InRange(depletionShare, 0, 0.99);
        return Math.Clamp((totalAvailableMm - depletionMm) / ((1 - depletionShare) * totalAvailableMm), 0, 1);
    }

    /// <summary>One day's balance.</summary>
    /// <param name="depletionMm">Depletion at the start, mm.</param>
    /// <param name="totalAvailableMm">Total available water, mm.</param>
    /// <param name="depletionShare">Share that goes before stress.</param>
    /// <param name="etcMmPerDay">Evapotranspiration without stress, mm.</param>
    /// <param name="rainMm">Rain, mm.</param>
    /// <param name="runoffMm">Of it run off, mm, up to the rain.</param>
    /// <param name="irrigationMm">Irrigation that got in, mm.</param>
    /// <returns>The day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>FAO-56 equations 84 to 88; rain and irrigation count as early in the day, so the stress is that after them; nothing rises from below.</remarks>
    public static SoilWaterDay Day(
        double depletionMm, double totalAvailableMm, double depletionShare, double etcMmPerDay, double rainMm = 0, double runoffMm = 0, double irrigationMm = 0)
    {
        Require.NotNegative(etcMmPerDay);
        Require.NotNegative(rainMm);
        Require.InRange(runoffMm, 0, rainMm);
        Require.NotNegative(irrigationMm);
        double wetted = depletionMm - (rainMm - runoffMm) - irrigationMm;
        double stress = Stress(Math.Max(0, wetted), totalAvailableMm, depletionShare), used = stress * etcMmPerDay;
        double left = wetted + used;
        return new SoilWaterDay(stress, used, Math.Clamp(left, 0, totalAvailableMm), Math.Max(0, -left));
    }
}
