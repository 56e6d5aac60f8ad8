namespace Runnel.Twin.Solving;

/// <summary>A square matrix, full or banded, with room to be split into factors in its place.</summary>
/// <remarks>
/// Row by row: a full row holds all columns, a banded one its columns from row - lower to row + upper + lower, where the last are room for the fill of
/// row exchanges. Gauss elimination with partial pivoting: Golub and Van Loan (2013), Matrix Computations, 3.4 and 4.3.5.
/// </remarks>
public sealed class SquareMatrix
{
    private readonly int count, lower, upper, width;
    private readonly bool isBanded;

    /// <summary>A matrix of zeros.</summary>
    /// <param name="count">Rows.</param>
    /// <param name="band">Band; null: full.</param>
    public SquareMatrix(int count, Band? band = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        this.count = count;
        isBanded = band is { } b && b.Lower + b.Upper + b.Lower + 1 < count;
        lower = isBanded ? band!.Value.Lower : count - 1;
        upper = isBanded ? band!.Value.Upper : count - 1;
        width = isBanded ? lower + upper + lower + 1 : count;
        Entries = new double[count * width];
    }

    internal int Count => count;

    internal int Lower => lower;

    internal int Upper => upper;

    internal int Width => width;

    internal bool IsBanded => isBanded;

    internal double[] Entries { get; }

    /// <summary>An entry; those outside of the band are 0.</summary>
    /// <param name="row">Row, from 0.</param>
    /// <param name="column">Column, from 0.</param>
    /// <returns>Value.</returns>
    public double this[int row, int column]
    {
        get => IsWithin(row, column) ? Entries[At(row, column)] : 0;
        set
        {
            if (!IsWithin(row, column)) throw new ArgumentOutOfRangeException(nameof(column), column, $"lies outside of the band in row {row}");
            Entries[At(row, column)] = value;
        }
    }

    /// <summary>All entries to 0.</summary>
    public void Clear() => Array.Clear(Entries);

    internal bool IsWithin(int row, int column) => column >= row - lower && column <= row + upper;

    internal int At(int row, int column) => isBanded ? (row * width) + column - row + lower : (row * width) + column;
}
