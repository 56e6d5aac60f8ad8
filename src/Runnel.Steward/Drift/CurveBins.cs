using NodaTime;
using Runnel.Steward.Cycles;

namespace Runnel.Steward.Drift;

/// <summary>Gathers undisturbed cycles into bins of two hours.</summary>
internal sealed class CurveBins
{
    private const long BinS = 7200;

    /// <summary>Off the median by more than this share: a joined or a split cycle.</summary>
    private const double Odd = 0.6;
    private readonly List<CurveBin> _bins = [];
    private readonly List<(double FillS, double RunS)> _open = [];
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
            _open.Add((0.5 * (cycle.FillS + after.FillS), cycle.RunS));
        }
    }

    private void Close()
    {
        if (_open.Count >= 2)
        {
            var (fill, fillVariance) = CentralMean([.. _open.Select(o => o.FillS)]);
            var (run, runVariance) = CentralMean([.. _open.Select(o => o.RunS)]);
            _bins.Add(new CurveBin(_start, _open.Count, 1 / fill, 1 / run, fillVariance / Math.Pow(fill, 4), runVariance / Math.Pow(run, 4)));
        }

        _open.Clear();
    }

    /// <summary>Mean without those that cannot be cycles, and the variance of that mean. It is the times that are averaged, not their
    /// inverses, and nothing else is trimmed: in a log polled by the minute a run reads 2 or 3 min, and only the plain mean is true.</summary>
    private static (double Mean, double Variance) CentralMean(double[] values)
    {
        Array.Sort(values);
        double median = values[values.Length / 2], sum = 0, squares = 0;
        int n = 0;
        foreach (double value in values)
        {
            if (Math.Abs(value - median) > Odd * median) continue;
            sum += value;
            squares += value * value;
            n++;
        }

        double mean = sum / n;
        return (mean, n > 1 ? Math.Max(0, squares - (n * mean * mean)) / (n - 1) / n : mean * mean * 0.01);
    }
}
