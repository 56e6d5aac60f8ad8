using NodaTime;
using Runnel.Place.Findings;
using Runnel.Steward.Ledger;

namespace Runnel.Steward;

/// <summary>Quantities understood at the end of the log, with their 90 % bands.</summary>
internal static class Estimates
{
    private const double Ninety = 1.645;

    public static IReadOnlyList<Estimate> Of(LoopState state, IReadOnlyList<TimeBand> litresShort)
    {
        var estimates = new List<Estimate>();
        var now = state.LastReading;
        if (litresShort.Count > 0)
        {
            var l = litresShort[^1];
            estimates.Add(new Estimate("litres-short", l.Time, l.Value, l.Low, l.High, "L"));
        }

        Flows(state, now, estimates);
        var gauge = state.Balance.Gauge;
        if (gauge.Known)
        {
            double k = gauge.LitresPerUnit, pm = Ninety * gauge.RelativeSpread * k;
            estimates.Add(state.Kit.BandL is null
                ? new Estimate("litres-per-mm", now, k, k - pm, k + pm, "L/mm")
                : new Estimate("litres-per-percent-of-inflow", now, k / 100, (k - pm) / 100, (k + pm) / 100, "L/%"));
        }

        Use(state, now, estimates);
        return estimates;
    }

    /// <summary>Return flow and pump flow over the last day: band over fill, and band over fill and run together.</summary>
    private static void Flows(LoopState state, Instant now, List<Estimate> estimates)
    {
        if (state.Kit.BandL is not { } band) return;
        var last = state.Cycles.Cycles.Where(c => !c.Disturbed && c.RunStart > now - Duration.FromDays(1)).ToList();
        if (last.Count < 3) return;
        double[] inflows = [.. last.Select(c => 60 * band / c.FillS).Order()];
        double[] pumps = [.. last.Select(c => 60 * band * ((1 / c.FillS) + (1 / c.RunS))).Order()];
        Add("return-flow", inflows, "L/min");
        Add("pump-flow", pumps, "L/min");
        double pumped = last.Sum(c => c.RunS) / last.Sum(c => c.RunS + c.FillS) * pumps[pumps.Length / 2] * 1440;
        double spread = (pumps[^1] - pumps[0]) / (2 * Math.Sqrt(pumps.Length)) * 1440;
        estimates.Add(new Estimate("pumped-a-day", now, pumped, Math.Max(0, pumped - spread), pumped + spread, "L/day"));

        void Add(string name, double[] sorted, string unit) => estimates.Add(new Estimate(
            name, now, sorted[sorted.Length / 2], sorted[(int)(0.05 * (sorted.Length - 1))], sorted[(int)(0.95 * (sorted.Length - 1))], unit));
    }

    private static void Use(LoopState state, Instant now, List<Estimate> estimates)
    {
        var balance = state.Balance;
        if (balance.Use.Count < 4 || balance.HourCount < 48) return;
        double weather = 0;
        for (int i = 1; i <= 24; i++) weather += balance.WeatherL(balance.HourCount - i);
        double use = (balance.Use.Factor * weather) + (24 * balance.Use.SteadyLPerH);
        double pm = Ninety * Math.Sqrt(Math.Pow(balance.Use.FactorSpread * weather, 2) + Math.Pow(0.12 * use, 2));
        estimates.Add(new Estimate("use-a-day", now, use, Math.Max(0, use - pm), use + pm, "L/day"));
        double f = balance.Use.Factor, s = Ninety * balance.Use.FactorSpread;
        estimates.Add(new Estimate("use-over-weather", now, f, Math.Max(0, f - s), f + s, "1"));
    }
}
