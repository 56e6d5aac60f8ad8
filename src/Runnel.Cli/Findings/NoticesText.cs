using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Cli.Findings;

/// <summary>Notices for people: what stands first, each with its evidence and the first thing to do.</summary>
internal static class NoticesText
{
    /// <summary>A long log can hold dozens of questions; past this many only their number is told.</summary>
    private const int MostForTheRecord = 12;

    public static void Write(PlainText page, Diagnosis found)
    {
        var series = NoticeSeries.Of(found.Notices);
        var standing = series.Where(s => s.Stands && !s.IsForTheRecord).OrderBy(s => s.Urgency).ThenByDescending(s => s.Latest.FirstNoticed).ToList();
        var over = series.Where(s => !s.Stands && !s.IsForTheRecord).OrderBy(s => s.FirstSince).ToList();
        var record = series.Where(s => s.IsForTheRecord).ToList();

        page.Heading("What stands at the end of the log");
        if (standing.Count == 0) page.Sentence("Nothing that asks for you.");
        foreach (var trouble in standing) One(page, trouble, found.Zone);
        if (over.Count > 0)
        {
            page.Heading("What came and went");
            foreach (var trouble in over) One(page, trouble, found.Zone);
        }

        if (record.Count > 0)
        {
            page.Heading("Questions, and for the record");
            foreach (var trouble in record.Take(MostForTheRecord)) One(page, trouble, found.Zone);
            if (record.Count > MostForTheRecord)
            {
                page.Sentence($"And {Wording.Count(record.Count - MostForTheRecord)} more of this kind; --json lists them all.");
            }
        }
    }

    private static void One(PlainText page, NoticeSeries trouble, DateTimeZone zone)
    {
        const string indent = "  ";
        var notice = trouble.Latest;
        page.Sentence($"{Wording.Name(trouble.Urgency)}: {Wording.Causes(notice)}", indent, "");
        string when = trouble.Times == 1 ? "Since" : $"{Wording.Count(trouble.Times)} times since {Wording.At(trouble.FirstSince, zone)}; the last since";
        when += $" {Wording.At(notice.Since, zone)}, {(trouble.Times == 1 ? "first " : "")}noticed {Wording.At(notice.FirstNoticed, zone)}";
        when += notice.Cleared is { } cleared ? $", over at {Wording.At(cleared, zone)}." : ".";
        if (notice.TimeLeft is { } left && notice.Cleared is null) when += $" Time left: at least {Wording.AtLeast(left)}.";
        page.Sentence(when, indent);
        page.Sentence(notice.Evidence, indent);
        page.Sentence("First: " + notice.FirstAct, indent);
        page.Blank();
    }
}
