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
    /// <param name="sums">Rows below the square, full ones: those of equations that only sum up.</param>
    public SquareMatrix(int count, Band? band = null, int sums = 0)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        this.count = count;
        isBanded = band is { } b && b.Lower + b.Upper + b.Lower + 1 < count;
        lower = isBanded ? band!.Value.Lower : count - 1;
        upper = isBanded ? band!.Value.Upper : count - 1;
        width = isBanded ? lower + upper + lower + 1 : count;
        Entries = new double[count * width];
        Below = new double[sums * count];
    }

    internal int Count => count;

    internal int Lower => lower;

    internal int Upper => upper;

    internal int Width => width;

    internal bool IsBanded => isBanded;

    internal double[] Entries { get; }

    /// <summary>Rows below the square.</summary>
    internal double[] Below { get; }

    /// <summary>An entry; those outside of the band are 0.</summary>
    /// <param name="row">Row, from 0.</param>
    /// <param name="column">Column, from 0.</param>
    /// <returns>Value.</returns>
    public double this[int row, int column]
    {
        get => row >= count ? Below[((row - count) * count) + column] : IsWithin(row, column) ? Entries[At(row, column)] : 0;
        set
        {
            if (row >= count)
            {
                Below[((row - count) * count) + column] = value;
                return;
            }

            if (!IsWithin(row, column)) throw new ArgumentOutOfRangeException(nameof(column), column, $"lies outside of the band in row {row}");
            Entries[At(row, column)] = value;
        }
    }

    /// <summary>All entries to 0.</summary>
    public void Clear()
    {
        Array.Clear(Entries);
        Array.Clear(Below);
    }

    /// <summary>Adds to an entry.</summary>
    /// <param name="row">Row, from 0.</param>
    /// <param name="column">Column, from 0.</param>
    /// <param name="value">What is added.</param>
    public void Add(int row, int column, double value) => this[row, column] += value;

    /// <summary>The states that only sum up follow from the others: shift x = b + rows x others.</summary>
    internal void SolveBelow(Span<double> b, double shift)
    {
        var others = b[..count];
        for (int row = 0, at = 0; row < b.Length - count; row++, at += count)
        {
            double sum = b[count + row];
            for (int j = 0; j < others.Length; j++) sum += Below[at + j] * others[j];
            b[count + row] = sum / shift;
        }
    }

    /// <summary>As above with a complex shift.</summary>
    internal void SolveBelow(Span<double> bRe, Span<double> bIm, double shiftRe, double shiftIm)
    {
        double square = (shiftRe * shiftRe) + (shiftIm * shiftIm);
        for (int row = 0, at = 0; row < bRe.Length - count; row++, at += count)
        {
            double re = bRe[count + row], im = bIm[count + row];
            for (int j = 0; j < count; j++)
            {
                re += Below[at + j] * bRe[j];
                im += Below[at + j] * bIm[j];
            }

            bRe[count + row] = ((re * shiftRe) + (im * shiftIm)) / square;
            bIm[count + row] = ((im * shiftRe) - (re * shiftIm)) / square;
        }
    }

    internal bool IsWithin(int row, int column) => column >= row - lower && column <= row + upper;

    internal int At(int row, int column) => isBanded ? (row * width) + column - row + lower : (row * width) + column;
}
