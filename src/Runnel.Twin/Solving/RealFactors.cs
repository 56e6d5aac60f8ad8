namespace Runnel.Twin.Solving;

/// <summary>Factors of (shift x identity - matrix), real.</summary>
internal sealed class RealFactors(SquareMatrix shape)
{
    private readonly int count = shape.Count, lower = shape.Lower, width = shape.Width, reach = shape.IsBanded ? shape.Lower + shape.Upper : shape.Count - 1;
    private readonly bool isBanded = shape.IsBanded;
    private readonly double[] entries = new double[shape.Entries.Length];
    private readonly int[] pivots = new int[shape.Count];

    /// <summary>Splits; false where the matrix is singular.</summary>
    public bool Split(SquareMatrix matrix, double shift)
    {
        double[] from = matrix.Entries, a = entries;
        for (int i = 0; i < a.Length; i++) a[i] = -from[i];
        for (int i = 0; i < count; i++) a[At(i, i)] += shift;
        for (int k = 0; k < count; k++)
        {
            int last = Math.Min(count - 1, k + lower), end = Math.Min(count - 1, k + reach), best = k;
            double most = Math.Abs(a[At(k, k)]);
            for (int row = k + 1; row <= last; row++)
            {
                double size = Math.Abs(a[At(row, k)]);
                if (size > most) (most, best) = (size, row);
            }

            pivots[k] = best;
            if (!(most > 0 && double.IsFinite(most))) return false;
            int top = At(k, k), span = end - k + 1;
            if (best != k) Swap(a.AsSpan(top, span), a.AsSpan(At(best, k), span));
            double inverse = 1 / a[top];
            var pivotRow = a.AsSpan(top, span);
            for (int row = k + 1; row <= last; row++)
            {
                var here = a.AsSpan(At(row, k), span);
                if (here[0] == 0) continue;
                double factor = here[0] * inverse;
                here[0] = factor;
                for (int j = 1; j < here.Length; j++) here[j] -= factor * pivotRow[j];
            }
        }

        return true;
    }

    public void Solve(Span<double> b)
    {
        double[] a = entries;
        for (int k = 0; k < count; k++)
        {
            int best = pivots[k];
            if (best != k) (b[k], b[best]) = (b[best], b[k]);
            double value = b[k];
            if (value == 0) continue;
            int last = Math.Min(count - 1, k + lower);
            for (int row = k + 1; row <= last; row++) b[row] -= a[At(row, k)] * value;
        }

        for (int k = count - 1; k >= 0; k--)
        {
            int end = Math.Min(count - 1, k + reach);
            var row = a.AsSpan(At(k, k), end - k + 1);
            double sum = b[k];
            for (int j = 1; j < row.Length; j++) sum -= row[j] * b[k + j];
            b[k] = sum / row[0];
        }
    }

    private int At(int row, int column) => isBanded ? (row * width) + column - row + lower : (row * width) + column;

    private static void Swap(Span<double> a, Span<double> b)
    {
        for (int i = 0; i < a.Length; i++) (a[i], b[i]) = (b[i], a[i]);
    }
}
