using NodaTime;

namespace Runnel.Steward.Store;

/// <summary>Stretches from which the healthy loop is not learnt: faults while they stand, steps, draws and work.</summary>
internal sealed class LearningHolds
{
    private readonly List<(Instant Start, Instant End)> _closed = [];
    private readonly Dictionary<string, Instant> _open = [];

    /// <summary>Holds learning from a time on, until <see cref="Release"/>.</summary>
    public void Begin(string key, Instant from)
    {
        if (!_open.TryGetValue(key, out var earlier) || from < earlier) _open[key] = from;
    }

    /// <summary>Ends a hold.</summary>
    public void Release(string key, Instant end)
    {
        if (_open.Remove(key, out var from)) _closed.Add((from, end));
    }

    /// <summary>Holds one stretch.</summary>
    public void Add(Instant from, Instant to) => _closed.Add((from, to));

    /// <summary>A hold touches the stretch.</summary>
    public bool Touch(Instant from, Instant to)
    {
        foreach (var (start, end) in _closed)
        {
            if (start < to && end > from) return true;
        }

        foreach (var start in _open.Values)
        {
            if (start < to) return true;
        }

        return false;
    }
}
