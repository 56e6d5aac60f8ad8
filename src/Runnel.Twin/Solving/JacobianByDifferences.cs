namespace Runnel.Twin.Solving;

/// <summary>Jacobian by differences of the rates; columns of a band that share no row are moved together.</summary>
/// <remarks>Increments as in the user guide of CVODE (Hindmarsh and others 2005, ACM Trans. Math. Softw. 31:363-396): large enough that rounding does
/// not count, small against the weight of the state. Grouping after Curtis, Powell and Reid (1974), J. Inst. Math. Appl. 13:117-119.</remarks>
internal sealed class JacobianByDifferences(OdeSystem system)
{
    private const double UnitRounding = 2.22e-16, RootOfRounding = 1.49e-8;
    private readonly double[] moved = new double[system.Count], movedRates = new double[system.Count], by = new double[system.Count];

    /// <summary>Writes it; gives the equation whose rate is no number on either side of the state, or -1.</summary>
    public int Find(
        double time, ReadOnlySpan<double> state, ReadOnlySpan<double> rates, double length, ReadOnlySpan<double> weights, SquareMatrix matrix,
        ref SolverStatistics work)
    {
        int count = system.Count - system.Sums;
        double sum = 0;
        for (int i = 0; i < count; i++) sum += rates[i] * weights[i] * rates[i] * weights[i];
        double norm = Math.Sqrt(sum / count), least = norm > 0 ? 1000 * Math.Abs(length) * UnitRounding * count * norm : 1;
        int groups = matrix.IsBanded ? matrix.Lower + matrix.Upper + 1 : count, bad = -1;
        state.CopyTo(moved);
        for (int group = 0; group < groups; group++)
        {
            for (int way = 1; way >= -1; way -= 2)
            {
                for (int column = group; column < count; column += groups)
                {
                    double increment = Math.Max(RootOfRounding * Math.Abs(state[column]), least / weights[column]);
                    moved[column] = state[column] + (way * increment);
                    by[column] = moved[column] - state[column];
                }

                system.Rates(time, moved, movedRates);
                work.RateCalls++;
                int notANumber = Columns(group, groups, state, rates, matrix);
                if (notANumber < 0) break;
                if (way < 0) bad = notANumber; // where the law ends just here, the other side was tried
            }
        }

        return bad;
    }

    private int Columns(int group, int groups, ReadOnlySpan<double> state, ReadOnlySpan<double> rates, SquareMatrix matrix)
    {
        int bad = -1;
        for (int column = group; column < matrix.Count; column += groups)
        {
            moved[column] = state[column];
            // A sum may depend on every state: with a band its row cannot be told from differences of a group.
            if (groups == matrix.Count)
            {
                for (int row = matrix.Count; row < moved.Length; row++) matrix[row, column] = (movedRates[row] - rates[row]) / by[column];
            }

            int from = Math.Max(0, column - matrix.Upper), to = Math.Min(matrix.Count - 1, column + matrix.Lower);
            for (int row = from; row <= to; row++)
            {
                double slope = (movedRates[row] - rates[row]) / by[column];
                if (!double.IsFinite(slope)) bad = row;
                matrix.Entries[matrix.At(row, column)] = slope;
            }
        }

        return bad;
    }
}
