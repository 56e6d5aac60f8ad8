namespace Runnel.Steward.Drift;

/// <summary>Two hours of undisturbed cycles: mean of 1/fill about each run and mean of 1/run, per second, and their variances.</summary>
internal readonly record struct CurveBin(
    NodaTime.Instant Start, int Count, double InverseFill, double InverseRun, double InverseFillVariance, double InverseRunVariance);

/// <summary>How fast a run lowers the sump over how fast the fills about it raise it: in health a straight line, since the pump's flow
/// less the inflow is what lowers it.</summary>
/// <remarks>1/run = P/V - k/fill with pump flow P, band V, and k a little above 1 because the inflow is greater while the pump runs
/// (closed form of the two-level sump; see docs/detection.md). The scatter of 1/fill in a bin's mean flattens a plain regression, so
/// its known variance is taken out of the spread (errors in the regressor: Fuller 1987, Measurement Error Models), and a slope that the
/// data hardly show is held near the physical one.</remarks>
internal sealed class RunCurve
{
    // k is near 1.2 and hardly ever outside 0.4 to 2.4 (the two-level sump's own physics); used only as far as the data are silent.
    private const double UsualSlope = -1.2, SlopeSpread = 0.5, SteepestSlope = -2.6, FlattestSlope = -0.2;

    public double MeanInverseFill { get; private init; }
    public double MeanInverseRun { get; private init; }
    public double Slope { get; private init; }
    public double SlopeError { get; private init; }
    public double LeastInverseFill { get; private init; }
    public double GreatestInverseFill { get; private init; }
    public int BinCount { get; private init; }

    /// <summary>The line through healthy bins; null where there are too few.</summary>
    public static RunCurve? Fit(IReadOnlyList<CurveBin> bins)
    {
        if (bins.Count < 12) return null;
        var weights = bins.Select(b => (double)Math.Min(b.Count, 12)).ToArray();
        double mx = 0, my = 0, slope = UsualSlope, error = SlopeSpread;
        for (int pass = 0; pass < 4; pass++)
        {
            double sw = 0, sx = 0, sy = 0;
            for (int i = 0; i < bins.Count; i++)
            {
                sw += weights[i];
                sx += weights[i] * bins[i].InverseFill;
                sy += weights[i] * bins[i].InverseRun;
            }

            (mx, my) = (sx / sw, sy / sw);
            double sxx = 0, sxy = 0, noise = 0, rest = 0;
            for (int i = 0; i < bins.Count; i++)
            {
                double dx = bins[i].InverseFill - mx, dy = bins[i].InverseRun - my;
                sxx += weights[i] * dx * dx;
                sxy += weights[i] * dx * dy;
                noise += weights[i] * bins[i].InverseFillVariance;
                double off = dy - (slope * dx);
                rest += weights[i] * off * off;
            }

            double trueSxx = Math.Max(0.15 * sxx, sxx - noise);
            double offVariance = rest / sw;
            double dataError2 = offVariance * sw / bins.Count / trueSxx * 3;
            double prior = 1 / (SlopeSpread * SlopeSpread), data = 1 / Math.Max(1e-6, dataError2);
            slope = ((prior * UsualSlope) + (data * sxy / trueSxx)) / (prior + data);
            error = 1 / Math.Sqrt(prior + data);
            slope = Math.Clamp(slope, SteepestSlope, FlattestSlope);

            // Tukey's weights: a bin off by more than five of its spreads does not count.
            double scale = Math.Sqrt(Math.Max(offVariance, 1e-18));
            for (int i = 0; i < bins.Count; i++)
            {
                double u = (bins[i].InverseRun - my - (slope * (bins[i].InverseFill - mx))) / (4.7 * scale);
                double t = 1 - (u * u);
                weights[i] = Math.Abs(u) >= 1 ? 0 : Math.Min(bins[i].Count, 12) * t * t;
            }
        }

        return new RunCurve
        {
            MeanInverseFill = mx,
            MeanInverseRun = my,
            Slope = slope,
            SlopeError = error,
            LeastInverseFill = bins.Select(b => b.InverseFill).Order().ElementAt(bins.Count / 50),
            GreatestInverseFill = bins.Select(b => b.InverseFill).OrderDescending().ElementAt(bins.Count / 50),
            BinCount = bins.Count,
        };
    }

    /// <summary>1/run that health calls for at that 1/fill.</summary>
    public double Expected(double inverseFill) => Math.Max(0.02 * MeanInverseRun, MeanInverseRun + (Slope * (inverseFill - MeanInverseFill)));

    /// <summary>How much longer the run was than health calls for, as a share: above 0 longer, below 0 shorter.</summary>
    public double Departure(CurveBin bin) => Math.Log(Expected(bin.InverseFill) / bin.InverseRun);

    /// <summary>Standard error of a departure at that 1/fill: from the slope's own error, and from the bend that a straight line has not
    /// seen outside the fills it was learnt from.</summary>
    public double DepartureError(double inverseFill)
    {
        double outside = Math.Max(0, Math.Max(LeastInverseFill - inverseFill, inverseFill - GreatestInverseFill)) / MeanInverseFill;
        double bySlope = Math.Abs(SlopeError * (inverseFill - MeanInverseFill)) / Expected(inverseFill);
        return Math.Sqrt((bySlope * bySlope) + (0.25 * outside * outside));
    }
}
