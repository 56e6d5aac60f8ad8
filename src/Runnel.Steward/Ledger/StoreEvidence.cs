using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Ledger;

/// <summary>The loop's store by the hour, in litres short of full, and the sump's level where it is measured.</summary>
internal static class StoreEvidence
{
    /// <summary>Full is what the loop held in its fullest tenth of the time.</summary>
    private const double FullQuantile = 0.9;

    public static IReadOnlyList<TimeBand> LitresShort(LoopState state)
    {
        var balance = state.Balance;
        if (!balance.Gauge.Known || state.Store.Values.Count < 24) return [];
        double full = FullReading(state), k = balance.Gauge.LitresPerUnit;
        var points = new List<TimeBand>();
        for (int hour = 0; hour < balance.HourCount; hour++)
        {
            var start = balance.Start(hour);
            var (g, n) = state.Store.Between(start, start + Duration.FromHours(1));
            if (n == 0) continue;
            double litres = k * (full - g);
            double error = Math.Sqrt(Math.Pow(balance.Gauge.RelativeSpread * litres, 2) + (1.6 * Math.Pow(k * balance.ReadingSpread, 2) / n));
            points.Add(new TimeBand(start + Duration.FromMinutes(30), litres, litres - (1.645 * error), litres + (1.645 * error)));
        }

        return points;
    }

    public static IReadOnlyList<TimeBand> LevelMm(LoopState state)
    {
        if (state.Kit.BandL is not null || state.Kit.SumpLevel < 0) return [];
        var points = new List<TimeBand>();
        for (int hour = 0; hour < state.Balance.HourCount; hour++)
        {
            var start = state.Balance.Start(hour);
            var (level, n) = state.Store.Between(start, start + Duration.FromHours(1));
            double error = 1.645 * state.Balance.ReadingSpread;
            if (n > 0) points.Add(new TimeBand(start + Duration.FromMinutes(30), level, level - error, level + error));
        }

        return points;
    }

    private static double FullReading(LoopState state)
    {
        double[] sorted = [.. state.Store.Values.Order()];
        return sorted[(int)(FullQuantile * (sorted.Length - 1))];
    }
}
