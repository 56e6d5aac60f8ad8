namespace Runnel.Twin.Solving;

/// <summary>Factors of (complex shift x identity - matrix); real and imaginary parts lie apart.</summary>
internal sealed class ComplexFactors(SquareMatrix shape)
{
    private readonly int count = shape.Count, lower = shape.Lower, width = shape.Width, reach = shape.IsBanded ? shape.Lower + shape.Upper : shape.Count - 1;
    private readonly bool isBanded = shape.IsBanded;
    private readonly double[] real = new double[shape.Entries.Length], imaginary = new double[shape.Entries.Length];
    private readonly int[] pivots = new int[shape.Count];

    /// <summary>Splits; false where the matrix is singular.</summary>
    public bool Split(SquareMatrix matrix, double shiftReal, double shiftImaginary)
    {
        double[] from = matrix.Entries, re = real, im = imaginary;
        for (int i = 0; i < re.Length; i++) re[i] = -from[i];
        Array.Clear(im);
        for (int i = 0; i < count; i++)
        {
            re[At(i, i)] += shiftReal;
            im[At(i, i)] = shiftImaginary;
        }

        for (int k = 0; k < count; k++)
        {
            int last = Math.Min(count - 1, k + lower), end = Math.Min(count - 1, k + reach), best = k, top = At(k, k);
            double most = Math.Abs(re[top]) + Math.Abs(im[top]);
            for (int row = k + 1; row <= last; row++)
            {
                int at = At(row, k);
                double size = Math.Abs(re[at]) + Math.Abs(im[at]);
                if (size > most) (most, best) = (size, row);
            }

            pivots[k] = best;
            if (!(most > 0 && double.IsFinite(most))) return false;
            int span = end - k + 1;
            if (best != k)
            {
                int other = At(best, k);
                for (int j = 0; j < span; j++)
                {
                    (re[top + j], re[other + j]) = (re[other + j], re[top + j]);
                    (im[top + j], im[other + j]) = (im[other + j], im[top + j]);
                }
            }

            double square = (re[top] * re[top]) + (im[top] * im[top]), inverseRe = re[top] / square, inverseIm = -im[top] / square;
            var pivotRe = re.AsSpan(top, span);
            var pivotIm = im.AsSpan(top, span);
            for (int row = k + 1; row <= last; row++)
            {
                int at = At(row, k);
                var hereRe = re.AsSpan(at, span);
                var hereIm = im.AsSpan(at, span);
                if (hereRe[0] == 0 && hereIm[0] == 0) continue;
                double factorRe = (hereRe[0] * inverseRe) - (hereIm[0] * inverseIm), factorIm = (hereRe[0] * inverseIm) + (hereIm[0] * inverseRe);
                (hereRe[0], hereIm[0]) = (factorRe, factorIm);
                for (int j = 1; j < span; j++)
                {
                    hereRe[j] -= (factorRe * pivotRe[j]) - (factorIm * pivotIm[j]);
                    hereIm[j] -= (factorRe * pivotIm[j]) + (factorIm * pivotRe[j]);
                }
            }
        }

        return true;
    }

    public void Solve(Span<double> bRe, Span<double> bIm)
    {
        double[] re = real, im = imaginary;
        for (int k = 0; k < count; k++)
        {
            int best = pivots[k];
            if (best != k)
            {
                (bRe[k], bRe[best]) = (bRe[best], bRe[k]);
                (bIm[k], bIm[best]) = (bIm[best], bIm[k]);
            }

            double valueRe = bRe[k], valueIm = bIm[k];
            int last = Math.Min(count - 1, k + lower);
            for (int row = k + 1; row <= last; row++)
            {
                int at = At(row, k);
                bRe[row] -= (re[at] * valueRe) - (im[at] * valueIm);
                bIm[row] -= (re[at] * valueIm) + (im[at] * valueRe);
            }
        }

        for (int k = count - 1; k >= 0; k--)
        {
            int end = Math.Min(count - 1, k + reach), at = At(k, k);
            double sumRe = bRe[k], sumIm = bIm[k];
            for (int j = 1; j <= end - k; j++)
            {
                double xRe = bRe[k + j], xIm = bIm[k + j];
                sumRe -= (re[at + j] * xRe) - (im[at + j] * xIm);
                sumIm -= (re[at + j] * xIm) + (im[at + j] * xRe);
            }

            double square = (re[at] * re[at]) + (im[at] * im[at]);
            bRe[k] = ((sumRe * re[at]) + (sumIm * im[at])) / square;
            bIm[k] = ((sumIm * re[at]) - (sumRe * im[at])) / square;
        }
    }

    private int At(int row, int column) => isBanded ? (row * width) + column - row + lower : (row * width) + column;
}
