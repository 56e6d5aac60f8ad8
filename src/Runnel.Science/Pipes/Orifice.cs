namespace Runnel.Science.Pipes;

/// <summary>Free discharge through round holes, and an orifice plate as a meter.</summary>
public static class Orifice
{
    /// <summary>Flow through a hole, m³/s.</summary>
    /// <param name="diameterM">Diameter, m.</param>
    /// <param name="headM">Head over its centre, m, 0 or more.</param>
    /// <param name="coefficient">Discharge coefficient: sharp edge 0.6 to 0.62, rounded 0.98.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Flow, m³/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Torricelli with a discharge coefficient.</remarks>
    public static double FlowM3PerS(double diameterM, double headM, double coefficient = 0.61, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.Positive(diameterM);
        Require.NotNegative(headM);
        Require.InRange(coefficient, 0.3, 1);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
        return coefficient * Math.PI * diameterM * diameterM / 4 * Math.Sqrt(2 * gravityMPerS2 * headM);
    }

    /// <summary>Flow coefficient of an orifice plate in a pipe, C/sqrt(1 - beta^4), corner taps.</summary>
    /// <param name="diameterRatio">Bore of the plate over bore of the pipe, 0.2 to 0.75.</param>
    /// <param name="reynolds">Reynolds number in the pipe, 5000 or more.</param>
    /// <returns>Flow coefficient.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Stolz (1978), as in ISO 5167 of 1980; from memory.</remarks>
    public static double PlateCoefficient(double diameterRatio, double reynolds)
    {
        Require.InRange(diameterRatio, 0.2, 0.75);
        Require.InRange(reynolds, 5000, 1e9);
        double b = diameterRatio;
        double c = 0.5959 + (0.0312 * Math.Pow(b, 2.1)) - (0.184 * Math.Pow(b, 8)) + (91.71 * Math.Pow(b, 2.5) * Math.Pow(reynolds, -0.75));
        return c / Math.Sqrt(1 - (b * b * b * b));
    }

    /// <summary>Flow through an orifice plate in a pipe, m³/s.</summary>
    /// <param name="boreM">Bore of the plate, m.</param>
    /// <param name="pipeDiameterM">Bore of the pipe, m.</param>
    /// <param name="headDifferenceM">Difference of head over the plate, m of the fluid, above 0.</param>
    /// <param name="viscosityM2PerS">Kinematic viscosity, m²/s.</param>
    /// <returns>Flow, m³/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range; also where the flow is too slow for the coefficient.</exception>
    /// <remarks><see cref="PlateCoefficient"/>, found together with its Reynolds number.</remarks>
    public static double PlateFlowM3PerS(double boreM, double pipeDiameterM, double headDifferenceM, double viscosityM2PerS = 1.004e-6)
    {
        Require.Positive(boreM);
        Require.Positive(pipeDiameterM);
        Require.InRange(headDifferenceM, 1e-6, 1000);
        Require.InRange(viscosityM2PerS, 1e-8, 1);
        double ideal = Math.PI * boreM * boreM / 4 * Math.Sqrt(2 * PipeFlow.GravityMPerS2 * headDifferenceM), coefficient = 0.62;
        for (int i = 0; i < 20; i++) coefficient = PlateCoefficient(boreM / pipeDiameterM, 4 * coefficient * ideal / (Math.PI * pipeDiameterM * viscosityM2PerS));
        return coefficient * ideal;
    }
}
