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
        var standing = found.Notices.Where(n => n.Cleared is null && n.Urgency != Urgency.Record)
            .OrderBy(n => n.Urgency).ThenByDescending(n => n.FirstNoticed).ToList();
        var over = found.Notices.Where(n => n.Cleared is not null && n.Urgency != Urgency.Record).OrderBy(n => n.FirstNoticed).ToList();
        var record = found.Notices.Where(n => n.Urgency == Urgency.Record).OrderBy(n => n.FirstNoticed).ToList();

        page.Heading("What stands at the end of the log");
        if (standing.Count == 0) page.Sentence("Nothing that asks for you.");
        foreach (var notice in standing) One(page, notice, found.Zone);
        if (over.Count > 0)
        {
            page.Heading("What came and went");
            foreach (var notice in over) One(page, notice, found.Zone);
        }

        if (record.Count > 0)
        {
            page.Heading("Questions, and for the record");
            foreach (var notice in record.Take(MostForTheRecord)) One(page, notice, found.Zone);
            if (record.Count > MostForTheRecord)
            {
                page.Sentence($"And {Wording.Count(record.Count - MostForTheRecord)} more of this kind; --json lists them all.");
            }
        }
    }

    private static void One(PlainText page, Notice notice, DateTimeZone zone)
    {
        const string indent = "  ";
        page.Sentence($"{Wording.Name(notice.Urgency)}: {Wording.Causes(notice)}", indent, "");
        string when = $"Since {Wording.At(notice.Since, zone)}, first noticed {Wording.At(notice.FirstNoticed, zone)}";
        when += notice.Cleared is { } cleared ? $", over at {Wording.At(cleared, zone)}." : ".";
        if (notice.TimeLeft is { } left && notice.Cleared is null) when += $" Time left: at least {Wording.AtLeast(left)}.";
        page.Sentence(when, indent);
        page.Sentence(notice.Evidence, indent);
        page.Sentence("First: " + notice.FirstAct, indent);
        page.Blank();
    }
}
