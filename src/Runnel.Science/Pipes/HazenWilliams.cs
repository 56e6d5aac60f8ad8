namespace Runnel.Science.Pipes;

/// <summary>Loss of head in water mains and hoses by Hazen and Williams. Keep the constants as a set; exponents of other sets shift it by some percent.</summary>
/// <remarks>Williams and Hazen (1905), SI set 10.667, 1.852, 4.8704. For water near 15 to 20 °C, turbulent, bores above 25 mm or so.</remarks>
public static class HazenWilliams
{
    private const double Factor = 10.667, FlowPower = 1.852, BorePower = 4.8704;

    /// <summary>Loss at a flow, m.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="lengthM">Length, m.</param>
    /// <param name="diameterM">Bore, m.</param>
    /// <param name="c">Roughness coefficient: plastic 150, old iron 100.</param>
    /// <returns>Loss, m.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double HeadLossM(double flowM3PerS, double lengthM, double diameterM, double c)
    {
        Require.NotNegative(flowM3PerS);
        Require.NotNegative(lengthM);
        Require.Positive(diameterM);
        Require.InRange(c, 20, 200);
        return Factor * lengthM * Math.Pow(flowM3PerS / c, FlowPower) / Math.Pow(diameterM, BorePower);
    }

    /// <summary>Loss in US units with the constants of EPANET (4.727, 1.852, 4.871), ft.</summary>
    /// <param name="flowFt3PerS">Flow, ft³/s.</param>
    /// <param name="lengthFt">Length, ft.</param>
    /// <param name="diameterFt">Bore, ft.</param>
    /// <param name="c">Roughness coefficient.</param>
    /// <returns>Loss, ft.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>EPANET 2.2 User Manual, table 3.1.</remarks>
    public static double HeadLossFt(double flowFt3PerS, double lengthFt, double diameterFt, double c)
    {
        Require.NotNegative(flowFt3PerS);
        Require.NotNegative(lengthFt);
        Require.Positive(diameterFt);
        Require.InRange(c, 20, 200);
        return 4.727 * lengthFt * Math.Pow(flowFt3PerS / c, FlowPower) / Math.Pow(diameterFt, 4.871);
    }

    /// <summary>Share of the flow that is left when slime narrows the bore, at the same head.</summary>
    /// <param name="diameterRatio">Bore now over bore before, above 0 to 1.</param>
    /// <returns>Flow ratio.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is NaN or out of range.</exception>
    public static double FlowRatioOfBore(double diameterRatio)
    {
        Require.InRange(diameterRatio, 1e-6, 1);
        return Math.Pow(diameterRatio, BorePower / FlowPower);
    }

    /// <summary>Factor on the loss when the coefficient falls, at the same flow.</summary>
    /// <param name="cBefore">Coefficient before.</param>
    /// <param name="cNow">Coefficient now.</param>
    /// <returns>Loss now over loss before. At the same head the flow falls as the coefficient.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double HeadLossRatioOfC(double cBefore, double cNow)
    {
        Require.InRange(cBefore, 20, 200);
        Require.InRange(cNow, 20, 200);
        return Math.Pow(cBefore / cNow, FlowPower);
    }
}
