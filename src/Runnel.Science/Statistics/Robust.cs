using System.Buffers;

namespace Runnel.Science.Statistics;

/// <summary>Location and spread that a few wild values do not move.</summary>
public static class Robust
{
    /// <summary>Makes the median absolute deviation comparable with a standard deviation under a normal law.</summary>
    public const double MadToSd = 1.4826;

    /// <summary>Median.</summary>
    /// <param name="values">One or more finite values in any order.</param>
    /// <returns>Median; of an even count the mean of the middle two.</returns>
    /// <exception cref="ArgumentException">The series is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    public static double Median(ReadOnlySpan<double> values) => Quantile(values, 0.5);

    /// <summary>Quantile with linear interpolation between the ordered values.</summary>
    /// <param name="values">One or more finite values in any order.</param>
    /// <param name="share">0 for the least, 0.5 for the median, 1 for the greatest.</param>
    /// <returns>Quantile.</returns>
    /// <exception cref="ArgumentException">The series is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite, or the share out of range.</exception>
    /// <remarks>Hyndman and Fan (1996), American Statistician 50:361-365, definition 7.</remarks>
    public static double Quantile(ReadOnlySpan<double> values, double share)
    {
        Require.Series(values, 1);
        Require.InRange(share, 0, 1);
        double[] rented = ArrayPool<double>.Shared.Rent(values.Length);
        var sorted = rented.AsSpan(0, values.Length);
        values.CopyTo(sorted);
        sorted.Sort();
        double quantile = QuantileOfSorted(sorted, share);
        ArrayPool<double>.Shared.Return(rented);
        return quantile;
    }

    /// <summary>Median absolute deviation from the median, unscaled.</summary>
    /// <param name="values">One or more finite values in any order.</param>
    /// <returns>Median absolute deviation; times <see cref="MadToSd"/> it estimates the standard deviation.</returns>
    /// <exception cref="ArgumentException">The series is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    public static double MedianAbsoluteDeviation(ReadOnlySpan<double> values)
    {
        double median = Median(values);
        double[] rented = ArrayPool<double>.Shared.Rent(values.Length);
        var deviations = rented.AsSpan(0, values.Length);
        for (int i = 0; i < values.Length; i++) deviations[i] = Math.Abs(values[i] - median);
        deviations.Sort();
        double mad = QuantileOfSorted(deviations, 0.5);
        ArrayPool<double>.Shared.Return(rented);
        return mad;
    }

    /// <summary>Modified z-score of one value: beyond 3.5 it is an outlier.</summary>
    /// <param name="value">Value judged.</param>
    /// <param name="median">Median of the series.</param>
    /// <param name="mad">Its median absolute deviation, above 0.</param>
    /// <returns>0.6745 (value - median)/mad.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Iglewicz and Hoaglin (1993), How to Detect and Handle Outliers; NIST/SEMATECH e-Handbook 1.3.5.17.</remarks>
    public static double ModifiedZ(double value, double median, double mad)
    {
        Require.Finite(value);
        Require.Finite(median);
        Require.Positive(mad);
        return 0.6745 * (value - median) / mad;
    }

    /// <summary>Sn, a spread with a high breakdown point and no symmetry assumed.</summary>
    /// <param name="values">Two or more finite values in any order.</param>
    /// <returns>Estimate of the standard deviation.</returns>
    /// <exception cref="ArgumentException">Fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    /// <remarks>Rousseeuw and Croux (1993), J. Am. Stat. Assoc. 88:1273-1283: 1.1926 c(n) times the low median of high medians.
    /// Plain form, time grows with the square of the count.</remarks>
    public static double Sn(ReadOnlySpan<double> values)
    {
        Require.Series(values, 2);
        int n = values.Length;
        double[] inner = new double[n], outer = new double[n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++) inner[j] = Math.Abs(values[i] - values[j]);
            Array.Sort(inner);
            outer[i] = inner[n / 2];
        }

        Array.Sort(outer);
        return 1.1926 * SnFactor(n) * outer[((n + 1) / 2) - 1];
    }

    /// <summary>Qn, a spread with a high breakdown point that is nearly as sharp as the standard deviation.</summary>
    /// <param name="values">Two or more finite values in any order.</param>
    /// <returns>Estimate of the standard deviation.</returns>
    /// <exception cref="ArgumentException">Fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    /// <remarks>Rousseeuw and Croux (1993), J. Am. Stat. Assoc. 88:1273-1283, with the finite-sample factors of the R package
    /// robustbase 0.95-0 (to its polynomial; the program departs in the eighth figure). Plain form, time and memory grow with the square of the count.</remarks>
    public static double Qn(ReadOnlySpan<double> values)
    {
        Require.Series(values, 2);
        int n = values.Length, half = (n / 2) + 1;
        var distances = new double[n * (n - 1) / 2];
        int next = 0;
        for (int i = 0; i < n; i++)
        {
            for (int j = i + 1; j < n; j++) distances[next++] = Math.Abs(values[i] - values[j]);
        }

        Array.Sort(distances);
        return 2.21914 * QnFactor(n) * distances[(half * (half - 1) / 2) - 1];
    }

    /// <summary>Quantile with linear interpolation of values already in order; for those who take several from one series.</summary>
    /// <param name="sorted">One or more values, least first; not checked.</param>
    /// <param name="share">0 for the least, 0.5 for the median, 1 for the greatest; not checked.</param>
    /// <returns>Quantile, as <see cref="Quantile"/> gives it.</returns>
    public static double QuantileOfSorted(ReadOnlySpan<double> sorted, double share)
    {
        double place = share * (sorted.Length - 1);
        int below = (int)place;
        double rest = place - below;
        if (rest == 0) return sorted[below];
        // The middle of two is written so that a median of printed figures comes out as printed.
        return rest == 0.5 ? (sorted[below] + sorted[below + 1]) / 2 : sorted[below] + (rest * (sorted[below + 1] - sorted[below]));
    }

    private static double SnFactor(int n)
    {
        ReadOnlySpan<double> small = [0.743, 1.851, 0.954, 1.351, 0.993, 1.198, 1.005, 1.131];
        return n <= 9 ? small[n - 2] : n % 2 == 1 ? n / (n - 0.9) : 1;
    }

    private static double QnFactor(int n)
    {
        ReadOnlySpan<double> small =
            [0.399356, 0.99365, 0.51321, 0.84401, 0.61220, 0.85877, 0.66993, 0.87344, 0.72014, 0.88906, 0.75743];
        if (n <= 12) return small[n - 2];
        double correction = n % 2 == 1
            ? 1.60188 + ((-2.1284 - (5.172 / n)) / n)
            : 3.67561 + ((1.9654 + ((6.987 - (77.0 / n)) / n)) / n);
        return 1 / ((correction / n) + 1);
    }
}
