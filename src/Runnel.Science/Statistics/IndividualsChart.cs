namespace Runnel.Science.Statistics;

/// <summary>Limits of a Shewhart chart of single values.</summary>
/// <param name="Mean">Centre line.</param>
/// <param name="MovingRangeMean">Mean of the ranges between neighbours.</param>
/// <param name="Sd">Standard deviation from the moving ranges.</param>
/// <param name="UpperLimit">Upper limit of the values.</param>
/// <param name="LowerLimit">Lower limit of the values.</param>
/// <param name="MovingRangeLimit">Upper limit of the moving ranges.</param>
public readonly record struct IndividualsLimits(
    double Mean, double MovingRangeMean, double Sd, double UpperLimit, double LowerLimit, double MovingRangeLimit);

/// <summary>Shewhart chart of single values, its spread taken from neighbours so that slow drift does not widen it.</summary>
/// <remarks>NIST/SEMATECH e-Handbook 6.3.2.2, with the printed constants 1.128 and 3.267.</remarks>
public static class IndividualsChart
{
    /// <summary>Limits from a stretch of healthy values.</summary>
    /// <param name="values">Two or more finite values, oldest first.</param>
    /// <param name="width">Width of the limits in standard deviations: 3.</param>
    /// <returns>Limits.</returns>
    /// <exception cref="ArgumentException">Fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static IndividualsLimits Limits(ReadOnlySpan<double> values, double width = 3)
    {
        Require.Series(values, 2);
        Require.Positive(width);
        double mean = Moments.Mean(values), ranges = 0;
        for (int i = 1; i < values.Length; i++) ranges += Math.Abs(values[i] - values[i - 1]);
        double rangeMean = ranges / (values.Length - 1);
        double sd = rangeMean / 1.128;
        return new IndividualsLimits(mean, rangeMean, sd, mean + (width * sd), mean - (width * sd), 3.267 * rangeMean);
    }
}
