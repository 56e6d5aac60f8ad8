namespace Runnel.Science.Pipes;

/// <summary>Flow over thin-plate weirs, m³/s, from the height of the water over the crest, measured a few heads upstream.</summary>
/// <remarks>Keep the nappe free of the plate: heads above 3 cm or so.</remarks>
public static class Weir
{
    /// <summary>V-notch.</summary>
    /// <param name="headM">Head over the notch, m, above 0 to 2.</param>
    /// <param name="notchDeg">Angle of the notch, degrees, 20 to 100.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Flow, m³/s, within 2 to 3 %.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Kindsvater and Shen: Shen (1981), US Geological Survey Water-Supply Paper 1617-B, as in ISO 1438; the polynomials of coefficient and head
    /// correction are from memory. At 90° it is about 1.37 h^2.5.</remarks>
    public static double VNotchM3PerS(double headM, double notchDeg, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Require.InRange(headM, 1e-6, 2);
        Require.InRange(notchDeg, 20, 100);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
        double coefficient = 0.607165052 + (notchDeg * (-0.000874466963 + (6.10393334e-6 * notchDeg)));
        double correctionFt = 0.0144902648 + (notchDeg * (-0.00033955535 + (notchDeg * (3.29819003e-6 - (1.06215442e-8 * notchDeg)))));
        return 8.0 / 15 * coefficient * Math.Sqrt(2 * gravityMPerS2) * Math.Tan(notchDeg * Math.PI / 360)
            * Math.Pow(headM + (correctionFt * Conversions.MPerFoot), 2.5);
    }

    /// <summary>Full-width rectangular weir, Kindsvater and Carter.</summary>
    /// <param name="headM">Head over the crest, m.</param>
    /// <param name="crestHeightM">Height of the crest above the floor, m.</param>
    /// <param name="widthM">Width, m.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Flow, m³/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Kindsvater and Carter (1957), as in ISO 1438: (2/3)(0.602 + 0.075 h/p) sqrt(2g)(b - 0.001)(h + 0.001)^1.5.</remarks>
    public static double RectangularM3PerS(double headM, double crestHeightM, double widthM, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Check(headM, crestHeightM, widthM, gravityMPerS2);
        return 2.0 / 3 * (0.602 + (0.075 * headM / crestHeightM)) * Math.Sqrt(2 * gravityMPerS2) * (widthM - 0.001) * Math.Pow(headM + 0.001, 1.5);
    }

    /// <summary>Rectangular weir narrower than its channel, in the simple form of Kindsvater and Carter.</summary>
    /// <param name="headM">Head over the crest, m.</param>
    /// <param name="crestHeightM">Height of the crest above the floor, m.</param>
    /// <param name="widthM">Width of the opening, m.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Flow, m³/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>0.554 (1 - 0.0035 h/p)(b + 0.0025) sqrt(g)(h + 0.0001)^1.5, as in the tests of the open library fluids 1.3.1.</remarks>
    public static double NarrowRectangularM3PerS(double headM, double crestHeightM, double widthM, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Check(headM, crestHeightM, widthM, gravityMPerS2);
        return 0.554 * (1 - (0.0035 * headM / crestHeightM)) * (widthM + 0.0025) * Math.Sqrt(gravityMPerS2) * Math.Pow(headM + 0.0001, 1.5);
    }

    /// <summary>Full-width rectangular weir, Rehbock.</summary>
    /// <param name="headM">Head over the crest, m.</param>
    /// <param name="crestHeightM">Height of the crest above the floor, m.</param>
    /// <param name="widthM">Width, m.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Flow, m³/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Rehbock (1929): (2/3)(0.602 + 0.0832 h/p) sqrt(2g) b (h + 0.00125)^1.5.</remarks>
    public static double RehbockM3PerS(double headM, double crestHeightM, double widthM, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Check(headM, crestHeightM, widthM, gravityMPerS2);
        return 2.0 / 3 * (0.602 + (0.0832 * headM / crestHeightM)) * Math.Sqrt(2 * gravityMPerS2) * widthM * Math.Pow(headM + 0.00125, 1.5);
    }

    /// <summary>Full-width rectangular weir, Ackers.</summary>
    /// <param name="headM">Head over the crest, m.</param>
    /// <param name="crestHeightM">Height of the crest above the floor, m.</param>
    /// <param name="widthM">Width, m.</param>
    /// <param name="gravityMPerS2">Gravity, m/s².</param>
    /// <returns>Flow, m³/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Ackers and others (1978): 0.564 (1 + 0.150 h/p) b sqrt(g)(h + 0.001)^1.5.</remarks>
    public static double AckersM3PerS(double headM, double crestHeightM, double widthM, double gravityMPerS2 = PipeFlow.GravityMPerS2)
    {
        Check(headM, crestHeightM, widthM, gravityMPerS2);
        return 0.564 * (1 + (0.150 * headM / crestHeightM)) * widthM * Math.Sqrt(gravityMPerS2) * Math.Pow(headM + 0.001, 1.5);
    }

    private static void Check(double headM, double crestHeightM, double widthM, double gravityMPerS2)
    {
        Require.InRange(headM, 1e-6, 10);
        Require.Positive(crestHeightM);
        Require.InRange(widthM, 0.01, 100);
        Require.InRange(gravityMPerS2, 9.7, 9.9);
    }
}
