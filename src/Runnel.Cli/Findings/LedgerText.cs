using Runnel.Place.Findings;

namespace Runnel.Cli.Findings;

/// <summary>The water ledger: day by day for a short log, week by week (litres a day) for a long one.</summary>
internal static class LedgerText
{
    public static void Write(PlainText page, Diagnosis found)
    {
        var ledger = found.Ledger;
        if (ledger.Count == 0) return;
        if (!found.InflowIsKnown)
        {
            page.Heading("Water");
            page.Sentence(
                "Nothing that came in is logged (no top-up, no rain, nothing filled by hand), so litres cannot be balanced. Sun and plants would take "
                + $"about {Wording.Litres(ledger.Average(d => d.Evaporation.L + d.PlantUse.L))} L a day.");
            return;
        }

        var blocks = CivilBlocks.Of(ledger, d => d.Date);
        bool weekly = CivilBlocks.Weekly(ledger.Count);
        page.Heading(weekly ? "Water, litres a day, week by week" : "Water, litres, day by day");
        page.Table(
            [weekly ? "from" : "date", "top-up", "bleed", "rain", "evap.", "plants", "drawn", "stored", "unexplained"],
            [.. blocks.Select(Row)]);
        page.Blank();
        page.Sentence("Unexplained: lost where positive, gained where negative, with half its 90 % band.");
        page.Sentence(
            $"In all: top-up {Sum(ledger, d => d.TopUp)} L, bleed {Sum(ledger, d => d.Bleed)} L, rain {Sum(ledger, d => d.Rain)} L, "
            + $"evaporation {Sum(ledger, d => d.Evaporation)} L, plants {Sum(ledger, d => d.PlantUse)} L, drawn {Sum(ledger, d => d.Drawn)} L, "
            + $"unexplained {Sum(ledger, d => d.Unexplained)} L.");
    }

    private static IReadOnlyList<string> Row(IReadOnlyList<LedgerDay> days) =>
    [
        days[0].Date.ToString("uuuu-MM-dd", null),
        Mean(days, d => d.TopUp), Mean(days, d => d.Bleed), Mean(days, d => d.Rain), Mean(days, d => d.Evaporation),
        Mean(days, d => d.PlantUse), Mean(days, d => d.Drawn), Mean(days, d => d.Stored),
        // The mean of the bands, not the band of the mean: days err together (same weather model, same valve rate).
        $"{Mean(days, d => d.Unexplained)} +-{Wording.Litres(days.Average(d => d.Unexplained.PlusMinusL))}",
    ];

    private static string Mean(IReadOnlyList<LedgerDay> days, Func<LedgerDay, Litres> of) => Wording.Litres(days.Average(d => of(d).L));

    private static string Sum(IReadOnlyList<LedgerDay> days, Func<LedgerDay, Litres> of) => Wording.Litres(days.Sum(d => of(d).L));
}
