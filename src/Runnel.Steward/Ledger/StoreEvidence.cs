using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Ledger;

/// <summary>The loop's store by the hour, in litres short of full, and the sump's level where it is measured.</summary>
internal static class StoreEvidence
{
    /// <summary>Full is what the loop held in its fullest tenth of the time.</summary>
    private const double FullQuantile = 0.9;

    /// <summary>Share of the reckoned use by which it may be off.</summary>
    private const double UseOff = 0.15;

    /// <summary>As the gauge shows while it can be trusted; while it is misled, the shortage at the onset, and what came and went since.</summary>
    public static IReadOnlyList<TimeBand> LitresShort(LoopState state, LedgerDoubts doubts)
    {
        var balance = state.Balance;
        if (!balance.Gauge.Known || state.Store.Values.Count < 24) return [];
        double full = FullReading(state), k = balance.Gauge.LitresPerUnit;
        var points = new List<TimeBand>();
        TimeBand? onset = null;
        double used = 0, known = 0;
        for (int hour = 0; hour < balance.HourCount; hour++)
        {
            var begins = balance.Start(hour);
            var middle = begins + Duration.FromMinutes(30);
            if (doubts.MisledAt(begins) is null) onset = null;
            else if (onset is null) (onset, used, known) = (AtOnset(points, begins), 0, 0);
            if (onset is { } start)
            {
                used += balance.UseL(hour);
                known += balance.KnownL(hour);
                double off = ((start.High - start.Low) / 2) + (UseOff * used);

                // More than as much again as stands above the sills in health has run over a rim.
                double value = Math.Max(-k, start.Value + used - known);
                points.Add(new TimeBand(middle, value, value - off, value + off));
                continue;
            }

            var (g, n) = state.Store.Between(begins, begins + Duration.FromHours(1));
            if (n == 0) continue;
            double litres = k * (full - g);
            double error = Math.Sqrt(Math.Pow(balance.Gauge.RelativeSpread * litres, 2) + (1.6 * Math.Pow(k * balance.ReadingSpread, 2) / n));
            points.Add(new TimeBand(middle, litres, litres - (1.645 * error), litres + (1.645 * error)));
        }

        return points;
    }

    /// <summary>The middle one of the last day before a time.</summary>
    private static TimeBand? AtOnset(List<TimeBand> points, Instant time)
    {
        var day = points.Where(p => p.Time > time - Duration.FromDays(1)).OrderBy(p => p.Value).ToList();
        return day.Count == 0 ? null : day[day.Count / 2];
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
