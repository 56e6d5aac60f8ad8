using Runnel.Steward.Cycles;

namespace Runnel.Steward.Watches;

/// <summary>What the last cycles of a pump on level switches were like.</summary>
/// <param name="FillS">Usual fill, s.</param>
/// <param name="RunS">Usual run, s.</param>
/// <param name="LongFillS">A long fill among them, s: the second longest, as one in a row may be two joined by a lost edge.</param>
/// <param name="LongRunS">A long run, s, likewise.</param>
/// <param name="RatePerS">1/fill + 1/run: pump flow over band. It is the same for a full loop and a short one.</param>
internal sealed record CycleHabit(double FillS, double RunS, double LongFillS, double LongRunS, double RatePerS)
{
    /// <summary>Cycles needed before a habit can be told.</summary>
    public const int Least = 6;

    /// <summary>Middle of the last four fills, s.</summary>
    public static double LatestFillS(IReadOnlyList<Cycle> cycles)
    {
        double[] last = [.. cycles.TakeLast(4).Select(c => c.FillS).Order()];
        return 0.5 * (last[(last.Length - 1) / 2] + last[last.Length / 2]);
    }

    /// <summary>The habit of the last <paramref name="count"/> cycles up to position <paramref name="end"/>, or null where there are too few.</summary>
    public static CycleHabit? Of(IReadOnlyList<Cycle> cycles, int end, int count)
    {
        int from = Math.Max(0, end - count);
        if (end - from < Least) return null;
        var fills = new double[end - from];
        var runs = new double[end - from];
        var rates = new double[end - from];
        for (int i = from; i < end; i++)
        {
            fills[i - from] = cycles[i].FillS;
            runs[i - from] = cycles[i].RunS;
            rates[i - from] = (1 / cycles[i].FillS) + (1 / cycles[i].RunS);
        }

        Array.Sort(fills);
        Array.Sort(runs);
        Array.Sort(rates);
        int middle = fills.Length / 2;
        return new CycleHabit(fills[middle], runs[middle], fills[^2], runs[^2], rates[middle]);
    }
}
