using NodaTime;
using Runnel.Live.View;
using Runnel.Records;

namespace Runnel.Live.People;

/// <summary>Follows the work that people wrote down: who is at it, until when, and whether the closing question was answered.</summary>
internal sealed class WorkWatch(NoticeWords words)
{
    /// <summary>Work without a told end is taken to last this long; the steward holds its learning no longer either.</summary>
    public static readonly Duration AtMost = Duration.FromHours(2);

    /// <summary>After a day nobody remembers how the valve stood.</summary>
    private static readonly Duration AskedFor = Duration.FromDays(1);

    private WorkingOnIt? _now;
    private (Instant Began, Instant Ended, string? By)? _last;

    /// <summary>Reads the daybook anew; the rows are in time order.</summary>
    public void Read(IEnumerable<DaybookRow> rows)
    {
        (_now, _last) = (null, null);
        foreach (var row in rows.Where(r => !r.Struck)) Take(row);
    }

    /// <summary>The work at that time; null: nobody's hands are in the loop.</summary>
    public WorkingOnIt? At(Instant now) => _now is { } work && now < work.Until ? work : null;

    /// <summary>Work whose time is up and whose end is not written yet.</summary>
    public WorkingOnIt? Overdue(Instant now) => _now is { } work && now >= work.Until ? work : null;

    public ClosingQuestion? Question(Instant now)
    {
        if (_now is not null || _last is not { } last || now - last.Ended > AskedFor) return null;
        string key = NoticeWords.KeyOfWork(last.Began);
        return words.AnswerTo(key) is null ? new ClosingQuestion(key, last.Began, last.Ended, last.By) : null;
    }

    private void Take(DaybookRow row)
    {
        var entry = row.Entry;
        if (entry.Entry == "work-began")
        {
            // Told again while at it: more time is wanted, the work is the same.
            var since = _now is { } before && entry.Time <= before.Until ? before.Since : entry.Time;
            var longest = entry.Time + AtMost;
            _now = new WorkingOnIt(since, row.Until is { } until ? Instant.Min(until, longest) : longest, entry.By, entry.Note);
        }
        else if (entry.Entry == "work-ended" && _now is { } work)
        {
            _last = (work.Since, entry.Time, work.By);
            _now = null;
        }
    }
}
