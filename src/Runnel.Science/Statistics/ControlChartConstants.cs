namespace Runnel.Science.Statistics;

/// <summary>Constants of charts of means and ranges for small groups.</summary>
/// <remarks>Mean and standard deviation of the range of n normal values (d2, d3) as in ASTM Manual 7, to six figures from memory;
/// d2 is confirmed by integration in the tests. The others follow from them.</remarks>
public static class ControlChartConstants
{
    private static ReadOnlySpan<double> MeanRanges =>
        [1.12838, 1.69257, 2.05875, 2.32593, 2.53441, 2.70436, 2.84720, 2.97003, 3.07751];

    private static ReadOnlySpan<double> RangeSds =>
        [0.852502, 0.888368, 0.879808, 0.864082, 0.848040, 0.833206, 0.819831, 0.807835, 0.797051];

    /// <summary>d2: mean range of a group in standard deviations.</summary>
    /// <param name="groupSize">Values a group, 2 to 10.</param>
    /// <returns>d2.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The group size is out of range.</exception>
    public static double D2(int groupSize)
    {
        Require.InRange(groupSize, 2, 10);
        return MeanRanges[groupSize - 2];
    }

    /// <summary>D3: lower limit of the range over the mean range.</summary>
    /// <param name="groupSize">Values a group, 2 to 10.</param>
    /// <returns>D3.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The group size is out of range.</exception>
    public static double D3(int groupSize)
    {
        Require.InRange(groupSize, 2, 10);
        return Math.Max(0, 1 - (3 * RangeSds[groupSize - 2] / MeanRanges[groupSize - 2]));
    }

    /// <summary>D4: upper limit of the range over the mean range.</summary>
    /// <param name="groupSize">Values a group, 2 to 10.</param>
    /// <returns>D4.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The group size is out of range.</exception>
    public static double D4(int groupSize)
    {
        Require.InRange(groupSize, 2, 10);
        return 1 + (3 * RangeSds[groupSize - 2] / MeanRanges[groupSize - 2]);
    }

    /// <summary>A2: distance of the limits of group means over the mean range.</summary>
    /// <param name="groupSize">Values a group, 2 to 10.</param>
    /// <returns>A2.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The group size is out of range.</exception>
    public static double A2(int groupSize) => 3 / (D2(groupSize) * Math.Sqrt(groupSize));
}
