using NodaTime;
using Runnel.Steward.Cycles;

namespace Runnel.Steward.Drift;

/// <summary>Gathers undisturbed cycles into bins of two hours.</summary>
internal sealed class CurveBins
{
    private const long BinS = 7200;
    private readonly List<CurveBin> _bins = [];
    private readonly List<(double InverseFill, double InverseRun)> _open = [];
    private Instant _start;
    private int _next;

    /// <summary>Finished bins, oldest first.</summary>
    public IReadOnlyList<CurveBin> Bins => _bins;

    /// <summary>Takes the cycles whose following fill is known too.</summary>
    public void Take(IReadOnlyList<Cycle> cycles, double usualFillS)
    {
        for (; _next + 1 < cycles.Count; _next++)
        {
            var cycle = cycles[_next];
            var after = cycles[_next + 1];
            var bin = Instant.FromUnixTimeSeconds(cycle.RunStart.ToUnixTimeSeconds() / BinS * BinS);
            if (bin != _start) Close();
            _start = bin;
            if (cycle.Disturbed || after.Disturbed || after.FillStart != cycle.RunEnd || usualFillS == 0) continue;

            // A joined or split cycle is no cycle.
            if (cycle.FillS > 8 * usualFillS || cycle.FillS < usualFillS / 8 || after.FillS > 8 * usualFillS) continue;
            _open.Add((0.5 * ((1 / cycle.FillS) + (1 / after.FillS)), 1 / cycle.RunS));
        }
    }

    private void Close()
    {
        if (_open.Count >= 2)
        {
            var (fill, fillVariance) = TrimmedMean([.. _open.Select(o => o.InverseFill)]);
            var (run, runVariance) = TrimmedMean([.. _open.Select(o => o.InverseRun)]);
            _bins.Add(new CurveBin(_start, _open.Count, fill, run, fillVariance, runVariance));
        }

        _open.Clear();
    }

    /// <summary>Mean without the outer tenth at each end, and the variance of that mean.</summary>
    private static (double Mean, double Variance) TrimmedMean(double[] values)
    {
        Array.Sort(values);
        int cut = values.Length >= 5 ? Math.Max(1, values.Length / 10) : 0, n = values.Length - (2 * cut);
        double mean = 0, squares = 0;
        for (int i = cut; i < values.Length - cut; i++) mean += values[i] / n;
        for (int i = cut; i < values.Length - cut; i++) squares += (values[i] - mean) * (values[i] - mean);

        // What was trimmed away still scattered: near normal values keep about 0.6 of their variance.
        double kept = cut > 0 ? 0.6 : 1;
        return (mean, n > 1 ? squares / (n - 1) / kept / n : mean * mean * 0.01);
    }
}
