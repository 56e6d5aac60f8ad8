using Runnel.Exchange.Findings;
using Runnel.Exchange.Mqtt;
using Runnel.Live.View;
using Runnel.Place.Findings;

namespace Runnel.Live.Outward;

/// <summary>What a view says to other programs: our own plain topics, each with the JSON of the command contract.</summary>
public static class Announcements
{
    /// <summary>Everything that a view has to tell, by topic below the root of the place.</summary>
    public static IReadOnlyList<Announcement> Of(LiveView view)
    {
        var told = new List<Announcement> { new("standing", "running") };
        if (view.Findings is not { } findings) return told;
        told.Add(new("verdict", findings.Verdict));
        foreach (var estimate in findings.Estimates) told.Add(new($"estimates/{estimate.Name}", FindingJson.Of(estimate, findings.Zone)));
        var days = findings.Ledger;
        if (days.Count > 0) told.Add(new("ledger/last-day", FindingJson.Of(days[^1])));
        if (days.Count > 1) told.Add(new("ledger/day-before", FindingJson.Of(days[^2])));

        // One topic a cause, with its latest notice: what cleared is seen to clear, and the number of topics stays small.
        var latest = new Dictionary<string, NoticeStanding>(StringComparer.Ordinal);
        foreach (var notice in view.Notices) latest[notice.Notice.Cause] = notice;
        foreach (var (cause, notice) in latest) told.Add(new($"notices/{cause}", JsonOf(notice, findings)));
        return told;
    }

    /// <summary>A notice with what people said to it.</summary>
    public static string JsonOf(NoticeStanding notice, Diagnosis findings) =>
        FindingJson.Of(notice.Key, notice.Notice, notice.Acknowledged is { } seen ? seen.By ?? "" : null, notice.Answer?.Was, findings.Zone);
}
