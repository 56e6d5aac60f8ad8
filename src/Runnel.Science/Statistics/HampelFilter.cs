namespace Runnel.Science.Statistics;

/// <summary>Finds and replaces single spikes in an evenly sampled series.</summary>
/// <remarks>Davies and Gather (1993), J. Am. Stat. Assoc. 88:782-792; Pearson (2002). Looks at both sides: not for use where a
/// decision must not look ahead.</remarks>
public static class HampelFilter
{
    /// <summary>Marks spikes and gives the cleaned series.</summary>
    /// <param name="values">Finite values, oldest first.</param>
    /// <param name="halfWindow">Values on each side of the one judged, 1 or more; the first and last so many stay untouched.</param>
    /// <param name="threshold">Spreads from the window's median beyond which a value is a spike: 3.</param>
    /// <param name="cleaned">Receives the series with spikes replaced by the median; same length as <paramref name="values"/>.</param>
    /// <param name="isSpike">Receives the marks; same length.</param>
    /// <param name="leastSpread">Floor under the spread, in units of the values. With 0, any step out of a window of equal values is a spike.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static void Clean(
        ReadOnlySpan<double> values, int halfWindow, double threshold, Span<double> cleaned, Span<bool> isSpike, double leastSpread = 0)
    {
        Require.Series(values, 1);
        Require.InRange(halfWindow, 1, 10_000);
        Require.NotNegative(threshold);
        Require.NotNegative(leastSpread);
        Require.SameLength(cleaned, values.Length);
        if (isSpike.Length != values.Length) throw new ArgumentException("isSpike must be as long as values", nameof(isSpike));
        values.CopyTo(cleaned);
        isSpike.Clear();
        for (int i = halfWindow; i < values.Length - halfWindow; i++)
        {
            var window = values.Slice(i - halfWindow, (2 * halfWindow) + 1);
            double median = Robust.Median(window);
            double spread = Math.Max(leastSpread, Robust.MadToSd * Robust.MedianAbsoluteDeviation(window));
            if (!(Math.Abs(values[i] - median) > threshold * spread)) continue;
            cleaned[i] = median;
            isSpike[i] = true;
        }
    }
}
