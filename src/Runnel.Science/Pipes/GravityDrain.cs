namespace Runnel.Science.Pipes;

/// <summary>A running siphon.</summary>
/// <param name="VelocityMPerS">Velocity, m/s.</param>
/// <param name="FlowLPerMin">Flow, L/min.</param>
/// <param name="CrestHeadM">Gauge head at the crest, m, below 0: past about -7 to -8 m at sea level it breaks.</param>
public readonly record struct SiphonState(double VelocityMPerS, double FlowLPerMin, double CrestHeadM);

/// <summary>Full pipes that run by gravity: drains and siphons.</summary>
/// <remarks>Energy equation with losses as K V²/2g.</remarks>
public static class GravityDrain
{
    /// <summary>Level over a drain that carries a flow, m.</summary>
    /// <param name="flowLPerMin">Flow, L/min.</param>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="sumOfK">Sum of all loss coefficients on that bore; a clog raises it.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Level, m: (1 + K) V²/2g.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double LevelM(double flowLPerMin, double diameterM, double sumOfK, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.NotNegative(flowLPerMin);
        Require.Positive(diameterM);
        Require.NotNegative(sumOfK);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
        double velocity = flowLPerMin / 60_000 / (Math.PI * diameterM * diameterM / 4);
        return (1 + sumOfK) * velocity * velocity / (2 * gravityMPerS2);
    }

    /// <summary>A siphon once primed.</summary>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="outletBelowSurfaceM">Fall from the surface to the outlet, m.</param>
    /// <param name="crestAboveSurfaceM">Height of the crest above the surface, m.</param>
    /// <param name="sumOfK">Sum of the fittings' K.</param>
    /// <param name="lengthM">Length, m.</param>
    /// <param name="friction">Darcy friction factor.</param>
    /// <param name="shareBeforeCrest">Share of the losses before the crest: half.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static SiphonState Siphon(
        double diameterM, double outletBelowSurfaceM, double crestAboveSurfaceM, double sumOfK, double lengthM, double friction,
        double shareBeforeCrest = 0.5, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.Positive(diameterM);
        Require.NotNegative(outletBelowSurfaceM);
        Require.InRange(crestAboveSurfaceM, 0, 10);
        Require.NotNegative(sumOfK);
        Require.NotNegative(lengthM);
        Require.InRange(friction, 0, 1);
        Require.InRange(shareBeforeCrest, 0, 1);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
        double losses = sumOfK + (friction * lengthM / diameterM), velocityHead = outletBelowSurfaceM / (1 + losses);
        double velocity = Math.Sqrt(2 * gravityMPerS2 * velocityHead);
        return new SiphonState(
            velocity, 60_000 * velocity * Math.PI * diameterM * diameterM / 4, -(crestAboveSurfaceM + ((1 + (shareBeforeCrest * losses)) * velocityHead)));
    }
}
