namespace Runnel.Science.Statistics;

/// <summary>Solves a small full system of linear equations.</summary>
public static class DenseSystem
{
    /// <summary>Gauss elimination with partial pivoting; overwrites both, the solution stands in <paramref name="b"/>.</summary>
    /// <param name="a">Matrix, row by row, n x n.</param>
    /// <param name="b">Right side, n.</param>
    /// <returns>False when the matrix is singular.</returns>
    public static bool Solve(Span<double> a, Span<double> b)
    {
        int n = b.Length;
        for (int column = 0; column < n; column++)
        {
            int pivot = column;
            for (int row = column + 1; row < n; row++)
            {
                if (Math.Abs(a[(row * n) + column]) > Math.Abs(a[(pivot * n) + column])) pivot = row;
            }

            if (a[(pivot * n) + column] == 0) return false;
            if (pivot != column)
            {
                for (int k = column; k < n; k++) (a[(column * n) + k], a[(pivot * n) + k]) = (a[(pivot * n) + k], a[(column * n) + k]);
                (b[column], b[pivot]) = (b[pivot], b[column]);
            }

            for (int row = column + 1; row < n; row++)
            {
                double factor = a[(row * n) + column] / a[(column * n) + column];
                if (factor == 0) continue;
                for (int k = column + 1; k < n; k++) a[(row * n) + k] -= factor * a[(column * n) + k];
                b[row] -= factor * b[column];
            }
        }

        for (int row = n - 1; row >= 0; row--)
        {
            double sum = b[row];
            for (int k = row + 1; k < n; k++) sum -= a[(row * n) + k] * b[k];
            b[row] = sum / a[(row * n) + row];
        }

        return true;
    }
}
