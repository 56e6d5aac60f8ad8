namespace Runnel.Science.Statistics;

/// <summary>A linear fit.</summary>
/// <param name="Coefficients">One for each column of the design.</param>
/// <param name="StandardErrors">Their standard errors; NaN without spare values.</param>
/// <param name="ResidualSd">Standard deviation of the residuals, divisor n - p; NaN without spare values.</param>
public sealed record LinearFit(IReadOnlyList<double> Coefficients, IReadOnlyList<double> StandardErrors, double ResidualSd);

/// <summary>Linear least squares with a few columns.</summary>
/// <remarks>Householder QR, as in Golub and Van Loan, Matrix Computations, chapter 5; standard errors from the inverse of R.</remarks>
public static class LeastSquares
{
    /// <summary>Fits y to the columns of a design; put a column of ones in for an intercept.</summary>
    /// <param name="design">Row by row: <paramref name="columns"/> values for each y.</param>
    /// <param name="columns">Number of columns, 1 to 50.</param>
    /// <param name="y">Values to explain, as many as rows.</param>
    /// <param name="weights">One weight of 0 or more for each row, or empty for equal weights.</param>
    /// <returns>The fit, or null where the columns depend on each other.</returns>
    /// <exception cref="ArgumentException">Lengths do not fit or fewer rows than columns.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static LinearFit? Fit(ReadOnlySpan<double> design, int columns, ReadOnlySpan<double> y, ReadOnlySpan<double> weights = default)
    {
        Require.InRange(columns, 1, 50);
        Require.Series(y, columns);
        Require.Series(design, columns * columns);
        int rows = y.Length, used = rows;
        Require.SameLength(design, rows * columns);
        double[] a = design.ToArray(), b = y.ToArray();
        if (!weights.IsEmpty)
        {
            Require.SameLength(weights, rows);
            Require.Series(weights, 1);
            for (int i = 0; i < rows; i++)
            {
                Require.NotNegative(weights[i], nameof(weights));
                if (weights[i] == 0) used--;
                double root = Math.Sqrt(weights[i]);
                b[i] *= root;
                for (int j = 0; j < columns; j++) a[(i * columns) + j] *= root;
            }
        }

        if (used < columns || !Triangulate(a, b, rows, columns)) return null;
        var coefficients = new double[columns];
        for (int i = columns - 1; i >= 0; i--)
        {
            double sum = b[i];
            for (int j = i + 1; j < columns; j++) sum -= a[(i * columns) + j] * coefficients[j];
            coefficients[i] = sum / a[(i * columns) + i];
        }

        double squares = 0;
        for (int i = columns; i < rows; i++) squares += b[i] * b[i];
        double sd = used > columns ? Math.Sqrt(squares / (used - columns)) : double.NaN;
        return new LinearFit(coefficients, Errors(a, columns, sd), sd);
    }

    /// <summary>Fits a straight line with an intercept.</summary>
    /// <param name="x">Places, two or more different.</param>
    /// <param name="y">Values, one for each place.</param>
    /// <returns>Coefficients: intercept, then slope; null where all places are equal.</returns>
    /// <exception cref="ArgumentException">Lengths do not fit.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or infinite.</exception>
    public static LinearFit? Line(ReadOnlySpan<double> x, ReadOnlySpan<double> y) => Fit(LineDesign(x), 2, y);

    /// <summary>The design of a straight line: a one and x for each row.</summary>
    internal static double[] LineDesign(ReadOnlySpan<double> x)
    {
        var design = new double[2 * x.Length];
        for (int i = 0; i < x.Length; i++) (design[2 * i], design[(2 * i) + 1]) = (1, x[i]);
        return design;
    }

    /// <summary>Householder reflections: R in the upper triangle of a, the reflected right side in b; false where columns depend on each other.</summary>
    internal static bool Triangulate(double[] a, double[] b, int rows, int columns)
    {
        for (int k = 0; k < columns; k++)
        {
            double norm = 0, full = 0;
            for (int i = 0; i < rows; i++)
            {
                double square = a[(i * columns) + k] * a[(i * columns) + k];
                full += square;
                if (i >= k) norm += square;
            }

            // What is left of a column that the others explain is rounding only.
            if (norm <= 1e-24 * full || norm == 0) return false;
            double pivot = a[(k * columns) + k], r = pivot > 0 ? -Math.Sqrt(norm) : Math.Sqrt(norm);
            double head = pivot - r, scale = -1 / (r * head);
            a[(k * columns) + k] = head;
            for (int j = k + 1; j <= columns; j++)
            {
                double dot = 0;
                for (int i = k; i < rows; i++) dot += a[(i * columns) + k] * (j < columns ? a[(i * columns) + j] : b[i]);
                for (int i = k; i < rows; i++)
                {
                    double step = dot * scale * a[(i * columns) + k];
                    if (j < columns) a[(i * columns) + j] -= step;
                    else b[i] -= step;
                }
            }

            a[(k * columns) + k] = r;
        }

        return true;
    }

    private static double[] Errors(double[] a, int columns, double sd)
    {
        var errors = new double[columns];
        var column = new double[columns];
        for (int k = 0; k < columns; k++)
        {
            // Column k of the inverse of R, added up by rows.
            Array.Clear(column);
            for (int i = k; i >= 0; i--)
            {
                double sum = i == k ? 1 : 0;
                for (int j = i + 1; j <= k; j++) sum -= a[(i * columns) + j] * column[j];
                column[i] = sum / a[(i * columns) + i];
                errors[i] += column[i] * column[i];
            }
        }

        for (int i = 0; i < columns; i++) errors[i] = sd * Math.Sqrt(errors[i]);
        return errors;
    }
}
