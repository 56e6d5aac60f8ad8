using System.Text.Json;
using Runnel.Science.Statistics;

namespace Runnel.Science.Tests.Statistics;

// Source: NIST/SEMATECH e-Handbook 6.3.2, Montgomery (2009), Western Electric (1956), Page (1954), Hinkley (1971); named in each case.
public sealed class PublishedChartTests
{
    private static readonly Dictionary<string, JsonElement> Cases = PublishedSeries.Open("hydraulics-signals/spc.json");

    [Fact, Trait("source", "NIST/SEMATECH e-Handbook 6.3.2.2")]
    public void Individuals_chart_has_the_printed_limits()
    {
        var c = Cases["nist-individuals-6.3.2.2"];
        double[] series = c.Numbers("series");
        var limits = IndividualsChart.Limits(series);
        c.Near(c.Number("expected", "mean"), limits.Mean, 0, 5e-5);
        c.Near(c.Number("expected", "moving_range_mean"), limits.MovingRangeMean, 0, 5e-5);
        c.Near(c.Number("expected", "upper_limit"), limits.UpperLimit, 0, 5e-5);
        c.Near(c.Number("expected", "lower_limit"), limits.LowerLimit, 0, 5e-5);
        double[] ranges = c.Numbers("expected", "moving_ranges");
        Assert.Equal(ranges.Average(), limits.MovingRangeMean, 1e-12);
        Assert.Empty(c.Numbers("expected", "flags"));
        Assert.DoesNotContain(series, x => x > limits.UpperLimit || x < limits.LowerLimit);
        Assert.DoesNotContain(ranges, r => r > limits.MovingRangeLimit);
    }

    [Fact, Trait("source", "NIST/SEMATECH e-Handbook 6.3.2.4")]
    public void Ewma_follows_the_printed_series()
    {
        var c = Cases["nist-ewma-6.3.2.4"];
        var design = new EwmaDesign(c.Number("params", "target"), c.Number("params", "sigma"), c.Number("params", "lambda_"), c.Number("params", "L"));
        double[] printed = c.Numbers("expected", "ewma_printed"), full = c.Numbers("expected", "ewma_full"), series = c.Numbers("series");
        var state = Ewma.Start(design);
        for (int i = 0; i < series.Length; i++)
        {
            state = Ewma.Next(state, series[i], design);
            c.Near(printed[i], state.Average, 0, 0.005 + 1e-9);
            c.Near(full[i], state.Average, 0, 1e-8);
            Assert.False(Ewma.Signals(state, design, steadyLimits: true));
        }

        Assert.Equal(series.Length, state.Count);
        c.Near(c.Number("expected", "upper_limit"), design.Target + Ewma.SteadyHalfWidth(design), 0, 2e-4);
        c.Near(c.Number("expected", "lower_limit"), design.Target - Ewma.SteadyHalfWidth(design), 0, 2e-4);
    }

    [Fact, Trait("source", "NIST/SEMATECH e-Handbook 6.3.2.3")]
    public void Cusum_follows_the_printed_table()
    {
        var c = Cases["nist-cusum-tabular-6.3.2.3"];
        var design = new CusumDesign(c.Number("params", "target"), c.Number("params", "k"), c.Number("params", "h"));
        double[] series = c.Numbers("series");
        var signals = new List<double>();
        var state = Cusum.Start();
        double sum = 0;
        for (int i = 0; i < series.Length; i++)
        {
            state = Cusum.Next(state, series[i], design);
            sum += series[i] - design.Target;
            c.Near(c.Numbers("expected", "deviation")[i], series[i] - design.Target, 0, 0.0056);
            c.Near(c.Numbers("expected", "cusum_printed")[i], sum, 0, 0.0056);
            c.Near(c.Numbers("expected", "s_hi_printed")[i], state.High, 0, 0.0056);
            c.Near(c.Numbers("expected", "s_lo_printed")[i], state.Low, 0, 0.0056);
            c.Near(c.Numbers("expected", "s_hi_full")[i], state.High, 0, 1e-9);
            c.Near(c.Numbers("expected", "s_lo_full")[i], state.Low, 0, 1e-9);
            if (Cusum.SignalsHigh(state, design) || Cusum.SignalsLow(state, design)) signals.Add(i + 1);
        }

        Assert.Equal(c.Numbers("expected", "signal_groups"), signals);
        Assert.Equal(c.Number("expected", "first_signal_group"), signals[0]);
    }

