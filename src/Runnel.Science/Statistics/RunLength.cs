namespace Runnel.Science.Statistics;

/// <summary>Average run lengths of CUSUM and EWMA charts: how many values pass, on average, until a signal.</summary>
/// <remarks>Integral equations of Page (1954) and Crowder (1987) for independent normal values with known mean and spread, solved by
/// Gauss-Legendre nodes to about 1e-8. Shifts, slack and limits are in standard deviations of single values. A baseline that was learnt,
/// or values that depend on their neighbours, shorten the healthy run length severalfold.</remarks>
public static class RunLength
{
    /// <summary>Average run length of a one-sided CUSUM.</summary>
    /// <param name="slack">Allowance k, 0 to 5.</param>
    /// <param name="limit">Decision interval h, above 0 to 50.</param>
    /// <param name="shift">Shift of the mean towards the limit, -10 to 10.</param>
    /// <param name="headStart">Start of the sum, 0 to the limit.</param>
    /// <returns>Values until a signal.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double OneSidedCusum(double slack, double limit, double shift = 0, double headStart = 0)
    {
        var (fromZero, fromStart) = SolveCusum(slack, limit, shift, headStart);
        return headStart > 0 ? fromStart : fromZero;
    }

    /// <summary>Average run length of a two-sided CUSUM with equal sides.</summary>
    /// <param name="slack">Allowance k, above 0 to 5.</param>
    /// <param name="limit">Decision interval h, above 0 to 50.</param>
    /// <param name="shift">Shift of the mean in either direction, -10 to 10.</param>
    /// <param name="headStart">Start of both sums, 0 to half the limit.</param>
    /// <returns>Values until a signal of either side.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Combination of both sides after Kemp (1961) and Lucas and Crosier (1982).</remarks>
    public static double TwoSidedCusum(double slack, double limit, double shift = 0, double headStart = 0)
    {
        Require.InRange(headStart, 0, limit / 2);
        var (up0, upStart) = SolveCusum(slack, limit, shift, headStart);
        var (down0, downStart) = SolveCusum(slack, limit, -shift, headStart);
        // Divided through by both, since one side may be too long for a product.
        double rate = (1 / up0) + (1 / down0);
        return ((upStart / up0) + (downStart / down0) - 1) / rate;
    }

    /// <summary>Average run length of a two-sided EWMA chart with the steady limits.</summary>
    /// <param name="weight">Weight lambda of the newest value, 0.005 to 1.</param>
    /// <param name="width">Width L of the limits, above 0 to 10.</param>
    /// <param name="shift">Shift of the mean in either direction, -10 to 10.</param>
    /// <returns>Values until a signal.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double TwoSidedEwma(double weight, double width, double shift = 0)
    {
        Require.InRange(weight, 0.005, 1);
        Require.InRange(width, double.Epsilon, 10);
        Require.InRange(shift, -10, 10);
        double half = width * Math.Sqrt(weight / (2 - weight));
        int n = Math.Clamp(24 + (int)(5 * half / weight), 32, 400) | 1; // odd: the middle node is the start
        double[] nodes = new double[n], weights = new double[n], matrix = new double[n * n], lengths = new double[n];
        GaussLegendre.Fill(-half, half, nodes, weights);
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double z = ((nodes[j] - ((1 - weight) * nodes[i])) / weight) - shift;
                matrix[(i * n) + j] = (i == j ? 1 : 0) - (weights[j] / weight * NormalDistribution.Density(z));
            }

            lengths[i] = 1;
        }

        DenseSystem.Solve(matrix, lengths);
        return lengths[n / 2];
    }

    /// <summary>Decision interval of a two-sided CUSUM for a wanted healthy run length.</summary>
    /// <param name="healthyRunLength">Average run length without a shift, 10 to 1e9.</param>
    /// <param name="slack">Allowance k, 0.05 to 3.</param>
    /// <returns>Decision interval h in standard deviations.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double CusumLimitFor(double healthyRunLength, double slack = 0.5)
    {
        Require.InRange(healthyRunLength, 10, 1e9);
        Require.InRange(slack, 0.05, 3);
        return Invert(h => TwoSidedCusum(slack, h), healthyRunLength, 0.01, 50);
    }

    /// <summary>Width of the limits of a two-sided EWMA chart for a wanted healthy run length.</summary>
    /// <param name="healthyRunLength">Average run length without a shift, 10 to 1e9.</param>
    /// <param name="weight">Weight lambda of the newest value, 0.01 to 1.</param>
    /// <returns>Width L in standard deviations of the average.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double EwmaWidthFor(double healthyRunLength, double weight)
    {
        Require.InRange(healthyRunLength, 10, 1e9);
        Require.InRange(weight, 0.01, 1);
        return Invert(l => TwoSidedEwma(weight, l), healthyRunLength, 0.05, 8);
    }

    // Run length from 0 and from the head start, by the values at the nodes and at 0.
    private static (double FromZero, double FromStart) SolveCusum(double slack, double limit, double shift, double headStart)
    {
        Require.InRange(slack, 0, 5);
        Require.InRange(limit, double.Epsilon, 50);
        Require.InRange(shift, -10, 10);
        Require.InRange(headStart, 0, limit);
        int inner = Math.Clamp(16 + (int)(6 * limit), 24, 300), n = inner + 1;
        double[] nodes = new double[n], weights = new double[n], matrix = new double[n * n], lengths = new double[n];
        GaussLegendre.Fill(0, limit, nodes.AsSpan(1), weights.AsSpan(1)); // place 0 is the sum at 0, which has weight of its own
        for (int i = 0; i < n; i++)
        {
            double offset = slack - shift - nodes[i];
            matrix[i * n] = -NormalDistribution.Cdf(offset);
            for (int j = 1; j < n; j++) matrix[(i * n) + j] = -weights[j] * NormalDistribution.Density(nodes[j] + offset);
            matrix[(i * n) + i] += 1;
            lengths[i] = 1;
        }

        if (!DenseSystem.Solve(matrix, lengths)) return (double.PositiveInfinity, double.PositiveInfinity);
        double start = 1 + (lengths[0] * NormalDistribution.Cdf(slack - shift - headStart));
        for (int j = 1; j < n; j++) start += weights[j] * lengths[j] * NormalDistribution.Density(nodes[j] + slack - shift - headStart);
        return (lengths[0], start);
    }

    // Run lengths grow almost exponentially with the limit: false position on their logarithm, kept inside a bracket.
    private static double Invert(Func<double, double> runLength, double wanted, double low, double high)
    {
        double target = Math.Log(wanted), atLow = Math.Log(runLength(low)) - target;
        double upper = Math.Min(high, low + 1), atUpper = Math.Log(runLength(upper)) - target;
        while (atUpper < 0 && upper < high)
        {
            (low, atLow) = (upper, atUpper);
            upper = Math.Min(high, upper * 1.6);
            atUpper = Math.Log(runLength(upper)) - target;
        }

        for (int i = 0; i < 60 && upper - low > 1e-9 * upper; i++)
        {
            double guess = low - (atLow * (upper - low) / (atUpper - atLow));
            double margin = (upper - low) / 50;
            guess = Math.Clamp(guess, low + margin, upper - margin);
            double at = Math.Log(runLength(guess)) - target;
            if (at < 0) (low, atLow) = (guess, at);
            else (upper, atUpper) = (guess, at);
            if (Math.Abs(at) < 1e-9) return guess;
        }

        return (low + upper) / 2;
    }
}
