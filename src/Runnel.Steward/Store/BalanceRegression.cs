namespace Runnel.Steward.Store;

/// <summary>Learns the gauge from the balance as a whole: over blocks of hours, the change of the store's reading is regressed on the water
/// known to have come, the weather's call and the time. For loops whose pulses are too small against the scatter to be read one by one.</summary>
/// <remarks>change = b x (known - f x weather - s x hours), linear in b, b f and b s. The reading that scatters stands on the left, so that
/// nothing is lost to attenuation.</remarks>
internal sealed class BalanceRegression
{
    private const int LeastBlocks = 24;
    private readonly double[,] _xx = new double[3, 3];
    private readonly double[] _xy = new double[3];
    private double _yy;
    private int _n;

    /// <summary>Takes one step from block to block.</summary>
    public void Take(double change, double knownL, double weatherL, double hours)
    {
        ReadOnlySpan<double> x = [knownL, -weatherL, -hours];
        for (int i = 0; i < 3; i++)
        {
            for (int j = 0; j < 3; j++) _xx[i, j] += x[i] * x[j];
            _xy[i] += x[i] * change;
        }

        _yy += change * change;
        _n++;
    }

    /// <summary>Litres for one unit of the reading and their relative standard error, or null while the data do not tell.</summary>
    public (double LitresPerUnit, double RelativeSpread)? Solve()
    {
        if (_n < LeastBlocks) return null;
        var inverse = Inverse(_xx);
        if (inverse is null) return null;
        var b = new double[3];
        double explained = 0;
        for (int i = 0; i < 3; i++)
        {
            for (int j = 0; j < 3; j++) b[i] += inverse[i, j] * _xy[j];
            explained += b[i] * _xy[i];
        }

        double variance = Math.Max(1e-18, (_yy - explained) / (_n - 3));
        double error = Math.Sqrt(variance * inverse[0, 0]);
        if (b[0] <= 0 || error > 0.6 * b[0]) return null;
        return (1 / b[0], Math.Max(0.03, error / b[0]));
    }

    private static double[,]? Inverse(double[,] m)
    {
        double c00 = (m[1, 1] * m[2, 2]) - (m[1, 2] * m[2, 1]), c01 = (m[1, 2] * m[2, 0]) - (m[1, 0] * m[2, 2]);
        double c02 = (m[1, 0] * m[2, 1]) - (m[1, 1] * m[2, 0]);
        double determinant = (m[0, 0] * c00) + (m[0, 1] * c01) + (m[0, 2] * c02);
        if (Math.Abs(determinant) < 1e-9) return null;
        double c11 = (m[0, 0] * m[2, 2]) - (m[0, 2] * m[2, 0]), c12 = (m[0, 1] * m[2, 0]) - (m[0, 0] * m[2, 1]);
        double c22 = (m[0, 0] * m[1, 1]) - (m[0, 1] * m[1, 0]);
        return new[,]
        {
            { c00 / determinant, c01 / determinant, c02 / determinant },
            { c01 / determinant, c11 / determinant, c12 / determinant },
            { c02 / determinant, c12 / determinant, c22 / determinant },
        };
    }
}
