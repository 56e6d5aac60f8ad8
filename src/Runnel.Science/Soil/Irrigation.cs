namespace Runnel.Science.Soil;

/// <summary>How evenly catch cans filled.</summary>
/// <param name="Mean">Mean catch, in the unit of the catches.</param>
/// <param name="LowQuarter">Distribution uniformity of the low quarter, 0 to 1.</param>
/// <param name="Christiansen">Christiansen's coefficient of uniformity, up to 1.</param>
public readonly record struct Uniformity(double Mean, double LowQuarter, double Christiansen);

/// <summary>How long to run and how to split it.</summary>
/// <param name="TotalMin">Whole run time, min.</param>
/// <param name="Cycles">Runs to split it into.</param>
/// <param name="MostMin">Longest run without runoff, min; infinite where the soil takes it all.</param>
public readonly record struct CycleAndSoak(double TotalMin, int Cycles, double MostMin);

/// <summary>Sums of watering: uniformity, rates, run times, leaching.</summary>
public static class Irrigation
{
    /// <summary>Uniformity of a catch-can test.</summary>
    /// <param name="catches">Four catches or more, 0 or more, not all 0.</param>
    /// <returns>Mean and both measures.</returns>
    /// <exception cref="ArgumentException">Too few catches or all 0.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A catch is NaN or negative.</exception>
    /// <remarks>Christiansen (1942); low quarter as in Keller and Bliesner (2000), a quarter of the cans rounded to whole cans.</remarks>
    public static Uniformity OfCatches(ReadOnlySpan<double> catches)
    {
        Require.Series(catches, 4);
        var sorted = catches.ToArray();
        Array.Sort(sorted);
        Require.NotNegative(sorted[0], nameof(catches));
        double mean = 0, low = 0, off = 0;
        foreach (double value in sorted) mean += value / sorted.Length;
        if (mean == 0) throw new ArgumentException("all catches are 0", nameof(catches));
        foreach (double value in sorted) off += Math.Abs(value - mean) / sorted.Length;
        int quarter = (int)Math.Round(sorted.Length / 4.0, MidpointRounding.AwayFromZero);
        for (int i = 0; i < quarter; i++) low += sorted[i] / quarter;
        return new Uniformity(mean, low / mean, 1 - (off / mean));
    }

    /// <summary>Depth a flow gives an area, mm/h.</summary>
    /// <param name="flowLPerH">Flow, L/h.</param>
    /// <param name="areaM2">Area, m².</param>
    /// <returns>mm/h.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Definition: a litre on a square metre is a millimetre.</remarks>
    public static double RateMmPerH(double flowLPerH, double areaM2)
    {
        Require.NotNegative(flowLPerH);
        Require.Positive(areaM2);
        return flowLPerH / areaM2;
    }

    /// <summary>Run time for a depth, min.</summary>
    /// <param name="depthMm">Depth the plants need, mm.</param>
    /// <param name="rateMmPerH">Rate, mm/h (emitters: L/h each x emitters a m²).</param>
    /// <param name="efficiency">Share that reaches the roots, above 0 to 1.</param>
    /// <returns>min.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Definition.</remarks>
    public static double RunTimeMin(double depthMm, double rateMmPerH, double efficiency = 1)
    {
        Require.NotNegative(depthMm);
        Require.Positive(rateMmPerH);
        Require.InRange(efficiency, 0.01, 1);
        return 60 * depthMm / (rateMmPerH * efficiency);
    }

    /// <summary>Uniformity of the low half from that of the low quarter.</summary>
    /// <param name="lowQuarter">0 to 1.</param>
    /// <returns>0.386 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The input is NaN or out of range.</exception>
    /// <remarks>Irrigation Association, landscape scheduling.</remarks>
    public static double LowHalf(double lowQuarter)
    {
        Require.InRange(lowQuarter, 0, 1);
        return 0.386 + (0.614 * lowQuarter);
    }

