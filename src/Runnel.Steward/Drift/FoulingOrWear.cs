using NodaTime;
using Runnel.Steward.Store;

namespace Runnel.Steward.Drift;

/// <summary>Parts fouled drains from a worn pump by what the water shows: fouled drains hold water back, so that the store seems to shrink
/// and pulses do less; a worn pump leaves both alone.</summary>
/// <remarks>Two normal likelihoods for each sign: no change of it under wear, and under fouling as much as would move the runs this fast.
/// Drains move the runs only by a part of their own fouling, so that the water would show several times the ramp.</remarks>
internal static class FoulingOrWear
{
    /// <summary>Fouling moves store and pulses at least so many times as far as it moves the runs (judged on invented logs, see
    /// docs/detection.md).</summary>
    private const double WaterOverRuns = 2.5;

    /// <summary>Logarithm of the odds of fouling before any word from the water: wear is the commoner reason for longer runs (common
    /// practice).</summary>
    private const double WhereLonger = -0.8, WhereShorter = 1;

    /// <summary>How far the water speaks for fouling, 0 to 1.</summary>
    /// <param name="state">The loop as read by now.</param>
    /// <param name="responses">What the pulses did.</param>
    /// <param name="since">Onset of the ramp.</param>
    /// <param name="rampPerDay">By what share a day the runs move, positive.</param>
    /// <param name="runsAreLonger">The runs grow longer, rather than shorter.</param>
    public static double ShareOfFouling(LoopState state, ResponseWatch responses, Instant since, double rampPerDay, bool runsAreLonger) =>
        1 / (1 + Math.Exp(-((runsAreLonger ? WhereLonger : WhereShorter) + OfPulses(state, responses, since, rampPerDay) + OfStore(state, since, rampPerDay))));

    private static double OfPulses(LoopState state, ResponseWatch responses, Instant since, double rampPerDay)
    {
        var (z, ratio, count) = responses.Since(since);
        if (count == 0 || Math.Abs(z) <= 1e-6) return 0;
        double error = Math.Max(0.02, Math.Abs((ratio - 1) / z));
        return LikelihoodRatio(1 - ratio, Math.Min(0.4, WaterOverRuns * rampPerDay * (state.Now - since).TotalDays / 2), error);
    }

    private static double OfStore(LoopState state, Instant since, double rampPerDay)
    {
        var balance = state.Balance;
        int last = balance.HourCount - 2, first = Math.Max(last - 96, state.Hours.IndexOf(since));
        if (last - first < 20 || !balance.Gauge.Known) return 0;
        double k = balance.Gauge.LitresPerUnit, span = (last - first) / 24.0, use = 0, pulses = 0;
        for (int hour = first; hour <= last; hour++)
        {
            use += balance.UseL(hour) / span;
            pulses += (state.Hours.Hours[hour].TopUpL + state.Hours.Hours[hour].BleedL) / span;
        }

        var (litres, counts) = balance.Unexplained(first, last);
        double shrinkage = -24 * HourSeries.Slope(litres, counts, 0, litres.Length) / k;
        double error = Math.Sqrt(Math.Pow(6 + (0.12 * use), 2) + Math.Pow(balance.Gauge.RelativeSpread * pulses, 2)) / k / Math.Sqrt(Math.Max(1, span));
        return double.IsNaN(shrinkage) ? 0 : LikelihoodRatio(shrinkage, WaterOverRuns * rampPerDay, error);
    }

    /// <summary>Log-likelihood ratio of a mean of <paramref name="expected"/> over a mean of nought; no more than 4 either way.</summary>
    private static double LikelihoodRatio(double seen, double expected, double error) =>
        Math.Clamp(expected * (Math.Clamp(seen, -expected, 2 * expected) - (expected / 2)) / (error * error), -4, 4);
}
