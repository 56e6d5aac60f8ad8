namespace Runnel.Science.Statistics;

/// <summary>Why a fit stopped.</summary>
public enum FitStop
{
    /// <summary>The residuals stand at right angles to what any parameter could change.</summary>
    Converged,

    /// <summary>No step lowers the sum of squares, but it is no minimum to working accuracy.</summary>
    NoProgress,

    /// <summary>The steps ran out.</summary>
    TooManySteps,

    /// <summary>The data do not tell the parameters apart at the place reached.</summary>
    NotTellable,

    /// <summary>The model gives no finite value at the start.</summary>
    UndefinedAtStart,
}

/// <summary>A fitted curve. Trust the values only where <paramref name="Stop"/> is <see cref="FitStop.Converged"/>; a far start may reach another minimum.</summary>
/// <param name="Stop">Why the fit stopped.</param>
/// <param name="Steps">Steps tried.</param>
/// <param name="Parameters">One for each value of the start.</param>
/// <param name="Covariance">Their covariances, row by row; NaN where not tellable or without spare values.</param>
/// <param name="SumOfSquares">Weighted sum of the squared residuals.</param>
/// <param name="ResidualSd">Standard deviation of the residuals, divisor n - p; NaN without spare values.</param>
public sealed record NonlinearFit(
    FitStop Stop, int Steps, IReadOnlyList<double> Parameters, IReadOnlyList<double> Covariance, double SumOfSquares, double ResidualSd)
{
    /// <summary>Standard error of a parameter.</summary>
    /// <param name="parameter">Its place.</param>
    /// <returns>Standard error.</returns>
    public double StandardError(int parameter) => Math.Sqrt(Covariance[(parameter * Parameters.Count) + parameter]);
}

/// <summary>Value of a model.</summary>
/// <param name="x">Place.</param>
/// <param name="parameters">Parameters.</param>
/// <returns>Value; NaN where the model has none there.</returns>
public delegate double CurveModel(double x, ReadOnlySpan<double> parameters);

/// <summary>Least squares for models that bend in their parameters.</summary>
/// <remarks>
/// Levenberg (1944) and Marquardt (1963) with the column scaling of More (1978) and the damping of Nielsen (1999); slopes by central differences, each step
/// by Householder QR; stops by the relative offset of Bates and Watts (1981). Written out here because this assembly takes no package; it is held against
/// the certified values of the NIST Statistical Reference Datasets and against the fit of MathNet.Numerics.
/// </remarks>
public static class NonlinearLeastSquares
{
    private const int MostSteps = 2000;

