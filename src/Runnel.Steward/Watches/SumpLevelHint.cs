using NodaTime;

namespace Runnel.Steward.Watches;

/// <summary>Where the sump's measured level stands against the levels between which it usually moves.</summary>
internal sealed class SumpLevelHint
{
    private readonly List<double> _usual = [];
    private readonly Queue<(Instant Time, double Mm)> _last = new();
    private Instant _nextSample;

    public void Take(Instant time, double levelMm, bool learn)
    {
        _last.Enqueue((time, levelMm));
        while (_last.Peek().Time < time - Duration.FromMinutes(12)) _last.Dequeue();
        if (!learn || time < _nextSample) return;
        _nextSample = time + Duration.FromMinutes(3);
        _usual.Add(levelMm);
        if (_usual.Count > 4000) _usual.RemoveRange(0, 1000);
    }

    /// <summary>Above 1: over the usual top; below 0: under the usual bottom; null where it cannot be told.</summary>
    public double? Place()
    {
        if (_usual.Count < 200 || _last.Count == 0) return null;
        double bottom = Robust.Quantile(_usual, 0.03), top = Robust.Quantile(_usual, 0.97);
        double now = Robust.Median([.. _last.Select(l => l.Mm)]);
        return top - bottom < 5 ? null : (now - bottom) / (top - bottom);
    }
}
