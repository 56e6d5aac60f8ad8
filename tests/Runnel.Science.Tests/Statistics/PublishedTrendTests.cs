using System.Text.Json;
using Runnel.Science.Statistics;

namespace Runnel.Science.Tests.Statistics;

// Source: Gilbert (1987), van Belle and Hughes (1984), Helsel and Hirsch, Sen (1968), NIST/SEMATECH e-Handbook 1.3.5.17, Davies and
// Gather (1993); named in each case.
public sealed class PublishedTrendTests
{
    private static readonly Dictionary<string, JsonElement> Cases = PublishedSeries.Open("hydraulics-signals/spc.json");
    private static readonly double[] Nile = PublishedSeries.Root("hydraulics-signals/nile.json").Numbers("series", "values");

    [Theory, Trait("source", "Gilbert 1987 p. 211 and Example 16.3; van Belle and Hughes 1984 p. 136; Helsel and Hirsch")]
    [InlineData("gilbert-p211-four-values")]
    [InlineData("gilbert-ex16.3-multiple-per-period")]
    [InlineData("gilbert-p211-tie-variance")]
    [InlineData("vanbelle-hughes-p136")]
    [InlineData("theil-sen-eight")]
    [InlineData("helsel-hirsch-kendall-ten")]
    [InlineData("nile-mann-kendall-theil-sen")]
    [InlineData("ph-drift-mk-sen")]
    public void Mann_kendall_and_sen_agree_with_print(string name)
    {
        var c = Cases[name];
        double[] values = c.TryGetProperty("series", out _) ? c.Numbers("series") : Nile;
        double[] times = c.TryGetProperty("time", out _) ? c.Numbers("time") : c.TryGetProperty("x", out _) ? c.Numbers("x")
            : [.. Enumerable.Range(1, values.Length).Select(i => (double)i)];
        var test = MannKendall.Test(times, values);
        var line = TheilSen.Fit(times, values);
        bool nile = name.StartsWith("nile", StringComparison.Ordinal);
        foreach (var expected in c.At("expected").EnumerateObject())
        {
            double value = expected.Value.GetDouble();
            switch (expected.Name)
            {
                case "S": Assert.Equal(value, test.S); break;
                case "var_S": c.Near(value, test.Variance, name.StartsWith("vanbelle", StringComparison.Ordinal) ? 0.01 : 1e-6); break;
                case "Z": c.Near(value, test.Z, 0, 1e-6); break;
                case "p" or "p_two_sided_normal": c.Near(value, test.P, 1e-6); break;
                case "tau" or "kendall_tau_b": c.Near(value, test.TauB, 0, 1e-9); break;
                case "slope" or "slope_per_day": c.Near(value, line.Slope, 1e-9); break;
                case "intercept": c.Near(value, line.Intercept, 1e-12); break;
                case "slope_low": c.Near(value, line.SlopeLow, nile ? 0.02 : 1e-6); break;
                case "slope_high": c.Near(value, line.SlopeHigh, nile ? 0.02 : 1e-6); break;
                default: throw new InvalidOperationException($"no check for {expected.Name}");
            }
        }
    }

    [Fact, Trait("source", "NIST/SEMATECH e-Handbook 1.3.5.17.1")]
    public void Grubbs_finds_the_printed_outlier()
    {
        var c = Cases["nist-grubbs-uranium"];
        double[] series = c.Numbers("series");
        double g = GrubbsTest.Statistic(series, OutlierSide.Greatest), critical = GrubbsTest.Critical(series.Length, c.Number("params", "alpha"), OutlierSide.Greatest);
        c.Near(c.Number("expected", "G"), g, 0, 1e-4);
        c.Near(c.Number("expected", "critical"), critical, 0, 5e-4);
        Assert.Equal(c.At("expected", "reject").GetBoolean(), g > critical);
        Assert.Equal(c.Number("expected", "outlier_value"), series.Max());
    }

    [Fact, Trait("source", "Iglewicz and Hoaglin 1993; NIST/SEMATECH e-Handbook 1.3.5.17")]
    public void Modified_z_flags_what_the_ordinary_score_cannot()
    {
        var c = Cases["modified-z-uranium"];
        double[] series = c.Numbers("series"), expected = c.Numbers("expected", "modified_z");
        double median = Robust.Median(series), mad = Robust.MedianAbsoluteDeviation(series);
        c.Near(c.Number("expected", "median"), median, 0, 1e-6);
        c.Near(c.Number("expected", "mad"), mad, 0, 1e-6);
        double[] scores = [.. series.Select(x => Robust.ModifiedZ(x, median, mad))];
        for (int i = 0; i < scores.Length; i++) c.Near(expected[i], scores[i], 0, 1e-6);
        double[] flags = [.. Enumerable.Range(1, scores.Length).Where(i => Math.Abs(scores[i - 1]) > c.Number("params", "threshold")).Select(i => (double)i)];
        Assert.Equal(c.Numbers("expected", "flag_index_1_based"), flags);
        Assert.True(GrubbsTest.Statistic(series) < 7 / Math.Sqrt(8));
    }

