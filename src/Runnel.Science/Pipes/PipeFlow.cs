namespace Runnel.Science.Pipes;

/// <summary>Flow in a full round pipe.</summary>
/// <param name="FlowM3PerS">Flow, m³/s.</param>
/// <param name="HeadLossM">Loss of head to friction and fittings, m.</param>
/// <param name="VelocityMPerS">Velocity, m/s.</param>
/// <param name="Reynolds">Reynolds number.</param>
/// <param name="Friction">Darcy friction factor; 0 without flow.</param>
public readonly record struct PipeState(double FlowM3PerS, double HeadLossM, double VelocityMPerS, double Reynolds, double Friction);

/// <summary>A full round pipe with its fittings: loss from flow, and flow from loss.</summary>
/// <remarks>Darcy and Weisbach with <see cref="FrictionFactor.Darcy"/>; minor losses as K V²/2g.</remarks>
public static class PipeFlow
{
    /// <summary>Standard gravity, m/s².</summary>
    public const double GravityMPerS2 = 9.80665;

    /// <summary>Loss at a flow.</summary>
    /// <param name="flowM3PerS">Flow, m³/s, 0 or more.</param>
    /// <param name="lengthM">Length, m.</param>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="roughnessMm">Roughness, mm: plastic 0.0015 to 0.007, steel 0.046.</param>
    /// <param name="minorK">Sum of the fittings' K (see <see cref="MinorLoss"/>).</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s: water at 20 °C 1.004e-6.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static PipeState AtFlow(
        double flowM3PerS, double lengthM, double diameterM, double roughnessMm, double minorK = 0, double viscosityM2PerS = 1.004e-6,
        double gravityMPerS2 = GravityMPerS2)
    {
        Require.NotNegative(flowM3PerS);
        Check(lengthM, diameterM, roughnessMm, minorK, viscosityM2PerS, gravityMPerS2);
        if (flowM3PerS == 0) return default;
        double velocity = flowM3PerS / (Math.PI * diameterM * diameterM / 4), reynolds = velocity * diameterM / viscosityM2PerS;
        double friction = FrictionFactor.Darcy(reynolds, roughnessMm / 1000 / diameterM);
        double loss = ((friction * lengthM / diameterM) + minorK) * velocity * velocity / (2 * gravityMPerS2);
        return new PipeState(flowM3PerS, loss, velocity, reynolds, friction);
    }

    /// <summary>Flow that a head drives.</summary>
    /// <param name="headLossM">Head available, m, 0 or more.</param>
    /// <param name="lengthM">Length, m.</param>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="roughnessMm">Roughness, mm.</param>
    /// <param name="minorK">Sum of the fittings' K; add 1 where the velocity head at the outlet is lost.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>State.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range, or the pipe has neither length nor fittings.</exception>
    /// <remarks>The loss rises with the flow, so false position inside a bracket cannot fail.</remarks>
    public static PipeState AtHeadLoss(
        double headLossM, double lengthM, double diameterM, double roughnessMm, double minorK = 0, double viscosityM2PerS = 1.004e-6,
        double gravityMPerS2 = GravityMPerS2)
    {
        Require.NotNegative(headLossM);
        Check(lengthM, diameterM, roughnessMm, minorK, viscosityM2PerS, gravityMPerS2);
        if (lengthM == 0 && minorK == 0) throw new ArgumentOutOfRangeException(nameof(lengthM), lengthM, "a pipe without length needs minorK above 0");
        if (headLossM == 0) return default;
        double Loss(double flow) => AtFlow(flow, lengthM, diameterM, roughnessMm, minorK, viscosityM2PerS, gravityMPerS2).HeadLossM;
        double high = Math.PI * diameterM * diameterM / 4 * Math.Sqrt(2 * gravityMPerS2 * headLossM);
        double low = 0;
        while (Loss(high) < headLossM) high *= 2;
        for (int i = 0; i < 200 && high - low > 1e-14 * high; i++)
        {
            double middle = (low + high) / 2;
            if (Loss(middle) < headLossM) low = middle;
            else high = middle;
        }

        return AtFlow((low + high) / 2, lengthM, diameterM, roughnessMm, minorK, viscosityM2PerS, gravityMPerS2);
    }

    /// <summary>Flow at a loss, explicit, friction only: within 1 % of Colebrook.</summary>
    /// <param name="headLossM">Head lost, m.</param>
    /// <param name="lengthM">Length, m.</param>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="roughnessMm">Roughness, mm.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Flow, m³/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Swamee and Jain (1976).</remarks>
    public static double ExplicitFlowM3PerS(
        double headLossM, double lengthM, double diameterM, double roughnessMm, double viscosityM2PerS = 1.004e-6, double gravityMPerS2 = GravityMPerS2)
    {
        Require.Positive(headLossM);
        Require.Positive(lengthM);
        Check(lengthM, diameterM, roughnessMm, 0, viscosityM2PerS, gravityMPerS2);
        double cube = diameterM * diameterM * diameterM, drive = gravityMPerS2 * cube * headLossM / lengthM;
        return -0.965 * Math.Sqrt(drive * diameterM * diameterM)
            * Math.Log((roughnessMm / 1000 / (3.7 * diameterM)) + Math.Sqrt(3.17 * viscosityM2PerS * viscosityM2PerS / drive));
    }

    /// <summary>Bore that carries a flow at a loss, friction only, m.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="headLossM">Head to lose, m.</param>
    /// <param name="lengthM">Length, m.</param>
    /// <param name="roughnessMm">Roughness, mm.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Bore, m; take the next size up.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Swamee and Jain (1976), within 2 %.</remarks>
    public static double BoreM(
        double flowM3PerS, double headLossM, double lengthM, double roughnessMm, double viscosityM2PerS = 1.004e-6, double gravityMPerS2 = GravityMPerS2)
    {
        Require.Positive(flowM3PerS);
        Require.Positive(headLossM);
        Require.Positive(lengthM);
        Check(lengthM, 1, roughnessMm, 0, viscosityM2PerS, gravityMPerS2);
        double drive = gravityMPerS2 * headLossM / lengthM;
        return 0.66 * Math.Pow((Math.Pow(roughnessMm / 1000, 1.25) * Math.Pow(flowM3PerS * flowM3PerS / drive, 4.75))
            + (viscosityM2PerS * Math.Pow(flowM3PerS, 9.4) * Math.Pow(1 / drive, 5.2)), 0.04);
    }

    private static void Check(double lengthM, double diameterM, double roughnessMm, double minorK, double viscosityM2PerS, double gravityMPerS2)
    {
        Require.NotNegative(lengthM);
        Require.Positive(diameterM);
        Require.InRange(roughnessMm, 0, 100 * diameterM);
        Require.NotNegative(minorK);
        Require.InRange(viscosityM2PerS, 1e-8, 1);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
    }

    /// <summary>Share of the flow that is left when slime or scale narrows the bore, at the same head and friction factor.</summary>
    /// <param name="diameterRatio">Bore now over bore before, above 0 to 1.</param>
    /// <returns>Flow ratio.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is NaN or out of range.</exception>
    /// <remarks>Darcy and Weisbach: flow with the bore to 2.5. A rougher wall takes some more.</remarks>
    public static double FlowRatioOfBore(double diameterRatio)
    {
        Require.InRange(diameterRatio, 1e-6, 1);
        return Math.Pow(diameterRatio, 2.5);
    }
}
