using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Notices;

/// <summary>The notices raised so far. What a notice said when it was raised stays as it was; only its clearing is added.</summary>
internal sealed class NoticeBook
{
    private readonly List<Notice> _notices = [];
    private readonly Dictionary<string, int> _open = [];

    /// <summary>All notices, in the order in which they were raised.</summary>
    public IReadOnlyList<Notice> Notices => _notices;

    /// <summary>Raises a notice under a key of its watch, unless one stands under it already.</summary>
    public void Raise(string key, Notice notice)
    {
        if (_open.ContainsKey(key)) return;
        _open[key] = _notices.Count;
        _notices.Add(notice);
    }

    /// <summary>Raises a notice that needs no clearing: something that was, told for the record or as a question.</summary>
    public void Tell(Notice notice) => _notices.Add(notice);

    /// <summary>Marks the notice under that key as over.</summary>
    public void Clear(string key, Instant when)
    {
        if (!_open.Remove(key, out int at)) return;
        _notices[at] = _notices[at] with { Cleared = when };
    }

    /// <summary>A notice stands under that key.</summary>
    public bool Stands(string key) => _open.ContainsKey(key);

    /// <summary>The notice standing under that key, or null.</summary>
    public Notice? Find(string key) => _open.TryGetValue(key, out int at) ? _notices[at] : null;

    /// <summary>A notice stands, or was cleared since <paramref name="since"/>, that has one of these causes among its causes.</summary>
    public bool Spoke(Instant since, params ReadOnlySpan<string> causes)
    {
        foreach (var notice in _notices)
        {
            if (notice.Cleared is { } cleared && cleared < since) continue;
            if (notice.Urgency == Urgency.Record && notice.FirstNoticed < since) continue;
            foreach (var cause in notice.Causes)
            {
                if (causes.Contains(cause.Name)) return true;
            }
        }

        return false;
    }

    /// <summary>A notice stands, or was cleared since <paramref name="since"/>, that names one of these causes first.</summary>
    public bool Named(Instant since, params ReadOnlySpan<string> causes)
    {
        foreach (var notice in _notices)
        {
            if (notice.Cleared is { } cleared ? cleared < since : notice.Urgency == Urgency.Record && notice.FirstNoticed < since) continue;
            if (causes.Contains(notice.Cause)) return true;
        }

        return false;
    }
}