    /// <summary>Factor on the run time so that the dry spots get enough.</summary>
    /// <param name="lowQuarter">Uniformity of the low quarter, 0 to 1.</param>
    /// <returns>1 to 2.5.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The input is NaN or out of range.</exception>
    /// <remarks>Irrigation Association: 1/(0.4 + 0.6 DU).</remarks>
    public static double RunTimeMultiplier(double lowQuarter)
    {
        Require.InRange(lowQuarter, 0, 1);
        return 1 / (0.4 + (0.6 * lowQuarter));
    }

    /// <summary>Splits a watering so that nothing runs off.</summary>
    /// <param name="depthMm">Depth wanted, mm.</param>
    /// <param name="rateMmPerH">Rate of the sprinklers, mm/h.</param>
    /// <param name="intakeMmPerH">What the soil takes in, mm/h.</param>
    /// <param name="surfaceStorageMm">What may stand on it, mm.</param>
    /// <returns>Run time and cycles.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Irrigation Association test values, as in the US EPA specification for weather-based controllers: 60 S/(rate - intake).</remarks>
    public static CycleAndSoak Split(double depthMm, double rateMmPerH, double intakeMmPerH, double surfaceStorageMm)
    {
        Require.NotNegative(intakeMmPerH);
        Require.Positive(surfaceStorageMm);
        double total = RunTimeMin(depthMm, rateMmPerH);
        if (rateMmPerH <= intakeMmPerH) return new CycleAndSoak(total, 1, double.PositiveInfinity);
        double most = 60 * surfaceStorageMm / (rateMmPerH - intakeMmPerH);
        return new CycleAndSoak(total, Math.Max(1, (int)Math.Ceiling((total / most) - 1e-9)), most);
    }

    /// <summary>Share of the water that must pass the roots to keep salt down.</summary>
    /// <param name="waterDsPerM">Conductivity of the water, dS/m.</param>
    /// <param name="thresholdDsPerM">Conductivity of the soil extract that the crop stands, dS/m.</param>
    /// <returns>Leaching fraction; null where the water is too salty for the crop.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Ayers and Westcot (1985), FAO Irrigation and Drainage Paper 29 rev. 1.</remarks>
    public static double? LeachingFraction(double waterDsPerM, double thresholdDsPerM)
    {
        Require.NotNegative(waterDsPerM);
        Require.Positive(thresholdDsPerM);
        double spare = (5 * thresholdDsPerM) - waterDsPerM;
        return spare > waterDsPerM ? waterDsPerM / spare : null;
    }

    /// <summary>Depth to apply so that the roots get theirs and the leaching share passes them, mm.</summary>
    /// <param name="depthMm">Depth the plants need, mm.</param>
    /// <param name="leachingFraction">From <see cref="LeachingFraction"/>, 0 to 0.9.</param>
    /// <param name="efficiency">Share that reaches the roots, above 0 to 1.</param>
    /// <returns>mm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Ayers and Westcot (1985): AW = ET/(1 - LR).</remarks>
    public static double WithLeachingMm(double depthMm, double leachingFraction, double efficiency = 1)
    {
        Require.NotNegative(depthMm);
        Require.InRange(leachingFraction, 0, 0.9);
        Require.InRange(efficiency, 0.01, 1);
        return depthMm / ((1 - leachingFraction) * efficiency);
    }

    /// <summary>Time from the first run to the last when cycles must soak in, min.</summary>
    /// <param name="split">From <see cref="Split"/>.</param>
    /// <param name="soakMin">Pause between cycles, min: 20 to 60 (common practice).</param>
    /// <returns>min.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The pause is NaN or negative.</exception>
    /// <remarks>Definition.</remarks>
    public static double WithSoakMin(CycleAndSoak split, double soakMin)
    {
        Require.NotNegative(soakMin);
        return split.TotalMin + ((split.Cycles - 1) * soakMin);
    }
}
