using NodaTime;
using Runnel.Science.Statistics;
using Runnel.Steward.Store;

namespace Runnel.Steward.Drift;

/// <summary>Whether a seeming loss is water that was counted but never came: the top-up's supply is empty or shut.</summary>
internal static class EmptyTopUps
{
    /// <summary>A leak is the commoner of the two (common practice: about three to one).</summary>
    private const double Prior = -1.1;

    /// <summary>Where nothing is known, a leak may be of any size over this range of its logarithm.</summary>
    private const double LeakRange = 3.7;

    private const double MostFromPulses = 6;

    /// <summary>Logarithm of the odds of "no water came" over "water leaks".</summary>
    /// <param name="since">When the loss seems to have begun.</param>
    /// <param name="rate">The loss.</param>
    /// <param name="toppedUpLPerH">What the top-ups should have brought over the same hours.</param>
    /// <remarks>A leak is as large as counted top-ups only by chance; and under a leak each top-up still shows its own before and after.</remarks>
    public static double LogOdds(LoopState state, Instant since, LossWindows.Rate rate, double toppedUpLPerH)
    {
        if (toppedUpLPerH < 0.3 * rate.LPerH) return double.NegativeInfinity;
        double spread = Math.Sqrt((rate.SpreadLPerH * rate.SpreadLPerH) + Math.Pow(0.2 * toppedUpLPerH, 2));
        double bySize = NormalDistribution.LogDensity(rate.LPerH - toppedUpLPerH, spread) + Math.Log(LeakRange * rate.LPerH);
        return Prior + bySize + ByPulses(state, since - Duration.FromHours(6));
    }

    private static double ByPulses(LoopState state, Instant since)
    {
        var healthy = Sum(state.Balance.Responses, Instant.MinValue, since, state.LearningHeld);
        var lately = Sum(state.Balance.Responses, since, Instant.MaxValue, (_, _) => false);
        if (healthy.Litres < 1 || lately.Litres < 1 || healthy.Change <= 0) return 0;
        double perLitre = healthy.Change / healthy.Litres, reading = state.Balance.ReadingSpread;
        double effect = lately.Change / lately.Litres / perLitre;
        double own = reading * Math.Sqrt(lately.Variance) / lately.Litres / perLitre;
        if (!(own > 0)) return 0;
        double habit = reading * Math.Sqrt(healthy.Variance) / healthy.Change;
        double none = own, full = Math.Sqrt((own * own) + (habit * habit) + 0.01);
        return Math.Clamp(NormalDistribution.LogDensity(effect, none) - NormalDistribution.LogDensity(effect - 1, full), -MostFromPulses, MostFromPulses);
    }

    private static (double Litres, double Change, double Variance) Sum(
        IReadOnlyList<PulseResponse> responses, Instant from, Instant to, Func<Instant, Instant, bool> held)
    {
        double litres = 0, change = 0, variance = 0;
        foreach (var pulse in responses)
        {
            if (pulse.Start < from || pulse.Start >= to || held(pulse.Start, pulse.End) || pulse.Litres <= 0) continue;
            litres += pulse.Litres;
            change += pulse.Change;
            variance += pulse.Variance;
        }

        return (litres, change, variance);
    }
}
