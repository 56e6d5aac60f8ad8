using System.Text.Json;
using Runnel.Cli.Findings;
using Runnel.Place;
using Runnel.Records;

namespace Runnel.Cli.Records;

/// <summary>What became of one log.</summary>
internal sealed record ImportSummary(string Log, ReadingLog Read, Stored Stored)
{
    public static string Text(string records, IReadOnlyList<ImportSummary> logs, int newEntries)
    {
        var page = new PlainText(80);
        foreach (var log in logs)
        {
            page.Sentence(
                $"{log.Log}: {Wording.Count(log.Read.Readings.Count, "reading")}; {Wording.Count(log.Stored.New)} new, "
                + $"{Wording.Count(log.Stored.Changed)} changed, {Wording.Count(log.Stored.Known)} known already.");
            foreach (string remark in log.Read.Remarks) page.Sentence(remark, "  ", "- ");
            foreach (var skipped in log.Read.Skipped)
            {
                page.Sentence($"not taken: {skipped.Reason}: {Wording.Count(skipped.Count, "row")}, first on line {skipped.FirstLine}", "  ", "- ");
            }
        }

        if (newEntries > 0) page.Sentence($"Daybook: {Wording.Count(newEntries, "new entry", "new entries")}.");
        return page.Sentence($"The records are in {records}.").ToString();
    }

    public static string Json(string records, IReadOnlyList<ImportSummary> logs, int newEntries) =>
        JsonSerializer.Serialize(
            new
            {
                records,
                daybook_new = newEntries,
                logs = logs.Select(l => new
                {
                    log = l.Log,
                    readings = l.Read.Readings.Count,
                    @new = l.Stored.New,
                    changed = l.Stored.Changed,
                    known = l.Stored.Known,
                    skipped = l.Read.Skipped.Select(s => new { reason = s.Reason, count = s.Count, first_line = s.FirstLine }),
                    remarks = l.Read.Remarks,
                }),
            }) + "\n";
}
