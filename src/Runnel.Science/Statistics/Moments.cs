namespace Runnel.Science.Statistics;

/// <summary>Mean and standard deviation of a series.</summary>
public static class Moments
{
    /// <summary>Arithmetic mean.</summary>
    /// <param name="values">One or more finite values.</param>
    /// <returns>Mean.</returns>
    /// <exception cref="ArgumentException">The series is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    public static double Mean(ReadOnlySpan<double> values)
    {
        Require.Series(values, 1);
        double sum = 0;
        foreach (double value in values) sum += value;
        return sum / values.Length;
    }

    /// <summary>Standard deviation of a sample (divisor n - 1).</summary>
    /// <param name="values">Two or more finite values.</param>
    /// <returns>Standard deviation.</returns>
    /// <exception cref="ArgumentException">Fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    /// <remarks>Two passes, so that a large mean costs no digits.</remarks>
    public static double SampleSd(ReadOnlySpan<double> values)
    {
        Require.Series(values, 2);
        return Math.Sqrt(SquaresAboutMean(values) / (values.Length - 1));
    }

    /// <summary>Sum of squared deviations from the mean.</summary>
    /// <param name="values">One or more finite values.</param>
    /// <returns>Sum of squares.</returns>
    /// <exception cref="ArgumentException">The series is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    public static double SquaresAboutMean(ReadOnlySpan<double> values)
    {
        double mean = Mean(values), squares = 0, rest = 0;
        foreach (double value in values)
        {
            double deviation = value - mean;
            squares += deviation * deviation;
            rest += deviation;
        }

        return squares - (rest * rest / values.Length);
    }
}
