namespace Runnel.Science.Statistics;

/// <summary>How residuals lose weight with size.</summary>
public enum RobustWeight
{
    /// <summary>Huber: large residuals pull with limited force. One solution always.</summary>
    Huber,

    /// <summary>Tukey's biweight: wild residuals do not pull at all. Starts from Huber's solution.</summary>
    Tukey,
}

/// <summary>A robust linear fit.</summary>
/// <param name="Coefficients">One for each column of the design.</param>
/// <param name="StandardErrors">Approximate standard errors, from the weighted fit.</param>
/// <param name="Scale">Spread of the residuals from their median absolute deviation.</param>
/// <param name="Weights">Weight given to each row, 0 to 1.</param>
/// <param name="Converged">Whether the iteration settled.</param>
public sealed record RobustFit(
    IReadOnlyList<double> Coefficients, IReadOnlyList<double> StandardErrors, double Scale, IReadOnlyList<double> Weights, bool Converged);

/// <summary>Linear regression that outliers in y do not turn. Outliers in x still can: use <see cref="TheilSen"/> there.</summary>
/// <remarks>Huber (1964) with 1.345, Tukey's biweight with 4.685 (95 % efficient under a normal law); Holland and Welsch (1977),
/// Communications in Statistics A6:813-827, iteratively reweighted least squares.</remarks>
public static class RobustRegression
{
    /// <summary>Fits y to the columns of a design.</summary>
    /// <param name="design">Row by row: <paramref name="columns"/> values for each y.</param>
    /// <param name="columns">Number of columns, 1 to 50.</param>
    /// <param name="y">Values to explain, as many as rows, more than columns.</param>
    /// <param name="kind">How residuals lose weight.</param>
    /// <param name="leastScale">Floor under the spread of the residuals, so that half of the rows fitting exactly do not outlaw the rest.</param>
    /// <returns>The fit, or null where the columns depend on each other.</returns>
    /// <exception cref="ArgumentException">Lengths do not fit.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static RobustFit? Fit(
        ReadOnlySpan<double> design, int columns, ReadOnlySpan<double> y, RobustWeight kind = RobustWeight.Huber, double leastScale = 0)
    {
        Require.Series(y, columns + 1);
        Require.NotNegative(leastScale);
        var weights = new double[y.Length];
        Array.Fill(weights, 1);
        var fit = Iterate(design, columns, y, weights, RobustWeight.Huber, leastScale);
        return fit is null || kind == RobustWeight.Huber ? fit : Iterate(design, columns, y, weights, RobustWeight.Tukey, leastScale);
    }

    /// <summary>Fits a straight line with an intercept.</summary>
    /// <param name="x">Places, two or more different.</param>
    /// <param name="y">Values, one for each place.</param>
    /// <param name="kind">How residuals lose weight.</param>
    /// <param name="leastScale">Floor under the spread of the residuals.</param>
    /// <returns>Coefficients: intercept, then slope; null where all places are equal.</returns>
    /// <exception cref="ArgumentException">Lengths do not fit.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static RobustFit? Line(
        ReadOnlySpan<double> x, ReadOnlySpan<double> y, RobustWeight kind = RobustWeight.Huber, double leastScale = 0) =>
        Fit(LeastSquares.LineDesign(x), 2, y, kind, leastScale);

    private static RobustFit? Iterate(
        ReadOnlySpan<double> design, int columns, ReadOnlySpan<double> y, double[] weights, RobustWeight kind, double leastScale)
    {
        var sizes = new double[y.Length];
        var fit = LeastSquares.Fit(design, columns, y, weights);
        double scale = 0;
        bool converged = false;
        for (int turn = 0; turn < 100 && fit is not null && !converged; turn++)
        {
            for (int i = 0; i < y.Length; i++)
            {
                double fitted = 0;
                for (int j = 0; j < columns; j++) fitted += design[(i * columns) + j] * fit.Coefficients[j];
                sizes[i] = Math.Abs(y[i] - fitted);
            }

            scale = Math.Max(leastScale, Robust.MadToSd * Robust.Median(sizes));
            double change = 0;
            for (int i = 0; i < y.Length; i++)
            {
                double weight = scale > 0 ? Weight(sizes[i] / scale, kind) : sizes[i] > 0 ? 0 : 1;
                change = Math.Max(change, Math.Abs(weight - weights[i]));
                weights[i] = weight;
            }

            fit = LeastSquares.Fit(design, columns, y, weights);
            converged = change < 1e-8;
        }

        return fit is null ? null : new RobustFit(fit.Coefficients, fit.StandardErrors, scale, (double[])weights.Clone(), converged);
    }

    private static double Weight(double size, RobustWeight kind)
    {
        if (kind == RobustWeight.Huber) return size <= 1.345 ? 1 : 1.345 / size;
        double share = size / 4.685;
        return share >= 1 ? 0 : (1 - (share * share)) * (1 - (share * share));
    }
}
