using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Notices;

/// <summary>The notices raised so far. What a notice said when it was raised stays as it was; only its clearing is added.</summary>
internal sealed class NoticeBook
{
    private readonly List<Notice> _notices = [];
    /// <summary>What comes back within a day is one trouble and told once: then it must stay away for a day and a quarter.</summary>
    private static readonly Duration ComesBack = Duration.FromDays(1), Calm = Duration.FromHours(30);
    private readonly Dictionary<string, int> _open = [];
    private readonly Dictionary<string, Instant> _ended = [];
    private readonly Dictionary<string, Instant> _calmSince = [];

    /// <summary>All notices, in the order in which they were raised.</summary>
    public IReadOnlyList<Notice> Notices => _notices;

    /// <summary>Raises a notice under a key of its watch, unless one stands under it already.</summary>
    public void Raise(string key, Notice notice)
    {
        if (_open.ContainsKey(key)) return;
        _open[key] = _notices.Count;
        _notices.Add(notice);
    }

    /// <summary>Raises a graver notice in the place of the one that stands under that key.</summary>
    public void Replace(string key, Notice notice)
    {
        if (_open.Remove(key, out int at)) _notices[at] = _notices[at] with { Cleared = notice.FirstNoticed };
        Raise(key, notice);
    }

    /// <summary>Raises a notice that needs no clearing: something that was, told for the record or as a question.</summary>
    public void Tell(Notice notice) => _notices.Add(notice);

    /// <summary>Marks the notice under that key as over.</summary>
    public void Clear(string key, Instant when)
    {
        if (!_open.Remove(key, out int at)) return;
        _notices[at] = _notices[at] with { Cleared = when };
        _ended[key] = when;
        _calmSince.Remove(key);
    }

    /// <summary>The trouble under that key is not to be seen now: whether its notice may end.</summary>
    public bool MayEnd(string key, Instant now)
    {
        if (!_open.TryGetValue(key, out int at)) return false;
        if (!_ended.TryGetValue(key, out var last) || _notices[at].FirstNoticed - last > ComesBack) return true;
        _calmSince.TryAdd(key, now);
        return now - _calmSince[key] >= Calm;
    }

    /// <summary>The trouble under that key is to be seen again.</summary>
    public void GoesOn(string key) => _calmSince.Remove(key);

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
