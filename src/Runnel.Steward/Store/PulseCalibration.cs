using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Store;

/// <summary>What one pulse of known water did: net litres that stayed, and the change of the store's reading from before to after.</summary>
internal readonly record struct PulseResponse(Instant Start, Instant End, double Litres, double Change, double Variance)
{
    /// <summary>Change of the reading for a litre.</summary>
    public double PerLitre => Change / Litres;
}

/// <summary>Reads each pulse's own before and after once the loop has settled again, and teaches the gauge.</summary>
internal sealed class PulseCalibration
{
    private static readonly Duration Before = Duration.FromMinutes(75);

    /// <summary>A pulse teaches only when it is old enough: while drains foul, pulses move the fill less and less, and a gauge that
    /// followed them would hide the fouling.</summary>
    private static readonly Duration Lag = Duration.FromDays(4), YoungLog = Duration.FromDays(10);

    private readonly List<PulseResponse> _responses = [];
    private int _taught;
    private int _next;

    /// <summary>Every pulse whose before and after could be read, oldest first.</summary>
    public IReadOnlyList<PulseResponse> Responses => _responses;

    /// <summary>Looks at the pulses whose aftermath is complete at <paramref name="now"/>.</summary>
    public void Look(LoopState state, StoreTrace store, Gauge gauge, Instant now, Func<Instant, Instant, double> lossLitres)
    {
        Teach(state, gauge, now);
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
            double net = litres - lossLitres(t0, t1);
            if (Math.Abs(net) < 1 || DrawnNear(state, first.Start - window, end + settle + window)) continue;
            _responses.Add(new PulseResponse(first.Start, end, net, g1 - g0, (1.0 / n0) + (1.0 / n1)));
        }
    }

    private void Teach(LoopState state, Gauge gauge, Instant now)
    {
        var lag = now - state.Began < YoungLog ? Duration.Zero : Lag;
        for (; _taught < _responses.Count && _responses[_taught].End + lag <= now; _taught++)
        {
            var pulse = _responses[_taught];
            if (!state.LearningHeld(pulse.Start, pulse.End)) gauge.Take(pulse.Litres, pulse.Change, pulse.Variance);
        }
    }

    /// <summary>People took or brought water about then: when exactly is not known well enough to read a pulse beside it.</summary>
    private static bool DrawnNear(LoopState state, Instant from, Instant to)
    {
        var side = Duration.FromHours(1);
        return state.Daybook.Exists(e => e.Litres is not null && e.Time > from - side && e.Time < to + side);
    }

    private static Instant End(WaterPulse pulse) => pulse.Start + pulse.Length;
}
