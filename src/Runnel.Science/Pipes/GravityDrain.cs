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

    /// <summary>A siphon once primed, with the friction of its pipe.</summary>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="outletBelowSurfaceM">Fall from the surface to the outlet, m.</param>
    /// <param name="crestAboveSurfaceM">Height of the crest above the surface, m.</param>
    /// <param name="sumOfK">Sum of the fittings' K, the entrance with them.</param>
    /// <param name="lengthM">Length, m.</param>
    /// <param name="roughnessMm">Roughness, mm.</param>
    /// <param name="shareBeforeCrest">Share of the losses before the crest: half.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>As <see cref="Siphon"/>, the friction factor that of <see cref="FrictionFactor.Darcy"/> at the flow.</remarks>
    public static SiphonState SiphonOfPipe(
        double diameterM, double outletBelowSurfaceM, double crestAboveSurfaceM, double sumOfK, double lengthM, double roughnessMm,
        double shareBeforeCrest = 0.5, double viscosityM2PerS = 1.004e-6, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.NotNegative(sumOfK);
        var flow = PipeFlow.AtHeadLoss(outletBelowSurfaceM, lengthM, diameterM, roughnessMm, sumOfK + 1, viscosityM2PerS, gravityMPerS2);
        return Siphon(diameterM, outletBelowSurfaceM, crestAboveSurfaceM, sumOfK, lengthM, flow.Friction, shareBeforeCrest, gravityMPerS2);
    }

    /// <summary>Height of a siphon's crest above the surface at which it breaks, m; build well below it, since air comes out of the water sooner.</summary>
    /// <param name="airPressureKPa">Air pressure, kPa.</param>
    /// <param name="vapourPressureKPa">Vapour pressure of the water, kPa.</param>
    /// <param name="velocityMPerS">Velocity in the pipe, m/s.</param>
    /// <param name="kBeforeCrest">Losses before the crest, as K.</param>
    /// <param name="specificWeightKNPerM3">Specific weight, kN/m³.</param>
    /// <returns>m.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Energy equation with the absolute pressure at the crest down to the vapour pressure.</remarks>
    public static double GreatestCrestM(
        double airPressureKPa, double vapourPressureKPa, double velocityMPerS, double kBeforeCrest, double specificWeightKNPerM3 = 9.79)
    {
        Require.InRange(airPressureKPa, 1, 200);
        Require.InRange(vapourPressureKPa, 0, airPressureKPa);
        Require.InRange(velocityMPerS, 0, 50);
        Require.NotNegative(kBeforeCrest);
        Require.InRange(specificWeightKNPerM3, 9, 11);
        return ((airPressureKPa - vapourPressureKPa) / specificWeightKNPerM3) - ((1 + kBeforeCrest) * velocityMPerS * velocityMPerS / (2 * PipeFlow.GravityMPerS2));
    }
}
