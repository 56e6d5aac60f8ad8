using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Live.View;
using Runnel.Records;

namespace Runnel.Live.Intake;

/// <summary>Counts what came in, from any thread.</summary>
internal sealed class IntakeTally
{
    /// <summary>More different reasons than this are counted together: a flood of odd payloads must not fill the memory.</summary>
    private const int MostReasons = 200;

    private readonly Lock _lock = new();
    private readonly Dictionary<string, RefusedCount> _refused = new(StringComparer.Ordinal);
    private long _taken, _changed, _known, _late;
    private Instant? _lastAt;

    public void Add(Stored stored, Instant at)
    {
        lock (_lock)
        {
            _taken += stored.New;
            _changed += stored.Changed;
            _known += stored.Known;
            _lastAt = at;
        }
    }

    public void AddLate(long count)
    {
        lock (_lock) _late += count;
    }

    public void Refuse(IEnumerable<Refusal> refusals, Instant at)
    {
        lock (_lock)
        {
            foreach (var refusal in refusals)
            {
                string reason = _refused.ContainsKey(refusal.Reason) || _refused.Count < MostReasons ? refusal.Reason : "other reasons";
                long count = _refused.TryGetValue(reason, out var before) ? before.Count : 0;
                _refused[reason] = new RefusedCount(reason, count + 1, refusal, at);
            }
        }
    }

    public IntakeCounts Counts()
    {
        lock (_lock) return new(_taken, _changed, _known, _late, [.. _refused.Values.OrderByDescending(r => r.LastAt).ThenBy(r => r.Reason, StringComparer.Ordinal)], _lastAt);
    }
}
