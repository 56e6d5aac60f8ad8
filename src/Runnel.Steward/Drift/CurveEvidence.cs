using Runnel.Place.Findings;

namespace Runnel.Steward.Drift;

/// <summary>The healthy curve of run time over fill time, for charts.</summary>
internal static class CurveEvidence
{
    private const int Points = 40;

    public static IReadOnlyList<BandPoint> RunOverFill(LoopState state, RunCurveWatch? watch)
    {
        if (watch?.Curve is not { } curve || double.IsNaN(watch.HalfDaySpread)) return [];
        var fills = state.Cycles.Cycles.Where(c => !c.Disturbed).Select(c => c.FillS).Order().ToList();
        if (fills.Count < 20) return [];
        double least = fills[fills.Count / 100], greatest = fills[fills.Count * 99 / 100];
        var points = new List<BandPoint>();
        for (int i = 0; i < Points; i++)
        {
            double fill = least + ((greatest - least) * i / (Points - 1));
            double run = watch.ExpectedRunS(1 / fill);
            double pm = 1.645 * Math.Sqrt(Math.Pow(watch.HalfDaySpread, 2) + Math.Pow(curve.DepartureError(1 / fill), 2));
            if (run > 0 && pm < 1) points.Add(new BandPoint(fill, run, run * (1 - pm), run * (1 + pm)));
        }

        return points;
    }
}
