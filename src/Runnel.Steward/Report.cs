using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Drift;
using Runnel.Steward.Ledger;
using Runnel.Steward.OwnRule;
using Runnel.Steward.Watches;

namespace Runnel.Steward;

/// <summary>Puts what a reader has understood into the form of the findings.</summary>
internal static class Report
{
    public static Diagnosis Of(LoopReader reader, IReadOnlyList<Notices.IWatch> watches, ReadingLog log)
    {
        var state = reader.State;
        var curve = watches.OfType<RunCurveWatch>().FirstOrDefault();
        var notices = reader.Notices.Notices;
        var doubts = new LedgerDoubts(notices);
        var litresShort = StoreEvidence.LitresShort(state, doubts);
        return new Diagnosis
        {
            PlaceName = state.Place.Name,
            Zone = state.Place.Zone,
            From = state.Began,
            To = state.LastReading,
            ReadingCount = state.Channels.Sum(c => c.Count),
            Skipped = log.Skipped,
            Kit = state.Kit.Describe(),
            Cycles = CyclesByDay(state),
            Ledger = DayLedger.Of(state, doubts),
            Estimates = Estimates.Of(state, litresShort),
            Notices = notices,
            OwnRule = OwnRuleJudge.Of(state, notices, doubts, litresShort),
            Verdict = Wording.Verdict(state, notices, litresShort),
            Remarks = [.. log.Remarks, .. Wording.Remarks(state, litresShort, doubts.MisledAt(state.LastReading) is not null)],
            Evidence = new Evidence
            {
                Cycles = [.. state.Cycles.Cycles.Select(c => new CyclePoint(c.FillStart, c.FillS, c.RunS, c.Disturbed))],
                RunOverFill = CurveEvidence.RunOverFill(state, curve, notices),
                LitresShort = litresShort,
                RunDeparturePercent = curve?.History ?? [],
                LevelMm = StoreEvidence.LevelMm(state),
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

    private static double? Median(IEnumerable<double> values) =>
        Robust.Median([.. values]) is var median && double.IsNaN(median) ? null : median;
}
