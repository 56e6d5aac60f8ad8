using NodaTime;
using NodaTime.Text;
using Runnel.Place.Findings;

namespace Runnel.Web.Findings;

/// <summary>What a findings page shows, and where its links lead; in a report that stands alone nothing leads anywhere.</summary>
/// <param name="Drawings">What was understood, and its charts.</param>
/// <param name="Range">The stretch of time the charts show.</param>
/// <param name="PagePath">Address of the page, or null in a report.</param>
public sealed record FindingsView(FindingsDrawings Drawings, Interval Range, string? PagePath)
{
    private static readonly Duration Least = Duration.FromHours(1);

    public Diagnosis Diagnosis => Drawings.Diagnosis;

    public Interval Whole => TimeChartsOf.Whole(Diagnosis);

    /// <summary>Where a chart's drawing alone can be asked for.</summary>
    public string? ChartPath(string chartId) => PagePath is null ? null : $"{PagePath}/charts/{chartId}";

    /// <summary>Address of the page with another stretch of time.</summary>
    public string Href(Interval range) => range == Whole
        ? $"{PagePath}#over-time"
        : $"{PagePath}?from={Write(range.Start)}&to={Write(range.End)}#over-time";

    public Interval Earlier => Fit(Range.Start - (Range.Duration / 2), Range.Duration);

    public Interval Later => Fit(Range.Start + (Range.Duration / 2), Range.Duration);

    public Interval Closer => Fit(Range.Start + (Range.Duration / 4), Range.Duration / 2);

    public Interval Wider => Fit(Range.Start - (Range.Duration / 2), Range.Duration * 2);

    /// <summary>A stretch asked for by an address, kept within the log and never under an hour; the whole log where it makes no sense.</summary>
    public static Interval RangeOf(Diagnosis diagnosis, string? from, string? to)
    {
        Interval whole = TimeChartsOf.Whole(diagnosis);
        if (Read(from) is not { } start || Read(to) is not { } end || end <= start) return whole;
        return Fit(whole, start, end - start);
    }

    private static string Write(Instant time) => InstantPattern.General.Format(time);

    private static Instant? Read(string? text) =>
        text is not null && InstantPattern.ExtendedIso.Parse(text) is { Success: true } parsed ? parsed.Value : null;

    private Interval Fit(Instant start, Duration length) => Fit(Whole, start, length);

    private static Interval Fit(Interval whole, Instant start, Duration length)
    {
        if (length >= whole.Duration) return whole;
        length = Duration.Max(length, Duration.Min(Least, whole.Duration));
        start = Instant.Min(Instant.Max(start, whole.Start), whole.End - length);
        return new(start, start + length);
    }
}
