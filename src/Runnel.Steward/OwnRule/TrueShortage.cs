using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.OwnRule;

/// <summary>Litres the loop was truly short of full. As the gauge shows while the loop is sound; while drains foul or the pump weakens the
/// gauge takes water held back for water lost, so from there on it is what the balance says: the shortage at the onset, and what came
/// and went since.</summary>
internal sealed class TrueShortage
{
    /// <summary>Share of the reckoned use by which it may be off.</summary>
    private const double UseOff = 0.15;
    private static readonly string[] Misleading =
        [CauseNames.DrainFouling, CauseNames.TankOverflow, CauseNames.PumpWeakening, CauseNames.SiphonStuck, CauseNames.CheckValveLeaking];

    private readonly LoopState _state;
    private readonly IReadOnlyList<TimeBand> _gauge;
    private readonly List<Notice> _misled;

    public TrueShortage(LoopState state, IReadOnlyList<Notice> notices, IReadOnlyList<TimeBand> gauge)
    {
        _state = state;
        _gauge = gauge;
        _misled = [.. notices.Where(n => Misleading.Contains(n.Cause)).OrderBy(n => n.Since)];
    }

    /// <summary>The notice of what misleads the gauge at that time, or null.</summary>
    public Notice? MisledBy(Instant time) => _misled.Find(n => n.Since <= time && !(n.Cleared <= time));

    /// <summary>Litres short just before a time, with their 90 % band; null where they cannot be told.</summary>
    public TimeBand? Before(Instant time)
    {
        if (MisledBy(time) is not { } notice) return Gauge(time - Duration.FromHours(3), time, last: true);
        if (Gauge(notice.Since - Duration.FromDays(1), notice.Since, last: false) is not { } start) return null;
        double used = 0, known = 0;
        int first = Math.Max(0, _state.Hours.IndexOf(notice.Since));
        for (int hour = first; hour < _state.Balance.HourCount && _state.Balance.Start(hour) + Duration.FromHours(1) <= time; hour++)
        {
            used += _state.Balance.UseL(hour);
            known += _state.Balance.KnownL(hour);
        }

        double value = start.Value + used - known;
        double off = ((start.High - start.Low) / 2) + (UseOff * used);
        return new TimeBand(time, value, value - off, value + off);
    }

    private TimeBand? Gauge(Instant from, Instant to, bool last)
    {
        var points = _gauge.Where(p => p.Time > from && p.Time <= to).ToList();
        if (points.Count == 0) return null;
        return last ? points[^1] : points.OrderBy(p => p.Value).ElementAt(points.Count / 2);
    }
}
