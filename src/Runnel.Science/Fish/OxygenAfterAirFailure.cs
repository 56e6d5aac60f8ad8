namespace Runnel.Science.Fish;

/// <summary>Dissolved oxygen of a tank once its air has stopped. Warm water and feeding shorten the time: treat it as an upper bound.</summary>
/// <remarks>Two-film gas transfer (Lewis and Whitman 1924) through the surface with a respiration that does not fall with oxygen.</remarks>
public static class OxygenAfterAirFailure
{
    /// <summary>Oxygen at which transfer and respiration balance, mg/L.</summary>
    /// <param name="saturationMgPerL">Saturation, mg/L.</param>
    /// <param name="transferPerH">Transfer coefficient kLa, 1/h, above 0.</param>
    /// <param name="respirationMgPerLH">Oxygen used by fish and bacteria, mg/L and hour.</param>
    /// <returns>Steady oxygen, mg/L; below 0 where the demand cannot be met.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double SteadyMgPerL(double saturationMgPerL, double transferPerH, double respirationMgPerLH)
    {
        Require.InRange(saturationMgPerL, 0, 60);
        Require.Positive(transferPerH);
        Require.NotNegative(respirationMgPerLH);
        return saturationMgPerL - (respirationMgPerLH / transferPerH);
    }

    /// <summary>How fast oxygen changes, mg/L and hour.</summary>
    /// <param name="doMgPerL">Oxygen now, mg/L.</param>
    /// <param name="saturationMgPerL">Saturation, mg/L.</param>
    /// <param name="transferPerH">Transfer coefficient that is left (the still surface: 0 to 0.3), 1/h.</param>
    /// <param name="respirationMgPerLH">Oxygen used, mg/L and hour.</param>
    /// <returns>Slope; negative while it falls.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double SlopeMgPerLH(double doMgPerL, double saturationMgPerL, double transferPerH, double respirationMgPerLH)
    {
        Require.InRange(doMgPerL, 0, 60);
        Require.InRange(saturationMgPerL, 0, 60);
        Require.NotNegative(transferPerH);
        Require.NotNegative(respirationMgPerLH);
        return (transferPerH * (saturationMgPerL - doMgPerL)) - respirationMgPerLH;
    }

    /// <summary>Oxygen after some hours, mg/L.</summary>
    /// <param name="hours">Time since the air stopped, h.</param>
    /// <param name="startMgPerL">Oxygen then, mg/L.</param>
    /// <param name="saturationMgPerL">Saturation, mg/L.</param>
    /// <param name="transferPerH">Transfer coefficient that is left, 1/h.</param>
    /// <param name="respirationMgPerLH">Oxygen used, mg/L and hour.</param>
    /// <returns>Oxygen, mg/L; below 0 the fish are long dead and the respiration supposed no longer exists.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double AfterMgPerL(
        double hours, double startMgPerL, double saturationMgPerL, double transferPerH, double respirationMgPerLH)
    {
        Require.NotNegative(hours);
        double slope = SlopeMgPerLH(startMgPerL, saturationMgPerL, transferPerH, respirationMgPerLH);
        // The limit of (1 - exp(-k t))/k without transfer is t.
        return startMgPerL + (slope * (transferPerH > 0 ? -double.ExpM1(-transferPerH * hours) / transferPerH : hours));
    }

    /// <summary>Hours until oxygen has fallen to a level.</summary>
    /// <param name="levelMgPerL">The level, mg/L.</param>
    /// <param name="startMgPerL">Oxygen when the air stopped, mg/L.</param>
    /// <param name="saturationMgPerL">Saturation, mg/L.</param>
    /// <param name="transferPerH">Transfer coefficient that is left, 1/h.</param>
    /// <param name="respirationMgPerLH">Oxygen used, mg/L and hour.</param>
    /// <returns>Hours; 0 when it is there already, infinite when it never gets there.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double HoursTo(
        double levelMgPerL, double startMgPerL, double saturationMgPerL, double transferPerH, double respirationMgPerLH)
    {
        Require.InRange(levelMgPerL, 0, 60);
        double slope = SlopeMgPerLH(startMgPerL, saturationMgPerL, transferPerH, respirationMgPerLH);
        double fall = startMgPerL - levelMgPerL;
        if (fall <= 0) return 0;
        if (slope >= 0) return double.PositiveInfinity;
        double share = fall * transferPerH / -slope;
        return transferPerH == 0 ? fall / -slope : share >= 1 ? double.PositiveInfinity : -double.LogP1(-share) / transferPerH;
    }
}
