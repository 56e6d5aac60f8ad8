using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;

namespace Runnel.Steward;

/// <summary>Puts what a reader has understood into the form of the findings.</summary>
internal static class Report
{
    public static Diagnosis Of(LoopReader reader, ReadingLog log)
    {
        var state = reader.State;
        var zone = state.Place.Zone;
        return new Diagnosis
        {
            PlaceName = state.Place.Name,
            Zone = zone,
            From = state.Began,
            To = state.LastReading,
            ReadingCount = state.Channels.Sum(c => c.Count),
            Skipped = log.Skipped,
            Kit = state.Kit.Describe(),
            Cycles = CyclesByDay(state),
            Ledger = [],
            Estimates = [],
            Notices = reader.Notices.Notices,
            OwnRule = null,
            Verdict = "",
            Remarks = log.Remarks,
            Evidence = new Evidence
            {
                Cycles = [.. state.Cycles.Cycles.Select(c => new CyclePoint(c.FillStart, c.FillS, c.RunS, c.Disturbed))],
                RunOverFill = [],
                LitresShort = [],
                RunDeparturePercent = [],
                LevelMm = [],
                Pulses = state.Pulses,
                Gaps = state.Gaps,
            },
        };
    }

    private static CycleSummary CyclesByDay(LoopState state)
    {
        var cycles = state.Cycles.Cycles;
        var days = cycles
            .GroupBy(c => c.RunStart.InZone(state.Place.Zone).Date)
            .OrderBy(g => g.Key)
            .Select(g => new CycleDay(g.Key, g.Count(), Median(g.Select(c => c.FillS)), Median(g.Select(c => c.RunS))))
            .ToList();
        return new CycleSummary(cycles.Count, Median(cycles.Select(c => c.FillS)), Median(cycles.Select(c => c.RunS)), days);
    }

    private static double? Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        if (sorted.Length == 0) return null;
        return sorted.Length % 2 == 1 ? sorted[sorted.Length / 2] : (sorted[(sorted.Length / 2) - 1] + sorted[sorted.Length / 2]) / 2;
    }
}
