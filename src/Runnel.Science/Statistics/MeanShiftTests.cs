namespace Runnel.Science.Statistics;

/// <summary>What a test for one change of the mean found.</summary>
/// <param name="Statistic">Test statistic.</param>
/// <param name="Before">How many values lie before the likeliest change.</param>
/// <param name="P">Probability of such a statistic without a change.</param>
public readonly record struct MeanShift(double Statistic, int Before, double P);

/// <summary>Tests of a whole series for a change of its mean at an unknown place.</summary>
/// <remarks>Both suppose values that do not depend on their neighbours: thin or take medians of a correlated series first.</remarks>
public static class MeanShiftTests
{
    /// <summary>Largest Chow statistic over all places of a change.</summary>
    /// <param name="values">Ten or more finite values, oldest first.</param>
    /// <param name="trim">Share left out at each end, 0.05 to 0.45.</param>
    /// <returns>Statistic (chi-square form, one degree), place, and an asymptotic probability that is good where it is small.</returns>
    /// <exception cref="ArgumentException">Fewer than ten values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Andrews (1993), Econometrica 61:821-856; probability by the tail formula of Estrella (2003), Econometric Theory 19:1128-1143.</remarks>
    public static MeanShift SupF(ReadOnlySpan<double> values, double trim = 0.15)
    {
        Require.Series(values, 10);
        Require.InRange(trim, 0.05, 0.45);
        int n = values.Length, from = Math.Max(2, (int)(trim * n));
        double whole = Moments.SquaresAboutMean(values), mean = Moments.Mean(values);
        double sum = 0, best = 0;
        int before = from;
        for (int i = 1; i <= n - from; i++)
        {
            sum += values[i - 1] - mean;
            if (i < from) continue;
            double explained = sum * sum * n / ((double)i * (n - i));
            double f = explained / ((whole - explained) / (n - 2));
            if (f > best) (best, before) = (f, i);
        }

        double odds = Math.Pow((n - from) / (double)from, 2);
        double tail = best > 1
            ? Math.Sqrt(best / (2 * Math.PI)) * Math.Exp(-best / 2) * (((1 - (1 / best)) * Math.Log(odds)) + (2 / best))
            : 1;
        return new MeanShift(best, before, Math.Clamp(tail, 0, 1));
    }

    /// <summary>Greatest excursion of the cumulative sum of deviations from the mean.</summary>
    /// <param name="values">Two or more finite values that are not all equal, oldest first.</param>
    /// <returns>Statistic, place and asymptotic probability (Brownian bridge).</returns>
    /// <exception cref="ArgumentException">Too few values, or all of them equal.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    /// <remarks>Ploberger and Kraemer (1992), Econometrica 60:271-285.</remarks>
    public static MeanShift OlsCusum(ReadOnlySpan<double> values)
    {
        var process = new double[values.Length + 1];
        OlsCusumProcess(values, process);
        double greatest = 0;
        int before = 0;
        for (int i = 1; i < process.Length; i++)
        {
            if (Math.Abs(process[i]) > greatest) (greatest, before) = (Math.Abs(process[i]), i);
        }

        double p = 0;
        for (int j = 1; j <= 100; j++)
        {
            double term = 2 * Math.Exp(-2.0 * j * j * greatest * greatest);
            p += j % 2 == 1 ? term : -term;
            if (term < 1e-18) break;
        }

        return new MeanShift(greatest, before, greatest < 0.2 ? 1 : Math.Clamp(p, 0, 1));
    }

    /// <summary>The cumulative sum of deviations from the mean, scaled to a Brownian bridge.</summary>
    /// <param name="values">Two or more finite values that are not all equal, oldest first.</param>
    /// <param name="process">Receives the process at 0, 1, ... values; one longer than <paramref name="values"/>.</param>
    /// <exception cref="ArgumentException">Lengths do not fit, too few values, or all of them equal.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is NaN or infinite.</exception>
    public static void OlsCusumProcess(ReadOnlySpan<double> values, Span<double> process)
    {
        Require.SameLength(process, values.Length + 1);
        double sd = Moments.SampleSd(values), mean = Moments.Mean(values), sum = 0;
        if (!(sd > 0)) throw new ArgumentException("values are all equal", nameof(values));
        process[0] = 0;
        for (int i = 0; i < values.Length; i++)
        {
            sum += values[i] - mean;
            process[i + 1] = sum / (sd * Math.Sqrt(values.Length));
        }
    }
}
