using Published = Runnel.Science.Statistics.Robust;

namespace Runnel.Steward.Watches;

/// <summary>Middle and spread that a few wild values cannot move; NaN of nothing, as a watch asks before it has heard anything.</summary>
internal static class Robust
{
    public static double Median(IReadOnlyList<double> values) => Quantile(values, 0.5);

    public static double Quantile(IReadOnlyList<double> values, double share)
    {
        if (values.Count == 0) return double.NaN;
        double[] sorted = [.. values];
        Array.Sort(sorted);
        return Published.QuantileOfSorted(sorted, share);
    }

    /// <summary>Median absolute deviation, scaled to the standard deviation of a normal spread.</summary>
    public static double Spread(IReadOnlyList<double> values)
    {
        double middle = Median(values);
        return Published.MadToSd * Median([.. values.Select(v => Math.Abs(v - middle))]);
    }
}