    [Fact, Trait("source", "Davies and Gather 1993; Pearson 2002; Rousseeuw and Croux 1993")]
    public void Hampel_filter_takes_out_both_spikes()
    {
        var c = Cases["hampel-spikes"];
        double[] series = c.Numbers("series"), cleaned = new double[series.Length];
        bool[] spikes = new bool[series.Length];
        HampelFilter.Clean(series, (int)c.Number("params", "k"), c.Number("params", "t"), cleaned, spikes);
        Assert.Equal(c.Numbers("expected", "cleaned"), cleaned);
        Assert.Equal(c.Numbers("expected", "outlier_index_1_based"), Enumerable.Range(1, spikes.Length).Where(i => spikes[i - 1]).Select(i => (double)i));
        c.Near(c.Number("expected", "median_all"), Robust.Median(series), 0, 1e-9);
        c.Near(c.Number("expected", "mad_raw"), Robust.MedianAbsoluteDeviation(series), 0, 1e-9);
        c.Near(c.Number("expected", "mad_scaled"), Robust.MadToSd * Robust.MedianAbsoluteDeviation(series), 0, 1e-9);
        c.Near(c.Number("expected", "Sn"), Robust.Sn(series), 0, 1e-9);
        // The reference program's finite-sample factor departs from its published polynomial in the eighth figure.
        c.Near(c.Number("expected", "Qn"), Robust.Qn(series), 0, 1e-8);
    }

    [Fact, Trait("source", "textbook example of the median absolute deviation")]
    public void Median_and_mad_of_the_textbook_example()
    {
        var c = Cases["mad-small"];
        Assert.Equal(c.Number("expected", "median"), Robust.Median(c.Numbers("series")));
        Assert.Equal(c.Number("expected", "mad"), Robust.MedianAbsoluteDeviation(c.Numbers("series")));
    }

    [Fact, Trait("source", "flat-line test, environmental sensor quality control practice")]
    public void Stuck_sensor_is_a_run_that_a_gap_ends()
    {
        var c = Cases["frozen-run-min6"];
        var runs = StuckSensor.EqualRuns(c.Numbers("series"), (int)c.Number("params", "min_run"), c.Number("params", "tolerance"));
        var expected = c.At("expected", "runs_1_based").EnumerateArray().Select(r => new Stretch(r[0].GetInt32() - 1, r[1].GetInt32() - 1));
        Assert.Equal(expected, runs);
    }

    [Fact, Trait("source", "variance-collapse rule, common practice in sensor quality control")]
    public void Stuck_sensor_has_lost_its_scatter()
    {
        var c = Cases["frozen-variance-test"];
        double[] series = c.Numbers("series");
        int window = (int)c.Number("params", "window");
        double[] flags = [.. Enumerable.Range(window, series.Length - window + 1)
            .Where(end => StuckSensor.HasLostScatter(series.AsSpan(end - window, window), c.Number("params", "healthy_std"), c.Number("params", "ratio"))).Select(e => (double)e)];
        Assert.Equal(c.Numbers("expected", "flag_end_index_1_based"), flags);
    }

    [Fact]
    public void Every_published_case_has_a_check()
    {
        string[] here = ["modified-z-uranium", "hampel-spikes", "mad-small", "frozen-run-min6", "frozen-variance-test", "nist-grubbs-uranium"];
        string[] trends = ["gilbert-p211-four-values", "gilbert-ex16.3-multiple-per-period", "gilbert-p211-tie-variance", "vanbelle-hughes-p136",
            "theil-sen-eight", "helsel-hirsch-kendall-ten", "nile-mann-kendall-theil-sen", "ph-drift-mk-sen"];
        string[] charts = ["nist-individuals-6.3.2.2", "nist-ewma-6.3.2.4", "nist-cusum-tabular-6.3.2.3", "montgomery-cusum-ex9.1",
            "western-electric-rules-1", "page-hinkley-up-known-mean", "page-hinkley-up-running-mean", "shewhart-constants"];
        string[] lengths = ["arl-cusum-k0.5-h4", "arl-cusum-fir-h4", "arl-ewma", "critical-h-for-arl0"];
        Assert.Equal([.. Cases.Keys.Order()], [.. here.Concat(trends).Concat(charts).Concat(lengths).Order()]);
    }
}
