namespace Runnel.Science.Statistics;

/// <summary>A line found from the medians of pairwise slopes, with the limits of its slope.</summary>
/// <param name="Slope">Median of all pairwise slopes.</param>
/// <param name="Intercept">Median of y - slope x.</param>
/// <param name="SlopeLow">Lower confidence limit of the slope.</param>
/// <param name="SlopeHigh">Upper confidence limit of the slope.</param>
public readonly record struct TheilSenLine(double Slope, double Intercept, double SlopeLow, double SlopeHigh);

/// <summary>Theil-Sen slope: a trend that up to 29 % of wild values cannot turn.</summary>
/// <remarks>Theil (1950); Sen (1968), J. Am. Stat. Assoc. 63:1379-1389; intercept after Conover (1980). Plain form, time and memory
/// grow with the square of the count.</remarks>
public static class TheilSen
{
    /// <summary>Fits the line.</summary>
    /// <param name="x">Places, two or more different, in any order.</param>
    /// <param name="y">Values, one for each place.</param>
    /// <param name="confidence">Of the slope's limits, 0.5 to 0.999.</param>
    /// <returns>The line.</returns>
    /// <exception cref="ArgumentException">Lengths differ, or all places are equal.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static TheilSenLine Fit(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double confidence = 0.95)
    {
        Require.Series(x, 2);
        Require.Series(y, 2);
        Require.SameLength(y, x.Length);
        Require.InRange(confidence, 0.5, 0.999);
        var slopes = new List<double>(x.Length * (x.Length - 1) / 2);
        for (int i = 0; i < x.Length; i++)
        {
            for (int j = i + 1; j < x.Length; j++)
            {
                if (x[i] != x[j]) slopes.Add((y[j] - y[i]) / (x[j] - x[i]));
            }
        }

        if (slopes.Count == 0) throw new ArgumentException("x holds one place only", nameof(x));
        slopes.Sort();
        var sorted = System.Runtime.InteropServices.CollectionsMarshal.AsSpan(slopes);
        double slope = Robust.QuantileOfSorted(sorted, 0.5);
        var rests = new double[x.Length];
        for (int i = 0; i < rests.Length; i++) rests[i] = y[i] - (slope * x[i]);

        double spread = NormalDistribution.Quantile(0.5 + (confidence / 2)) * Math.Sqrt(MannKendall.Variance(x, y));
        int low = (int)Math.Max(Math.Round((sorted.Length - spread) / 2) - 1, 0);
        int high = (int)Math.Min(Math.Round((sorted.Length + spread) / 2), sorted.Length - 1);
        return new TheilSenLine(slope, Robust.Median(rests), sorted[low], sorted[high]);
    }
}
