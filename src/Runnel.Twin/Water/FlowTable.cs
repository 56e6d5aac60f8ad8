namespace Runnel.Twin.Water;

/// <summary>The flow of a line against the root of the head that drives it, as a smooth curve through exact points; m and m3/s.</summary>
/// <remarks>
/// Against the root both a pipe's and a pump's flow are nearly straight lines, so that few points do. Cubic pieces whose slopes never overshoot: Fritsch and
/// Carlson (1980), SIAM J. Numer. Anal. 17:238-246.
/// </remarks>
internal sealed class FlowTable
{
    private const int Pieces = 400;
    private readonly double[] flows, slopes;
    private readonly double width, greatest;

    /// <param name="headM">Head that a flow needs: 0 at no flow, always rising.</param>
    /// <param name="greatestHeadM">Head to which the table goes; beyond it the curve goes on straight.</param>
    /// <param name="firstFlow">A flow of the right size, m3/s.</param>
    public FlowTable(Func<double, double> headM, double greatestHeadM, double firstFlow)
    {
        greatest = Math.Sqrt(greatestHeadM);
        width = greatest / Pieces;
        flows = new double[Pieces + 1];
        slopes = new double[Pieces + 1];
        for (int i = 1; i <= Pieces; i++)
        {
            double x = i * width, guess = i == 1 ? firstFlow : flows[i - 1] + (i > 2 ? flows[i - 1] - flows[i - 2] : 0);
            flows[i] = Find(headM, x * x, flows[i - 1], guess);
        }

        for (int i = 1; i < Pieces; i++)
        {
            double before = flows[i] - flows[i - 1], after = flows[i + 1] - flows[i];
            slopes[i] = before * after <= 0 ? 0 : 2 * before * after / (before + after);
        }

        slopes[0] = Math.Max(0, Math.Min(flows[1], (2 * flows[1]) - slopes[1]));
        slopes[Pieces] = flows[Pieces] - flows[Pieces - 1];
    }

    /// <summary>Flow at a head, m3/s; none without head.</summary>
    public double At(double headM)
    {
        if (headM <= 0) return 0;
        double at = Math.Sqrt(headM) / width;
        if (at >= Pieces) return flows[Pieces] + ((at - Pieces) * slopes[Pieces]);
        int i = (int)at;
        double t = at - i, r = 1 - t, rise = flows[i + 1] - flows[i];
        return flows[i] + (t * (rise + (r * ((r * (slopes[i] - rise)) - (t * (slopes[i + 1] - rise))))));
    }

    // The head rises with the flow: regula falsi within a bracket (Illinois).
    private static double Find(Func<double, double> headM, double wanted, double low, double guess)
    {
        double high = Math.Max(guess, low + 1e-12), below = headM(low) - wanted, above = headM(high) - wanted;
        while (above < 0)
        {
            (low, below) = (high, above);
            high *= 1.5;
            above = headM(high) - wanted;
        }

        int side = 0;
        for (int i = 0; i < 100 && high - low > 1e-13 * high; i++)
        {
            double middle = ((low * above) - (high * below)) / (above - below);
            if (!(middle > low && middle < high)) middle = (low + high) / 2;
            double value = headM(middle) - wanted;
            if (value == 0) return middle;
            if (value > 0)
            {
                (high, above) = (middle, value);
                if (side > 0) below /= 2;
                side = 1;
            }
            else
            {
                (low, below) = (middle, value);
                if (side < 0) above /= 2;
                side = -1;
            }
        }

        return (low + high) / 2;
    }
}