    /// <summary>Fits a model to values.</summary>
    /// <param name="model">Model.</param>
    /// <param name="x">Places.</param>
    /// <param name="y">Values, one for each place, at least as many as parameters.</param>
    /// <param name="start">Parameters to begin from, 1 to 20, of the right size and sign where you know it.</param>
    /// <param name="weights">One weight above 0 for each value (1 over its variance), or empty for equal weights.</param>
    /// <returns>The fit.</returns>
    /// <exception cref="ArgumentException">Lengths do not fit.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static NonlinearFit Fit(
        CurveModel model, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> start, ReadOnlySpan<double> weights = default)
    {
        ArgumentNullException.ThrowIfNull(model);
        Require.InRange(start.Length, 1, 20);
        Require.Series(start, 1);
        Require.Series(y, start.Length);
        Require.Series(x, start.Length);
        Require.SameLength(x, y.Length);
        var roots = new double[y.Length];
        Array.Fill(roots, 1);
        if (!weights.IsEmpty)
        {
            Require.SameLength(weights, y.Length);
            for (int i = 0; i < roots.Length; i++)
            {
                Require.Positive(weights[i], nameof(weights));
                roots[i] = Math.Sqrt(weights[i]);
            }
        }

        // A first step too bold may land where the model is flat; the next tries begin more carefully.
        NonlinearFit? best = null;
        foreach (double damping in (ReadOnlySpan<double>)[1e-3, 1, 1e3])
        {
            var fit = new Search(model, x.ToArray(), y.ToArray(), roots, start.ToArray()).Run(damping);
            if (fit.Stop is FitStop.Converged or FitStop.UndefinedAtStart) return fit;
            if (best is null || fit.SumOfSquares < best.SumOfSquares) best = fit;
        }

        return best!;
    }

    private sealed class Search(CurveModel model, double[] x, double[] y, double[] roots, double[] parameters)
    {
        private readonly int rows = x.Length, columns = parameters.Length;
        private readonly double[] slopes = new double[x.Length * parameters.Length], scale = new double[parameters.Length], probe = new double[parameters.Length];
        private double[] residuals = new double[x.Length], tried = new double[x.Length];

        public NonlinearFit Run(double damping)
        {
            double squares = Residuals(parameters, residuals), growth = 2;
            if (!double.IsFinite(squares)) return Report(FitStop.UndefinedAtStart, 0, squares);
            double offset = Slopes();
            for (int count = 1; count <= MostSteps; count++)
            {
                if (offset <= 1e-8 || squares <= 1e-24 * Size()) return Report(FitStop.Converged, count, squares);
                if (DampedStep(damping) is not { } step) return Report(FitStop.NotTellable, count, squares);
                for (int j = 0; j < columns; j++) probe[j] = parameters[j] + step[j];
                double predicted = squares - Predicted(step), now = Residuals(probe, tried);
                double gain = double.IsFinite(now) ? (squares - now) / predicted : double.NegativeInfinity;
                if (gain > 0 && now < squares)
                {
                    probe.CopyTo(parameters, 0);
                    (residuals, tried, squares) = (tried, residuals, now);
                    damping *= Math.Max(1.0 / 3, 1 - Math.Pow((2 * gain) - 1, 3));
                    growth = 2;
                    offset = Slopes();
                    continue;
                }

                damping *= growth;
                growth *= 2;

                // Once only rounding is left to gain, a small offset is as good as none.
                if (damping > 1e12) return Report(offset <= 1e-5 || squares <= 1e-18 * Size() ? FitStop.Converged : FitStop.NoProgress, count, squares);
            }

            return Report(FitStop.TooManySteps, MostSteps, squares);
        }

        private double Residuals(double[] at, double[] into)
        {
            double sum = 0;
            for (int i = 0; i < rows; i++)
            {
                into[i] = roots[i] * (y[i] - model(x[i], at));
                sum += into[i] * into[i];
            }

            return sum;
        }

        private double Size()
        {
            double sum = 0;
            for (int i = 0; i < rows; i++) sum += roots[i] * roots[i] * y[i] * y[i];
            return sum;
        }

        // Slopes of the model, the scale of each column, and the share of the residuals that the parameters could still explain.
        private double Slopes()
        {
            for (int j = 0; j < columns; j++)
            {
                double was = parameters[j], h = was == 0 ? 1e-7 : 6e-6 * Math.Abs(was), up = was + h, down = was - h, norm = 0;
                for (int i = 0; i < rows; i++)
                {
                    parameters[j] = up;
                    double above = model(x[i], parameters);
                    parameters[j] = down;
                    double slope = roots[i] * (above - model(x[i], parameters)) / (up - down);
                    if (!double.IsFinite(slope)) slope = 0;
                    slopes[(i * columns) + j] = slope;
                    norm += slope * slope;
                }

                parameters[j] = was;
                scale[j] = Math.Max(scale[j], Math.Sqrt(norm));
            }

            double[] a = [.. slopes], b = [.. residuals];
            if (!LeastSquares.Triangulate(a, b, rows, columns)) return double.PositiveInfinity;
            double explained = 0, rest = 0;
            for (int i = 0; i < rows; i++)
            {
                if (i < columns) explained += b[i] * b[i];
                else rest += b[i] * b[i];
            }

            return rest == 0 ? (explained == 0 ? 0 : double.PositiveInfinity) : Math.Sqrt(explained / columns / (rest / (rows - columns)));
        }

        private double[]? DampedStep(double damping)
        {
            int all = rows + columns;
            double[] a = new double[all * columns], b = new double[all];
            slopes.CopyTo(a, 0);
            residuals.CopyTo(b, 0);
            for (int j = 0; j < columns; j++) a[((rows + j) * columns) + j] = Math.Sqrt(damping) * scale[j];
            if (!LeastSquares.Triangulate(a, b, all, columns)) return null;
            var step = new double[columns];
            for (int i = columns - 1; i >= 0; i--)
            {
                double sum = b[i];
                for (int j = i + 1; j < columns; j++) sum -= a[(i * columns) + j] * step[j];
                step[i] = sum / a[(i * columns) + i];
            }

            return step;
        }

        // Sum of squares that the straightened model foresees after a step.
        private double Predicted(double[] step)
        {
            double sum = 0;
            for (int i = 0; i < rows; i++)
            {
                double left = residuals[i];
                for (int j = 0; j < columns; j++) left -= slopes[(i * columns) + j] * step[j];
                sum += left * left;
            }

            return sum;
        }

        private NonlinearFit Report(FitStop stop, int steps, double squares)
        {
            double sd = rows > columns ? Math.Sqrt(squares / (rows - columns)) : double.NaN;
            var covariance = new double[columns * columns];
            double[] a = [.. slopes], b = new double[rows];
            if (stop == FitStop.UndefinedAtStart || !LeastSquares.Triangulate(a, b, rows, columns))
            {
                Array.Fill(covariance, double.NaN);
                return new NonlinearFit(stop, steps, parameters, covariance, squares, sd);
            }

            // Inverse of R, column by column; the covariance is sd² R⁻¹ R⁻ᵀ.
            var inverse = new double[columns * columns];
            for (int k = 0; k < columns; k++)
            {
                for (int i = k; i >= 0; i--)
                {
                    double sum = i == k ? 1 : 0;
                    for (int j = i + 1; j <= k; j++) sum -= a[(i * columns) + j] * inverse[(j * columns) + k];
                    inverse[(i * columns) + k] = sum / a[(i * columns) + i];
                }
            }

            for (int i = 0; i < columns; i++)
            {
                for (int j = 0; j < columns; j++)
                {
                    double sum = 0;
                    for (int k = Math.Max(i, j); k < columns; k++) sum += inverse[(i * columns) + k] * inverse[(j * columns) + k];
                    covariance[(i * columns) + j] = sd * sd * sum;
                }
            }

            return new NonlinearFit(stop, steps, parameters, covariance, squares, sd);
        }
    }
}
