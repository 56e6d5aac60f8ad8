using Microsoft.Extensions.Hosting;

namespace Runnel.Web.YourLog;

/// <summary>Findings of dropped logs: read once, kept for the next look, read again when they have left memory.</summary>
public sealed class DroppedFindings(IHostApplicationLifetime life) : IDisposable
{
    private const int MostKept = 6;

    // Reading takes a core and a good part of memory: the next log waits its turn.
    private readonly SemaphoreSlim _turn = new(1);
    private readonly Lock _gate = new();
    private readonly List<(string Id, FindingsWork Work)> _kept = [];

    /// <summary>The work on that log, started now if need be.</summary>
    public FindingsWork Of(DroppedLog log)
    {
        lock (_gate)
        {
            int at = _kept.FindIndex(k => k.Id == log.Id);
            (string Id, FindingsWork Work) entry = at >= 0 && !_kept[at].Work.Outcome.IsFaulted ? _kept[at] : (log.Id, new FindingsWork(log, _turn, life.ApplicationStopping));
            if (at >= 0) _kept.RemoveAt(at);
            _kept.Add(entry);
            if (_kept.Count > MostKept) _kept.RemoveAt(0);
            return entry.Work;
        }
    }

    /// <summary>Its place or answers have changed, or it was forgotten.</summary>
    public void Forget(DroppedLog log)
    {
        lock (_gate) _kept.RemoveAll(k => k.Id == log.Id);
    }

    public void Dispose() => _turn.Dispose();
}
