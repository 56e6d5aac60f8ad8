using NodaTime;
using Runnel.Science.Pipes;
using Runnel.Steward.Drift;

namespace Runnel.Tests.Steward.Drift;

public sealed class RunCurveTests
{
    private const double BandL = 60, PumpLPerMin = 40;

    // The two-level sump in closed form (MIL-HDBK-1005/9A, pumping stations, section 2.5.3.6): fill = V/Q, run = V/(P - Q), so that 1/run
    // falls by one for each 1/fill, and a worn pump lengthens the run at the same fill.
    [Fact]
    public void The_curve_of_the_ideal_sump_is_found_and_wear_departs_from_it()
    {
        var bins = Enumerable.Range(0, 120).Select(i => Bin(i, inflowLPerMin: 12 + (6 * Math.Sin(i / 9.0)), PumpLPerMin)).ToList();
        var curve = RunCurve.Fit(bins)!;
        Assert.Equal(-1, curve.Slope, 0.03);
        Assert.All(bins, bin => Assert.Equal(0, curve.Departure(bin), 0.01));

        var worn = Bin(0, inflowLPerMin: 14, 0.9 * PumpLPerMin);
        double expected = Math.Log((PumpLPerMin - 14) / ((0.9 * PumpLPerMin) - 14));
        Assert.Equal(expected, curve.Departure(worn), 0.01);
    }

    [Fact]
    public void Too_few_bins_give_no_curve() => Assert.Null(RunCurve.Fit([Bin(0, 12, PumpLPerMin)]));

    [Fact]
    public void Far_from_the_fills_it_was_learnt_from_the_curve_claims_less()
    {
        var bins = Enumerable.Range(0, 60).Select(i => Bin(i, 12 + Math.Sin(i), PumpLPerMin)).ToList();
        var curve = RunCurve.Fit(bins)!;
        Assert.True(curve.DepartureError(bins[0].InverseFill * 0.6) > 5 * curve.DepartureError(bins[0].InverseFill));
    }

    private static CurveBin Bin(int i, double inflowLPerMin, double pumpLPerMin)
    {
        double fillS = 60 * BandL / inflowLPerMin, runS = 60 * BandL / (pumpLPerMin - inflowLPerMin);
        return new CurveBin(Instant.FromUnixTimeSeconds(7200L * i), 12, 1 / fillS, 1 / runS, 1e-12, 1e-12);
    }
}
