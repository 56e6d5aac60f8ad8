using Runnel.Exchange;
using Runnel.Exchange.Survey;

namespace Runnel.Web.YourLog;

/// <summary>Surveys of dropped logs: what each column probably is. Made once, as a long log takes a second or two.</summary>
public sealed class LogSurveys
{
    private const int MostKept = 20;

    private readonly Lock _gate = new();
    private readonly List<(string Id, LogSurvey Survey)> _kept = [];

    /// <exception cref="UnreadableFileException">It is empty, no table, or has no times.</exception>
    public LogSurvey Of(DroppedLog log, CancellationToken cancel)
    {
        lock (_gate)
        {
            int at = _kept.FindIndex(k => k.Id == log.Id);
            if (at >= 0) return _kept[at].Survey;
        }

        using FileStream stream = File.OpenRead(log.LogPath);
        LogSurvey survey = LogSurveyor.Look(stream, null, cancel);
        lock (_gate)
        {
            _kept.Add((log.Id, survey));
            if (_kept.Count > MostKept) _kept.RemoveAt(0);
        }

        return survey;
    }
}