    [Fact, Trait("source", "Montgomery 2009, Example 9.1")]
    public void Cusum_counts_back_to_the_onset_of_the_printed_example()
    {
        var c = Cases["montgomery-cusum-ex9.1"];
        var design = new CusumDesign(c.Number("params", "target"), c.Number("params", "k"), c.Number("params", "h"));
        double[] series = c.Numbers("series"), printed = c.Numbers("expected", "c_plus_printed_periods_1_to_29");
        var state = Cusum.Start();
        int? first = null;
        for (int i = 0; i < series.Length; i++)
        {
            state = Cusum.Next(state, series[i], design);
            if (i < printed.Length) c.Near(printed[i], state.High, 0, 0.0051);
            c.Near(c.Numbers("expected", "c_plus_full")[i], state.High, 0, 1e-9);
            c.Near(c.Numbers("expected", "c_minus_full")[i], state.Low, 0, 1e-9);
            Assert.Equal(c.Numbers("expected", "n_plus")[i], state.HighRun);
            Assert.Equal(c.Numbers("expected", "n_minus")[i], state.LowRun);
            if (first is not null || !Cusum.SignalsHigh(state, design)) continue;
            first = i + 1;
            Assert.Equal(c.Number("expected", "n_plus_at_signal"), state.HighRun);
            double[] onset = c.Numbers("expected", "onset_between_periods");
            Assert.Equal([first.Value - state.HighRun, first.Value - state.HighRun + 1], onset);
        }

        Assert.Equal(c.Whole("expected", "first_signal"), first);
    }

    [Fact, Trait("source", "Western Electric 1956; Nelson 1984")]
    public void Run_rules_fire_at_the_published_points()
    {
        var c = Cases["western-electric-rules-1"];
        double[] series = c.Numbers("series");
        foreach (var (name, pattern) in new[]
        {
            ("one_beyond_3s", RunPatterns.OneBeyond3), ("two_of_three_beyond_2s_same_side", RunPatterns.TwoOfThreeBeyond2),
            ("four_of_five_beyond_1s_same_side", RunPatterns.FourOfFiveBeyond1), ("eight_same_side", RunPatterns.EightOnOneSide),
            ("six_steadily_rising_or_falling", RunPatterns.SixSteady),
        })
        {
            double[] fired = [.. Enumerable.Range(1, series.Length)
                .Where(n => RunRules.AtEnd(series.AsSpan(0, n), c.Number("params", "centre"), c.Number("params", "sigma")).HasFlag(pattern)).Select(n => (double)n)];
            Assert.Equal(c.Numbers("expected", name), fired);
        }
    }

    [Theory, Trait("source", "Page 1954; Hinkley 1971")]
    [InlineData("page-hinkley-up-known-mean")]
    [InlineData("page-hinkley-up-running-mean")]
    public void Page_hinkley_follows_the_published_series(string name)
    {
        var c = Cases[name];
        var mean = c.At("params", "mean");
        double known = mean.ValueKind == JsonValueKind.Null ? double.NaN : mean.GetDouble();
        double[] series = c.Numbers("series"), expected = c.Numbers("expected", "ph");
        var state = default(PageHinkleyState);
        int? alarm = null;
        for (int i = 0; i < series.Length; i++)
        {
            state = PageHinkley.Next(state, series[i], c.Number("params", "delta"), known);
            c.Near(expected[i], state.Statistic, 0, 1e-9);
            if (state.Statistic > c.Number("params", "lambda_")) alarm ??= i + 1;
        }

        Assert.Equal(c.Whole("expected", "first_alarm"), alarm);
        Assert.True(alarm > c.Whole("expected", "true_change_after"));
    }

    [Fact, Trait("source", "ASTM Manual 7; NIST/SEMATECH e-Handbook 6.3.2.1")]
    public void Chart_constants_agree_with_the_standard_table()
    {
        var expected = Cases["shewhart-constants"].At("expected");
        for (int n = 2; n <= 5; n++)
        {
            string key = n.ToString(System.Globalization.CultureInfo.InvariantCulture);
            Assert.Equal(expected.Number("d2", key), ControlChartConstants.D2(n), 0.0006);
            Assert.Equal(expected.Number("D4", key), ControlChartConstants.D4(n), 0.0006);
            Assert.Equal(expected.Number("D3", key), ControlChartConstants.D3(n), 0.0006);
            Assert.Equal(expected.Number("A2", key), ControlChartConstants.A2(n), 0.0006);
        }
    }

    [Fact, Trait("source", "definition: mean of the range of n normal values")]
    public void Mean_range_agrees_with_its_integral()
    {
        for (int n = 2; n <= 10; n++)
        {
            double integral = MathNet.Numerics.Integration.GaussLegendreRule.Integrate(
                x => 1 - Math.Pow(NormalDistribution.Cdf(x), n) - Math.Pow(NormalDistribution.Cdf(-x), n), -9, 9, 128);
            Assert.Equal(integral, ControlChartConstants.D2(n), 1e-5);
        }
    }
}
