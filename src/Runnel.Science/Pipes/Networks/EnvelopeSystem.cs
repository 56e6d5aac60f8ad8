namespace Runnel.Science.Pipes.Networks;

/// <summary>Symmetric positive definite equations whose rows are kept from their first entry to the diagonal; solved in place by Cholesky.</summary>
/// <remarks>George and Liu (1981), Computer Solution of Large Sparse Positive Definite Systems, chapter 4.</remarks>
internal sealed class EnvelopeSystem
{
    private readonly int[] first, start;
    private readonly double[] entries;

    /// <param name="firstInRow">Column of the first entry in each row, the row's own number or less.</param>
    public EnvelopeSystem(int[] firstInRow)
    {
        first = firstInRow;
        start = new int[first.Length];
        int count = 0;
        for (int row = 0; row < first.Length; row++)
        {
            start[row] = count - first[row];
            count += row - first[row] + 1;
        }

        entries = new double[count];
    }

    public void Clear() => Array.Clear(entries);

    /// <summary>Adds to an entry; either order of row and column.</summary>
    public void Add(int row, int column, double value) =>
        entries[row >= column ? start[row] + column : start[column] + row] += value;

    /// <summary>Solves; the solution takes the place of the right side. The matrix is used up.</summary>
    public void Solve(Span<double> b)
    {
        for (int row = 0; row < first.Length; row++)
        {
            int from = first[row], at = start[row];
            double diagonal = entries[at + row], own = diagonal, right = b[row];
            for (int column = from; column < row; column++)
            {
                int above = start[column];
                double sum = entries[at + column];
                for (int k = Math.Max(from, first[column]); k < column; k++) sum -= entries[at + k] * entries[above + k];
                sum /= entries[above + column];
                entries[at + column] = sum;
                diagonal -= sum * sum;
                right -= sum * b[column];
            }

            // Rounding must not turn a part that hangs on shut links only into a root of a negative number.
            double root = Math.Sqrt(Math.Max(diagonal, 1e-15 * own));
            entries[at + row] = root;
            b[row] = right / root;
        }

        for (int row = first.Length - 1; row >= 0; row--)
        {
            int at = start[row];
            double value = b[row] / entries[at + row];
            b[row] = value;
            for (int k = first[row]; k < row; k++) b[k] -= entries[at + k] * value;
        }
    }
}
