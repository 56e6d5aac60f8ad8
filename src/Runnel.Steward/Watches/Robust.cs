namespace Runnel.Steward.Watches;

/// <summary>Middle and spread that a few wild values cannot move.</summary>
internal static class Robust
{
    public static double Median(IReadOnlyList<double> values) => Quantile(values, 0.5);

    /// <summary>Quantile by linear interpolation; NaN of nothing.</summary>
    public static double Quantile(IReadOnlyList<double> values, double share)
    {
        if (values.Count == 0) return double.NaN;
        double[] sorted = [.. values];
        Array.Sort(sorted);
        double at = share * (sorted.Length - 1);
        int low = (int)at;
        return low + 1 == sorted.Length ? sorted[low] : sorted[low] + ((at - low) * (sorted[low + 1] - sorted[low]));
    }

    /// <summary>Median absolute deviation, scaled to the standard deviation of a normal spread (x 1.4826).</summary>
    public static double Spread(IReadOnlyList<double> values)
    {
        double middle = Median(values);
        return 1.4826 * Median([.. values.Select(v => Math.Abs(v - middle))]);
    }
}
