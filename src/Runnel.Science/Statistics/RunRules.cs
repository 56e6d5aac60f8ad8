namespace Runnel.Science.Statistics;

/// <summary>Patterns on a control chart that chance seldom makes.</summary>
[Flags]
public enum RunPatterns
{
    /// <summary>No pattern.</summary>
    None = 0,

    /// <summary>The last value lies beyond three standard deviations.</summary>
    OneBeyond3 = 1,

    /// <summary>Two of the last three lie beyond two standard deviations on one side.</summary>
    TwoOfThreeBeyond2 = 2,

    /// <summary>Four of the last five lie beyond one standard deviation on one side.</summary>
    FourOfFiveBeyond1 = 4,

    /// <summary>The last eight lie on one side.</summary>
    EightOnOneSide = 8,

    /// <summary>The last six rise steadily, or fall.</summary>
    SixSteady = 16,
}

/// <summary>Run rules of a Shewhart chart.</summary>
/// <remarks>Western Electric, Statistical Quality Control Handbook (1956), zone rules; trend of six after Nelson (1984), J. Quality
/// Technology 16:237-239. Each rule added raises the rate of false signals.</remarks>
public static class RunRules
{
    /// <summary>Patterns that are complete at the last value.</summary>
    /// <param name="values">Values up to now, oldest first; eight suffice.</param>
    /// <param name="centre">Centre line.</param>
    /// <param name="sd">Standard deviation, above 0.</param>
    /// <returns>Patterns. A window counts even when its last value is back inside the zone.</returns>
    /// <exception cref="ArgumentException">The series is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static RunPatterns AtEnd(ReadOnlySpan<double> values, double centre, double sd)
    {
        if (values.Length > 8) values = values[^8..];
        Require.Series(values, 1);
        Require.Finite(centre);
        Require.Positive(sd);
        var found = RunPatterns.None;
        if (Math.Abs(values[^1] - centre) > 3 * sd) found |= RunPatterns.OneBeyond3;
        if (MostOnOneSide(values, 3, centre, 2 * sd) >= 2) found |= RunPatterns.TwoOfThreeBeyond2;
        if (MostOnOneSide(values, 5, centre, sd) >= 4) found |= RunPatterns.FourOfFiveBeyond1;
        if (MostOnOneSide(values, 8, centre, 0) >= 8) found |= RunPatterns.EightOnOneSide;
        if (IsSteady(values)) found |= RunPatterns.SixSteady;
        return found;
    }

    private static int MostOnOneSide(ReadOnlySpan<double> values, int window, double centre, double beyond)
    {
        int above = 0, below = 0;
        foreach (double value in values[Math.Max(0, values.Length - window)..])
        {
            if (value - centre > beyond) above++;
            if (centre - value > beyond) below++;
        }

        return Math.Max(above, below);
    }

    private static bool IsSteady(ReadOnlySpan<double> values)
    {
        if (values.Length < 6) return false;
        var last = values[^6..];
        int direction = Math.Sign(last[1] - last[0]);
        for (int i = 1; i < last.Length; i++)
        {
            if (Math.Sign(last[i] - last[i - 1]) != direction) return false;
        }

        return direction != 0;
    }
}
