using NodaTime;

namespace Runnel.Steward.Signals;

/// <summary>Tells when the log lost an "off": by an "on" while it is on, in a log that speaks of changes only; or, of a valve, whose doses are
/// alike, by an "off" that came with the log's steady repeats, long after the usual dose was over.</summary>
/// <param name="runsAreAlike">Runs have much the same length, as doses have and a pump's runs have not.</param>
internal sealed class LostOffs(bool runsAreAlike)
{
    /// <summary>Runs needed before their usual length is known.</summary>
    private const int UsualFrom = 2;
    private const int MostRuns = 60;

    /// <summary>A log whose states repeat less often than this share of its changes speaks of changes only.</summary>
    private const double FewRepeats = 0.05;
    private const int MostIntervals = 15, LeastIntervals = 8;

    private readonly List<double> _intervalsS = [];
    private Instant? _lastRepeat;
    private int _edges;
    private int _repeats;

    public void Edge() => _edges++;

    public void Repeat(Instant time)
    {
        _repeats++;
        if (_lastRepeat is { } last)
        {
            _intervalsS.Add((time - last).TotalSeconds);
            if (_intervalsS.Count > MostIntervals) _intervalsS.RemoveAt(0);
        }

        _lastRepeat = time;
    }

    /// <summary>When a run that seems to go on, or to end at <paramref name="now"/>, truly ended; null where the log is to be believed.</summary>
    /// <param name="runs">Runs known so far.</param>
    /// <param name="since">When it began.</param>
    /// <param name="now">The reading in hand.</param>
    /// <param name="on">What that reading says.</param>
    public Instant? TrueEnd(IReadOnlyList<Run> runs, Instant since, Instant now, bool on)
    {
        if (runs.Count < UsualFrom || (on ? _repeats > Math.Max(1, FewRepeats * _edges) : !runsAreAlike)) return null;
        double[] lengths = [.. runs.TakeLast(MostRuns).Select(r => r.Seconds).Order()];
        var end = since + Duration.FromSeconds(lengths[lengths.Length / 2]);
        bool lost = on || ((now - since).TotalSeconds > 2 * lengths[^1] && CameWithRepeats(now, lengths[^1]));
        return lost && end < now ? end : null;
    }

    private bool CameWithRepeats(Instant time, double longestS)
    {
        if (_intervalsS.Count < LeastIntervals || _lastRepeat is not { } last) return false;
        double[] sorted = [.. _intervalsS.Order()];
        double every = sorted[sorted.Length / 2];
        double steps = (time - last).TotalSeconds / every;
        return every > longestS && Math.Abs(steps - Math.Round(steps)) * every < 2 + (0.005 * every);
    }
}
