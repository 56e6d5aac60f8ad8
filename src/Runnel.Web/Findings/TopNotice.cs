using Runnel.Place.Findings;

namespace Runnel.Web.Findings;

/// <summary>Which notice a page leads with.</summary>
public static class TopNotice
{
    /// <summary>The most urgent that still stands (the oldest of equals), or null where only the record has notices.</summary>
    public static Notice? Of(Diagnosis diagnosis) => diagnosis.Notices
        .Where(n => n.Cleared is null && n.Urgency != Urgency.Record)
        .OrderBy(n => n.Urgency).ThenBy(n => n.FirstNoticed)
        .FirstOrDefault();

    /// <summary>All the others: standing before cleared, urgent before the record, late before early.</summary>
    public static IReadOnlyList<Notice> Others(Diagnosis diagnosis)
    {
        Notice? top = Of(diagnosis);
        return [.. diagnosis.Notices
            .Where(n => !ReferenceEquals(n, top))
            .OrderBy(n => n.Cleared is not null).ThenBy(n => n.Urgency).ThenByDescending(n => n.FirstNoticed)];
    }
}
