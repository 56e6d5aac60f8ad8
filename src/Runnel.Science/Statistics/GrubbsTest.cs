namespace Runnel.Science.Statistics;

/// <summary>Which end of a sample is tested for an outlier.</summary>
public enum OutlierSide
{
    /// <summary>The greatest value.</summary>
    Greatest,

    /// <summary>The least value.</summary>
    Least,

    /// <summary>Whichever is farther from the mean.</summary>
    Either,
}

/// <summary>Grubbs' test for one outlier in a normal sample.</summary>
/// <remarks>Grubbs (1969); NIST/SEMATECH e-Handbook 1.3.5.17.1. Several outliers hide each other: then use the modified z-score.</remarks>
public static class GrubbsTest
{
    /// <summary>Test statistic: distance of the suspect from the mean in standard deviations.</summary>
    /// <param name="values">Three or more finite values that are not all equal.</param>
    /// <param name="side">Which end is tested.</param>
    /// <returns>G.</returns>
    /// <exception cref="ArgumentException">Fewer than three values, or all of them equal.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    public static double Statistic(ReadOnlySpan<double> values, OutlierSide side = OutlierSide.Either)
    {
        Require.Series(values, 3);
        double mean = Moments.Mean(values), sd = Moments.SampleSd(values);
        if (!(sd > 0)) throw new ArgumentException("values are all equal", nameof(values));
        double least = double.PositiveInfinity, greatest = double.NegativeInfinity;
        foreach (double value in values)
        {
            least = Math.Min(least, value);
            greatest = Math.Max(greatest, value);
        }

        return side switch
        {
            OutlierSide.Greatest => (greatest - mean) / sd,
            OutlierSide.Least => (mean - least) / sd,
            _ => Math.Max(greatest - mean, mean - least) / sd,
        };
    }

    /// <summary>Critical value that the statistic must pass.</summary>
    /// <param name="count">Number of values, 3 or more.</param>
    /// <param name="alpha">Chance of a false finding, above 0 and below 1.</param>
    /// <param name="side">Which end is tested.</param>
    /// <returns>Critical G.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double Critical(int count, double alpha, OutlierSide side = OutlierSide.Either)
    {
        Require.InRange(count, 3, int.MaxValue);
        Require.InRange(alpha, 1e-12, 1 - 1e-12);
        double t = StudentDistribution.Quantile(alpha / (side == OutlierSide.Either ? 2.0 * count : count), count - 2);
        return (count - 1) / Math.Sqrt(count) * Math.Sqrt(t * t / (count - 2 + (t * t)));
    }
}
