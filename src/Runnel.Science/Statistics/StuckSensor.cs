namespace Runnel.Science.Statistics;

/// <summary>A stretch of a series, both ends counted in.</summary>
/// <param name="First">Place of the first value, from 0.</param>
/// <param name="Last">Place of the last value, from 0.</param>
public readonly record struct Stretch(int First, int Last);

/// <summary>Signs of a sensor that no longer follows what it measures.</summary>
/// <remarks>Flat-line and variance tests, common practice in quality control of environmental sensors. Choose the run length by how
/// often healthy readings repeat at the sensor's resolution.</remarks>
public static class StuckSensor
{
    /// <summary>Maximal runs of equal readings.</summary>
    /// <param name="values">Readings, oldest first; NaN is a gap and ends a run.</param>
    /// <param name="leastRun">Readings from which on a run counts, 2 or more.</param>
    /// <param name="tolerance">Greatest distance from the run's first reading that still counts as equal, 0 or more.</param>
    /// <returns>Runs, oldest first.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is out of range.</exception>
    public static IReadOnlyList<Stretch> EqualRuns(ReadOnlySpan<double> values, int leastRun, double tolerance = 0)
    {
        Require.InRange(leastRun, 2, int.MaxValue);
        Require.NotNegative(tolerance);
        var runs = new List<Stretch>();
        for (int first = 0; first < values.Length;)
        {
            int next = first + 1;
            // Written so that a NaN at either place ends the run.
            while (next < values.Length && Math.Abs(values[next] - values[first]) <= tolerance) next++;
            if (next - first >= leastRun && !double.IsNaN(values[first])) runs.Add(new Stretch(first, next - 1));
            first = next;
        }

        return runs;
    }

    /// <summary>Whether the newest window has lost its scatter.</summary>
    /// <param name="window">Two or more finite readings.</param>
    /// <param name="healthySd">Standard deviation of such a window in health, above 0.</param>
    /// <param name="ratio">Variance ratio below which the scatter counts as lost: 0.01.</param>
    /// <returns>True when the window is as good as flat.</returns>
    /// <exception cref="ArgumentException">Fewer than two readings.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static bool HasLostScatter(ReadOnlySpan<double> window, double healthySd, double ratio = 0.01)
    {
        Require.Positive(healthySd);
        Require.InRange(ratio, 0, 1);
        double sd = Moments.SampleSd(window);
        return sd * sd < ratio * healthySd * healthySd;
    }
}
