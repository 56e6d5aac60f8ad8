using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Drift;

/// <summary>The healthy curve of run time over fill time, for charts.</summary>
internal static class CurveEvidence
{
    private const int Points = 40;

    /// <summary>A standing notice's chart shows health as it was well before the trouble, so that its first signs are not in the curve.</summary>
    private static readonly Duration WellBefore = Duration.FromDays(10);

    public static IReadOnlyList<BandPoint> RunOverFill(LoopState state, RunCurveWatch? watch, IReadOnlyList<Notice> notices)
    {
        var trouble = notices.FirstOrDefault(n => n.Cleared is null && n.Cause is CauseNames.DrainFouling or CauseNames.PumpWeakening);
        var at = trouble is null ? state.LastReading : trouble.Since - WellBefore;
        if (watch?.LearntAt(at) is not { } health) return [];
        var fills = state.Cycles.Cycles.Where(c => !c.Disturbed).Select(c => c.FillS).Order().ToList();
        if (fills.Count < 20) return [];
        double least = fills[fills.Count / 100], greatest = fills[fills.Count * 99 / 100];
        var points = new List<BandPoint>();
        for (int i = 0; i < Points; i++)
        {
            double fill = least + ((greatest - least) * i / (Points - 1));
            var (run, spread) = health(1 / fill);
            double pm = 1.645 * spread;
            if (run > 0 && pm < 1) points.Add(new BandPoint(fill, run, run * (1 - pm), run * (1 + pm)));
        }

        return points;
    }
}
