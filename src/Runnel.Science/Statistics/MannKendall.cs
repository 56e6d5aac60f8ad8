namespace Runnel.Science.Statistics;

/// <summary>What the Mann-Kendall test found.</summary>
/// <param name="S">Rising pairs less falling pairs.</param>
/// <param name="Variance">Variance of S without a trend, ties in value and time allowed for.</param>
/// <param name="Z">Normal score with continuity correction.</param>
/// <param name="P">Two-sided probability of such a score without a trend.</param>
/// <param name="TauB">Kendall's tau-b, -1 to 1.</param>
public readonly record struct MannKendallResult(long S, double Variance, double Z, double P, double TauB);

/// <summary>Mann-Kendall test for a trend of either shape.</summary>
/// <remarks>Mann (1945), Kendall (1975); Gilbert (1987), Statistical Methods for Environmental Pollution Monitoring, chapter 16; ties in
/// both value and time after van Belle and Hughes (1984). Neighbouring values must not depend on each other: thin a correlated series
/// first. The normal score is rough below ten values.</remarks>
public static class MannKendall
{
    /// <summary>Tests values in order of time.</summary>
    /// <param name="values">Three or more finite values, oldest first.</param>
    /// <returns>Statistic and significance.</returns>
    /// <exception cref="ArgumentException">Fewer than three values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    public static MannKendallResult Test(ReadOnlySpan<double> values)
    {
        var times = new double[values.Length];
        for (int i = 0; i < times.Length; i++) times[i] = i;
        return Test(times, values);
    }

    /// <summary>Tests values with their times; pairs of one time count nothing.</summary>
    /// <param name="times">Times, in any order, repeats allowed.</param>
    /// <param name="values">Values, one for each time.</param>
    /// <returns>Statistic and significance.</returns>
    /// <exception cref="ArgumentException">Lengths differ or fewer than three values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or infinite.</exception>
    public static MannKendallResult Test(ReadOnlySpan<double> times, ReadOnlySpan<double> values)
    {
        Require.Series(times, 3);
        Require.Series(values, 3);
        Require.SameLength(values, times.Length);
        long s = 0, pairs = 0, timeTies = 0, valueTies = 0;
        for (int i = 0; i < values.Length; i++)
        {
            for (int j = i + 1; j < values.Length; j++)
            {
                int inTime = Math.Sign(times[j] - times[i]), inValue = Math.Sign(values[j] - values[i]);
                s += inTime * inValue;
                pairs++;
                if (inTime == 0) timeTies++;
                if (inValue == 0) valueTies++;
            }
        }

        double variance = Variance(times, values);
        double z = variance > 0 ? (s - Math.Sign(s)) / Math.Sqrt(variance) : 0;
        double comparable = Math.Sqrt((double)(pairs - timeTies) * (pairs - valueTies));
        return new MannKendallResult(s, variance, z, NormalDistribution.TwoSided(z), comparable > 0 ? s / comparable : 0);
    }

    /// <summary>Variance of S without a trend.</summary>
    /// <param name="times">Times, in any order, repeats allowed.</param>
    /// <param name="values">Values, one for each time.</param>
    /// <returns>Variance.</returns>
    internal static double Variance(ReadOnlySpan<double> times, ReadOnlySpan<double> values)
    {
        double n = values.Length;
        var t = Ties(values);
        var u = Ties(times);
        double variance = ((n * (n - 1) * ((2 * n) + 5)) - t.First - u.First) / 18;
        if (n > 2) variance += t.Triples * u.Triples / (9 * n * (n - 1) * (n - 2));
        return variance + (t.Pairs * u.Pairs / (2 * n * (n - 1)));
    }

    // Sums over groups of equal values, each of size t: t(t-1)(2t+5), t(t-1)(t-2), t(t-1).
    private static (double First, double Triples, double Pairs) Ties(ReadOnlySpan<double> values)
    {
        var sorted = values.ToArray();
        Array.Sort(sorted);
        double first = 0, triples = 0, pairs = 0;
        for (int i = 0, start = 0; i < sorted.Length; i++)
        {
            if (i + 1 < sorted.Length && sorted[i + 1] == sorted[i]) continue;
            double size = i + 1 - start;
            start = i + 1;
            first += size * (size - 1) * ((2 * size) + 5);
            triples += size * (size - 1) * (size - 2);
            pairs += size * (size - 1);
        }

        return (first, triples, pairs);
    }
}
