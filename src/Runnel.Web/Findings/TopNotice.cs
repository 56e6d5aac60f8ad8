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

    /// <summary>The trouble that the page leads with, with its earlier bouts; null where there is none.</summary>
    public static NoticeSeries? SeriesOf(Diagnosis diagnosis)
    {
        Notice? top = Of(diagnosis);
        return NoticeSeries.Of(diagnosis.Notices).FirstOrDefault(s => ReferenceEquals(s.Latest, top));
    }

    /// <summary>All the others, each trouble once: standing before cleared, urgent before the record, late before early.</summary>
    public static IReadOnlyList<NoticeSeries> Others(Diagnosis diagnosis)
    {
        Notice? top = Of(diagnosis);
        return [.. NoticeSeries.Of(diagnosis.Notices)
            .Where(s => !ReferenceEquals(s.Latest, top))
            .OrderBy(s => !s.Stands).ThenBy(s => s.Urgency).ThenByDescending(s => s.Latest.FirstNoticed)];
    }
}
