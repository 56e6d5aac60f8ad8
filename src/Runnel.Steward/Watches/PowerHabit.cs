using NodaTime;

namespace Runnel.Steward.Watches;

/// <summary>What the running pump draws: run by run in health, and just now.</summary>
internal sealed class PowerHabit
{
    private const int Least = 5;
    private const int Most = 40;
    private static readonly Duration Surge = Duration.FromSeconds(45);
    private static readonly Duration Span = Duration.FromMinutes(7);

    private readonly List<double> _runs = [];
    private readonly List<double> _run = [];
    private readonly List<(Instant Time, double Value)> _recent = [];
    private int _equal;
    private int _longestEqual;

    /// <summary>Usual power of a run, W (or A), or null before there are enough runs.</summary>
    public double? Usual => _runs.Count < Least ? null : Robust.Median(_runs);

    /// <summary>Power at the beginning of the run in hand, behind the surge; null where too little was read.</summary>
    public double? AtStart => _run.Count < 2 ? null : Robust.Median(_run.GetRange(0, Math.Min(_run.Count, 5)));

    /// <summary>The running pump's value stands still in a way it never did: a frozen sensor tells nothing of the pump.</summary>
    public bool LooksFrozen => _equal > Math.Max(12, 4 * _longestEqual);

    public void Take(Instant time, double value, bool? on, Instant since)
    {
        if (on == true && time - since > Surge)
        {
            _equal = _recent.Count > 0 && _recent[^1].Value == value ? _equal + 1 : 0;
            _run.Add(value);
        }
        else
        {
            _equal = 0;
        }

        _recent.Add((time, value));
        if (_recent.Count > 400 || _recent[0].Time < time - (Span * 3)) _recent.RemoveAll(r => r.Time < time - Span && r != _recent[^1]);
    }

    /// <summary>A run is over; one that a notice was about teaches nothing.</summary>
    public void EndRun(bool healthy)
    {
        if (healthy && _run.Count >= 2)
        {
            _runs.Add(Robust.Median(_run));
            if (_runs.Count > Most) _runs.RemoveAt(0);
        }

        _run.Clear();
    }

    /// <summary>Once a run is known as healthy, its streaks of equal values are habit.</summary>
    public void LearnEqual() => _longestEqual = Math.Max(_longestEqual, _equal);

    /// <summary>The last minutes' values lie together: no switching, which would make a median between rest and run.</summary>
    public bool IsSteady(Instant now)
    {
        var last = new List<double>();
        for (int i = _recent.Count - 1; i >= 0 && _recent[i].Time > now - Span; i--) last.Add(_recent[i].Value);
        return last.Count < 3 || Robust.Quantile(last, 0.1) > 0.6 * Robust.Quantile(last, 0.9);
    }

    /// <summary>Median of the last minutes; the last value where a channel speaks of changes only.</summary>
    public double Now(Instant now)
    {
        var last = new List<double>();
        for (int i = _recent.Count - 1; i >= 0 && _recent[i].Time > now - Span; i--) last.Add(_recent[i].Value);
        return last.Count >= 3 ? Robust.Median(last) : _recent.Count == 0 ? double.NaN : _recent[^1].Value;
    }
}
