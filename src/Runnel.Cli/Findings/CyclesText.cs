using Runnel.Place.Findings;

namespace Runnel.Cli.Findings;

/// <summary>The pump's cycles, in the same blocks of days as the ledger.</summary>
internal static class CyclesText
{
    public static void Write(PlainText page, CycleSummary cycles)
    {
        if (cycles.Count == 0) return;
        page.Heading(CivilBlocks.Weekly(cycles.Days.Count) ? "Cycles of the pump, week by week" : "Cycles of the pump, day by day");
        page.Table(["from", "cycles a day", "fill (median)", "run (median)"], [.. CivilBlocks.Of(cycles.Days, d => d.Date).Select(Row)]);
        page.Blank();
        page.Sentence(
            $"In all {Wording.Count(cycles.Count, "cycle")}; median fill {Wording.Seconds(cycles.MedianFillS)}, median run {Wording.Seconds(cycles.MedianRunS)}.");
    }

    private static IReadOnlyList<string> Row(IReadOnlyList<CycleDay> days) =>
    [
        days[0].Date.ToString("uuuu-MM-dd", null),
        Wording.Plain(days.Average(d => d.Count), 0),
        Wording.Seconds(Median(days.Select(d => d.MedianFillS))),
        Wording.Seconds(Median(days.Select(d => d.MedianRunS))),
    ];

    /// <summary>The median of the days' medians: one odd day does not move a week.</summary>
    private static double? Median(IEnumerable<double?> values)
    {
        var sorted = values.OfType<double>().Order().ToList();
        return sorted.Count == 0 ? null : (sorted[(sorted.Count - 1) / 2] + sorted[sorted.Count / 2]) / 2;
    }
}
