namespace Runnel.Science.Statistics;

/// <summary>Sums of a Page-Hinkley test.</summary>
/// <param name="Sum">Cumulated deviation from the mean, less the allowance.</param>
/// <param name="Least">Least sum so far, 0 at most.</param>
/// <param name="MeanSoFar">Mean of all values so far.</param>
/// <param name="Count">Values so far.</param>
public readonly record struct PageHinkleyState(double Sum, double Least, double MeanSoFar, int Count)
{
    /// <summary>The test statistic: how far the sum has risen above its least.</summary>
    public double Statistic => Sum - Least;
}

/// <summary>Page-Hinkley test for a mean that has risen (negate the values for a fall).</summary>
/// <remarks>Page (1954); Hinkley (1971), Biometrika 58:509-523. With a running mean it chases the shift and signals later or never:
/// give the mean of a healthy stretch where there is one.</remarks>
public static class PageHinkley
{
    /// <summary>State after one more value.</summary>
    /// <param name="state">State before it; default at the start.</param>
    /// <param name="value">The value.</param>
    /// <param name="allowance">Delta, the drift that is let pass, in units of the data, 0 or more.</param>
    /// <param name="knownMean">Mean in health, or NaN for the running mean of all values so far.</param>
    /// <returns>State after it; it signals when the statistic passes the chosen threshold lambda.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static PageHinkleyState Next(PageHinkleyState state, double value, double allowance, double knownMean = double.NaN)
    {
        Require.Finite(value);
        Require.NotNegative(allowance);
        int count = state.Count + 1;
        double mean = state.MeanSoFar + ((value - state.MeanSoFar) / count);
        double sum = state.Sum + (value - (double.IsNaN(knownMean) ? mean : knownMean) - allowance);
        return new PageHinkleyState(sum, Math.Min(state.Least, sum), mean, count);
    }
}
