namespace Runnel.Science.Statistics;

/// <summary>Best splits of a series into stretches of constant mean.</summary>
/// <param name="ResidualSquares">Residual sum of squares by number of breaks, from none on.</param>
/// <param name="Bic">Bayesian information criterion by number of breaks; the least is best.</param>
/// <param name="BreaksByCount">By number of breaks: how many values lie before each break.</param>
public sealed record BreakpointSearch(
    IReadOnlyList<double> ResidualSquares, IReadOnlyList<double> Bic, IReadOnlyList<IReadOnlyList<int>> BreaksByCount)
{
    /// <summary>Number of breaks with the least criterion.</summary>
    public int BestCount
    {
        get
        {
            int best = 0;
            for (int i = 1; i < Bic.Count; i++)
            {
                if (Bic[i] < Bic[best]) best = i;
            }

            return best;
        }
    }

    /// <summary>How many values lie before each break of the best split.</summary>
    public IReadOnlyList<int> Best => BreaksByCount[BestCount];
}

/// <summary>Least-squares breakpoints in the mean.</summary>
/// <remarks>Bai and Perron (2003), J. Applied Econometrics 18:1-22 (dynamic programming); criterion and conventions as in Zeileis, Kleiber,
/// Kraemer and Hornik (2003), Comput. Stat. Data Anal. 44:109-123. Time grows with the square of the count.</remarks>
public static class Breakpoints
{
    /// <summary>Finds the best splits with 0 to so many breaks.</summary>
    /// <param name="values">Finite values, oldest first.</param>
    /// <param name="leastStretch">Fewest values between breaks, 1 or more.</param>
    /// <param name="mostBreaks">Most breaks to try; fewer where they do not fit.</param>
    /// <returns>Splits by number of breaks.</returns>
    /// <exception cref="ArgumentException">Fewer values than one stretch, or fewer than two.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static BreakpointSearch Find(ReadOnlySpan<double> values, int leastStretch, int mostBreaks)
    {
        Require.InRange(leastStretch, 1, int.MaxValue);
        Require.InRange(mostBreaks, 0, 1000);
        Require.Series(values, Math.Max(2, leastStretch));
        int n = values.Length;
        int breaks = Math.Min(mostBreaks, (n / leastStretch) - 1);
        var sums = new CentredSums(values);

        // cost[m][j]: least squares of the first j values with m breaks; split[m][j]: where the last stretch begins.
        var cost = new double[breaks + 1][];
        var split = new int[breaks + 1][];
        for (int m = 0; m <= breaks; m++)
        {
            cost[m] = new double[n + 1];
            split[m] = new int[n + 1];
            Array.Fill(cost[m], double.PositiveInfinity);
            for (int j = (m + 1) * leastStretch; j <= n; j++)
            {
                if (m == 0)
                {
                    cost[0][j] = sums.Squares(0, j);
                    continue;
                }

                for (int i = m * leastStretch; i <= j - leastStretch; i++)
                {
                    double total = cost[m - 1][i] + sums.Squares(i, j);
                    if (total < cost[m][j]) (cost[m][j], split[m][j]) = (total, i);
                }
            }
        }

        var squares = new double[breaks + 1];
        var bic = new double[breaks + 1];
        var places = new IReadOnlyList<int>[breaks + 1];
        for (int m = 0; m <= breaks; m++)
        {
            squares[m] = cost[m][n];
            bic[m] = (n * (Math.Log(squares[m] / n) + 1 + Math.Log(2 * Math.PI))) + (2 * (m + 1) * Math.Log(n));
            var found = new int[m];
            for (int k = m, j = n; k > 0; k--) found[k - 1] = j = split[k][j];
            places[m] = found;
        }

        return new BreakpointSearch(squares, bic, places);
    }

    /// <summary>Confidence interval of one break.</summary>
    /// <param name="before">The stretch before it, two or more values.</param>
    /// <param name="after">The stretch after it, two or more values.</param>
    /// <param name="confidence">0.5 to 0.999.</param>
    /// <returns>First and last likely number of values of <paramref name="before"/> and <paramref name="after"/> together that lie before the break;
    /// it may reach past the stretches where the break is faint.</returns>
    /// <exception cref="ArgumentException">A stretch is too short, or both have the same mean or no scatter.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Bai (1997), Review of Economics and Statistics 79:551-563: distribution of the place of the break with a variance of its own on
    /// each side (divisor n).</remarks>
    public static (int First, int Last) Interval(ReadOnlySpan<double> before, ReadOnlySpan<double> after, double confidence = 0.95)
    {
        Require.InRange(confidence, 0.5, 0.999);
        Require.Series(before, 2);
        Require.Series(after, 2);
        double shift = Moments.Mean(after) - Moments.Mean(before);
        double varianceBefore = Moments.SquaresAboutMean(before) / before.Length, varianceAfter = Moments.SquaresAboutMean(after) / after.Length;
        if (!(shift * shift > 0 && varianceBefore > 0 && varianceAfter > 0))
            throw new ArgumentException("both stretches need scatter and different means", nameof(after));
        double scale = varianceBefore / (shift * shift), ratio = varianceAfter / varianceBefore;
        double tail = (1 - confidence) / 2;
        double low = BreakDistribution.Quantile(tail, ratio), high = BreakDistribution.Quantile(1 - tail, ratio);
        return ((int)Math.Floor(before.Length - (high * scale)), (int)Math.Ceiling(before.Length - (low * scale)));
    }

    private readonly struct CentredSums
    {
        private readonly double[] sum, square;

        public CentredSums(ReadOnlySpan<double> values)
        {
            // Centred first: otherwise the difference of two large squares loses the digits.
            double mean = Moments.Mean(values);
            sum = new double[values.Length + 1];
            square = new double[values.Length + 1];
            for (int i = 0; i < values.Length; i++)
            {
                double deviation = values[i] - mean;
                sum[i + 1] = sum[i] + deviation;
                square[i + 1] = square[i] + (deviation * deviation);
            }
        }

        public double Squares(int from, int to)
        {
            double total = sum[to] - sum[from];
            return Math.Max(0, square[to] - square[from] - (total * total / (to - from)));
        }
    }
}
