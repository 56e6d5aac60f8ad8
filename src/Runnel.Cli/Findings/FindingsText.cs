using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Cli.Findings;

/// <summary>A diagnosis as a page of plain sentences and small tables, 80 columns wide.</summary>
public static class FindingsText
{
    private const int Width = 80;

    public static string Render(Diagnosis found)
    {
        var page = new PlainText(Width);
        Head(page, found);
        NoticesText.Write(page, found);
        if (found.OwnRule is { } rule) OwnRule(page, rule);
        LedgerText.Write(page, found);
        CyclesText.Write(page, found.Cycles);
        Estimates(page, found);
        Remarks(page, found);
        Skipped(page, found);
        return page.ToString();
    }

    private static void Head(PlainText page, Diagnosis found)
    {
        page.Sentence(found.Verdict).Blank();
        page.Sentence(
            $"{found.PlaceName}: {Wording.At(found.From, found.Zone)} to {Wording.At(found.To, found.Zone)}, {Length(found.To - found.From)}, "
            + $"{Wording.Count(found.ReadingCount, "reading")}. Times are those of {found.Zone.Id}.");
        if (found.Kit.Count > 0) page.Sentence($"Read from: {string.Join(", ", found.Kit.Select(k => k.Replace('-', ' ')))}.");
    }

    private static string Length(Duration span) =>
        span.TotalDays >= 2 ? $"{Wording.Plain(span.TotalDays, 0)} days" : $"{Wording.Plain(span.TotalHours, 1)} h";

    private static void OwnRule(PlainText page, OwnRuleFinding rule)
    {
        page.Heading("Your own top-up rule");
        page.Sentence(
            $"It made {Wording.Count(rule.TopUps, "top-up")}, {Wording.Litres(rule.Litres)} L in all. Not needed: {Wording.Count(rule.NotNeeded)}. "
            + $"Late: {Wording.Count(rule.Late)}. Poured beyond what the readings called for: {Wording.Litres(rule.TooMuchL)} L.");
        foreach (string why in rule.Why) page.Sentence(why, "  ", "- ");
    }

    private static void Estimates(PlainText page, Diagnosis found)
    {
        if (found.Estimates.Count == 0) return;
        page.Heading("Understood from the readings (latest, with 90 % band)");
        // Where one quantity is told several times, the latest is what holds.
        var latest = found.Estimates.GroupBy(e => e.Name).Select(g => g.MaxBy(e => e.Time)!);
        page.Table(
            ["quantity", "value", "from", "to", "unit"],
            [.. latest.Select(e => (IReadOnlyList<string>)
                [e.Name.Replace('-', ' '), Wording.Figure(e.Value), Wording.Figure(e.Low), Wording.Figure(e.High), e.Unit])]);
    }

    private static void Remarks(PlainText page, Diagnosis found)
    {
        if (found.Remarks.Count == 0) return;
        page.Heading("Remarks");
        foreach (string remark in found.Remarks) page.Sentence(remark, "  ", "- ");
    }

    private static void Skipped(PlainText page, Diagnosis found)
    {
        if (found.Skipped.Count == 0) return;
        page.Heading("Rows that were not taken");
        page.Table(
            ["reason", "rows", "first on line"],
            [.. found.Skipped.Select(s => (IReadOnlyList<string>)[s.Reason, Wording.Count(s.Count), Wording.Count(s.FirstLine)])]);
    }
}
