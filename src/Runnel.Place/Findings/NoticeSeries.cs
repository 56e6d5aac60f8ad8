using NodaTime;

namespace Runnel.Place.Findings;

/// <summary>
/// One trouble as people read of it: a notice, and the earlier bouts of the same cause that had cleared before it came back.
/// A log with forty notices is often five troubles; scripts still get every notice.
/// </summary>
/// <param name="Latest">The last bout.</param>
/// <param name="Earlier">The bouts before it, oldest first; empty where it came once.</param>
public sealed record NoticeSeries(Notice Latest, IReadOnlyList<Notice> Earlier)
{
    /// <summary>What comes back within this counts as the same trouble: many loops have weekly habits.</summary>
    public static readonly Duration ComesBackWithin = Duration.FromDays(8);

    /// <summary>How often it came.</summary>
    public int Times => Earlier.Count + 1;

    /// <summary>When the first bout began.</summary>
    public Instant FirstSince => Earlier.Count > 0 ? Earlier[0].Since : Latest.Since;

    /// <summary>Whether the last bout still stands.</summary>
    public bool Stands => Latest.Cleared is null;

    /// <summary>Only for the record, or a question.</summary>
    public bool IsForTheRecord => Latest.Urgency == Urgency.Record;

    /// <summary>That of the last bout while it stands; of what is over, the highest that it had.</summary>
    public Urgency Urgency => Stands ? Latest.Urgency : Earlier.Select(n => n.Urgency).Append(Latest.Urgency).Min();

    /// <summary>Folds notices of one cause, each over before the next began, into one entry; in the order in which the last bouts were noticed.</summary>
    public static IReadOnlyList<NoticeSeries> Of(IReadOnlyList<Notice> notices)
    {
        var bouts = new List<List<Notice>>();
        foreach (Notice notice in notices.OrderBy(n => n.FirstNoticed))
        {
            List<Notice>? goesOn = bouts.LastOrDefault(r => IsNextBout(r[^1], notice));
            if (goesOn is null) bouts.Add([notice]);
            else goesOn.Add(notice);
        }

        return [.. bouts.Select(r => new NoticeSeries(r[^1], r[..^1])).OrderBy(s => s.Latest.FirstNoticed)];
    }

    private static bool IsNextBout(Notice before, Notice next) =>
        before.Cause == next.Cause
        && (before.Urgency == Urgency.Record) == (next.Urgency == Urgency.Record)
        && before.Cleared is { } over && over <= next.FirstNoticed && next.Since - over <= ComesBackWithin;
}
