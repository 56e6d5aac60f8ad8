using NodaTime;
using Runnel.Place.Findings;
using Runnel.Web.Charts;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

/// <summary>Makes the run-against-fill chart of a diagnosis.</summary>
public static class RunOverFillOf
{
    private const int MostScatterDots = 700;

    /// <param name="diagnosis">What was understood.</param>
    /// <param name="notice">The notice it is evidence for, or null to show the loop as it is.</param>
    /// <returns>Null where no cycles were seen.</returns>
    public static RunOverFillChart? Chart(Diagnosis diagnosis, Notice? notice)
    {
        CyclePoint[] clean = [.. diagnosis.Evidence.Cycles.Where(c => !c.Disturbed && c.FillS > 0 && c.RunS > 0)];
        if (clean.Length < 4) return null;

        (string unit, double perUnit) = clean.Length > 0 && Median([.. clean.Select(c => c.FillS)]) < 120 ? ("s", 1.0) : ("min", 60.0);
        HalfDay[] halves = [.. HalfDays(clean, diagnosis.Zone, perUnit)];
        Instant split = notice?.Since ?? Instant.MaxValue;
        Instant end = notice?.Cleared ?? Instant.MaxValue;
        HalfDay[] before = [.. halves.Where(h => h.Start < split)], since = [.. halves.Where(h => h.Start >= split && h.Start < end)];
        BandPoint[] curve = [.. diagnosis.Evidence.RunOverFill.Select(p => new BandPoint(p.X / perUnit, p.Value / perUnit, p.Low / perUnit, p.High / perUnit))];
        int every = Math.Max(1, clean.Length / MostScatterDots);

        LocalDate? splitDate = notice is null ? null : split.InZone(diagnosis.Zone).Date;
        FillAndRun? last = since.Length == 0 ? null : LastDay(since);
        var chart = new RunOverFillChart
        {
            Id = "run-over-fill",
            Title = "Run time against fill time",
            Description = "",
            Unit = unit,
            Expected = curve,
            Before = [.. before.Select(h => h.Median)],
            Since = [.. since.Select(h => h.Median)],
            Scatter = [.. clean.Where((_, i) => i % every == 0).Select(c => new FillAndRun(c.FillS / perUnit, c.RunS / perUnit))],
            BeforeName = since.Length == 0 ? "" : $"before {Times.ShortDay(splitDate!.Value)}",
            SinceName = since.Length == 0 ? "" : $"since {Times.ShortDay(splitDate!.Value)}",
            SinceStyle = notice is null ? "" : Urgencies.Rule(notice.Urgency),
            Last = last,
            Table = new(["Half day from", $"Fill, {unit}", $"Run, {unit}", "Cycles"],
                [.. halves.Select(h => (IReadOnlyList<string>)[Times.DayAndClock(h.Start, diagnosis.Zone), Figures.Number(h.Median.Fill, 2), Figures.Number(h.Median.Run, 2), Figures.Number(h.Count)])]),
        };
        return chart with { Description = Describe(chart) };
    }

    private static string Describe(RunOverFillChart chart)
    {
        if (chart.Before.Count == 0 && chart.Since.Count == 0) return "No cycles to draw.";
        IReadOnlyList<FillAndRun> all = chart.Before.Count > 0 ? chart.Before : chart.Since;
        string usual = $"Fills mostly take {Figures.Range(all.Min(m => m.Fill), all.Max(m => m.Fill), 1)} {chart.Unit} and runs {Figures.Range(all.Min(m => m.Run), all.Max(m => m.Run), 1)} {chart.Unit}.";
        return chart.Last is { } last && chart.ExpectedAt(last.Fill) is { } expected
            ? $"{usual} On the last day a fill of {Figures.Number(last.Fill, 1)} {chart.Unit} was followed by a run of {Figures.Number(last.Run, 1)} {chart.Unit}, where {Figures.Number(expected.Value, 1)} ({Figures.Range(expected.Low, expected.High, 1)}) is expected."
            : usual;
    }

    private static FillAndRun LastDay(HalfDay[] since)
    {
        HalfDay[] last = since[^Math.Min(2, since.Length)..];
        return new(last.Average(h => h.Median.Fill), last.Average(h => h.Median.Run));
    }

    private static IEnumerable<HalfDay> HalfDays(CyclePoint[] cycles, DateTimeZone zone, double perUnit) => cycles
        .GroupBy(c =>
        {
            LocalDateTime local = c.Start.InZone(zone).LocalDateTime;
            return (local.Date, Afternoon: local.Hour >= 12);
        })
        .Where(g => g.Count() >= 3) // fewer say more about one fill than about the loop
        .Select(g => new HalfDay(
            zone.AtLeniently(g.Key.Date + new LocalTime(g.Key.Afternoon ? 12 : 0, 0)).ToInstant(),
            new(Median([.. g.Select(c => c.FillS)]) / perUnit, Median([.. g.Select(c => c.RunS)]) / perUnit), g.Count()))
        .OrderBy(h => h.Start);

    private static double Median(double[] values)
    {
        Array.Sort(values);
        return values.Length % 2 == 1 ? values[values.Length / 2] : (values[(values.Length / 2) - 1] + values[values.Length / 2]) / 2;
    }

    private readonly record struct HalfDay(Instant Start, FillAndRun Median, int Count);
}
