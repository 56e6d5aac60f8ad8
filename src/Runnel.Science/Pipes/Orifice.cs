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
}
