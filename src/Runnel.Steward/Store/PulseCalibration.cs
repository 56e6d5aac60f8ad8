using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Store;

/// <summary>Reads each pulse's own before and after once the loop has settled again, and teaches the gauge.</summary>
internal sealed class PulseCalibration
{
    private static readonly Duration Before = Duration.FromMinutes(75);
    private int _next;

    /// <summary>Looks at the pulses whose aftermath is complete at <paramref name="now"/>.</summary>
    public void Look(LoopState state, StoreTrace store, Gauge gauge, Instant now, Func<Instant, Instant, double> lossLitres)
    {
        var settle = state.Cycles.SettlingTime;
        var window = Duration.Max(Before, Duration.FromSeconds(4 * state.Cycles.TypicalS));
        while (_next < state.Pulses.Count)
        {
            // Pulses that follow one another closely are one experiment.
            int last = _next;
            while (last + 1 < state.Pulses.Count && state.Pulses[last + 1].Start - End(state.Pulses[last]) < settle + window) last++;
            var first = state.Pulses[_next];
            var end = End(state.Pulses[last]);
            if (end + settle + window > now) return;
            double litres = 0;
            for (int i = _next; i <= last; i++) litres += state.Pulses[i].Litres;
            int count = last - _next + 1;
            _next = last + 1;
            if (count > 4 || end - first.Start > Duration.FromHours(6)) continue;
            var (g0, n0) = store.Between(first.Start - window, first.Start);
            var (g1, n1) = store.Between(end + settle, end + settle + window);
            if (n0 < 3 || n1 < 3) continue;
            var t0 = store.MeanTime(first.Start - window, first.Start);
            var t1 = store.MeanTime(end + settle, end + settle + window);
            gauge.Take(litres - lossLitres(t0, t1), g1 - g0, (1.0 / n0) + (1.0 / n1));
        }
    }

    private static Instant End(WaterPulse pulse) => pulse.Start + pulse.Length;
}
