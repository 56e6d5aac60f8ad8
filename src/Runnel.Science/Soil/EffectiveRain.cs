namespace Runnel.Science.Soil;

/// <summary>Rain of a month that ends up in the root zone: the rules of thumb differ, so each is named.</summary>
public static class EffectiveRain
{
    /// <summary>Effective rain on level ground, mm a month, after the FAO training manual.</summary>
    /// <param name="rainMmPerMonth">Rain, mm a month.</param>
    /// <returns>Effective rain, mm a month.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The rain is NaN or negative.</exception>
    /// <remarks>FAO Irrigation Water Management Training Manual 3: 0.6 P - 10 up to 75 mm, 0.8 P - 25 above.</remarks>
    public static double TrainingManualMmPerMonth(double rainMmPerMonth)
    {
        Require.NotNegative(rainMmPerMonth);
        return Math.Max(0, rainMmPerMonth <= 75 ? (0.6 * rainMmPerMonth) - 10 : (0.8 * rainMmPerMonth) - 25);
    }

    /// <summary>Effective dependable rain, mm a month.</summary>
    /// <param name="rainMmPerMonth">Rain, mm a month.</param>
    /// <returns>Effective rain, mm a month.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The rain is NaN or negative.</exception>
    /// <remarks>FAO/AGLW: 0.6 P - 10 up to 70 mm, 0.8 P - 24 above.</remarks>
    public static double DependableMmPerMonth(double rainMmPerMonth)
    {
        Require.NotNegative(rainMmPerMonth);
        return Math.Max(0, rainMmPerMonth <= 70 ? (0.6 * rainMmPerMonth) - 10 : (0.8 * rainMmPerMonth) - 24);
    }

    /// <summary>Effective rain by the two-branch monthly formula of the Soil Conservation Service, mm a month.</summary>
    /// <param name="rainMmPerMonth">Rain, mm a month.</param>
    /// <returns>Effective rain, mm a month.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The rain is NaN or negative.</exception>
    /// <remarks>USDA SCS, as given by FAO: P (125 - 0.2 P)/125 up to 250 mm, 125 + 0.1 P above.</remarks>
    public static double TwoBranchMmPerMonth(double rainMmPerMonth)
    {
        Require.NotNegative(rainMmPerMonth);
        return rainMmPerMonth <= 250 ? rainMmPerMonth * (125 - (0.2 * rainMmPerMonth)) / 125 : 125 + (0.1 * rainMmPerMonth);
    }

    /// <summary>Effective rain from rain, crop use and soil storage, mm a month.</summary>
    /// <param name="rainMmPerMonth">Rain, mm a month.</param>
    /// <param name="etcMmPerMonth">Crop evapotranspiration, mm a month.</param>
    /// <param name="storageMm">Usable soil storage, mm, 10 to 200.</param>
    /// <returns>Effective rain, mm a month; never above the rain (the crop's use does not cap it).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>USDA SCS Technical Release 21; National Engineering Handbook part 623 chapter 2, equation 2-84, in inches:
    /// SF (0.70917 P^0.82416 - 0.11556) 10^(0.02426 ETc), SF = 0.531747 + 0.295164 D - 0.057697 D² + 0.003804 D³.</remarks>
    public static double StorageBasedMmPerMonth(double rainMmPerMonth, double etcMmPerMonth, double storageMm)
    {
        Require.NotNegative(rainMmPerMonth);
        Require.NotNegative(etcMmPerMonth);
        Require.InRange(storageMm, 10, 200);
        double rain = rainMmPerMonth / 25.4, etc = etcMmPerMonth / 25.4, depth = storageMm / 25.4;
        double factor = 0.531747 + (depth * (0.295164 + (depth * (-0.057697 + (0.003804 * depth)))));
        double effective = factor * ((0.70917 * Math.Pow(rain, 0.82416)) - 0.11556) * Math.Pow(10, 0.02426 * etc);
        return 25.4 * Math.Clamp(effective, 0, rain);
    }
}
