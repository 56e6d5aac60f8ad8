using CsCheck;
using MathNet.Numerics.LinearRegression;
using MathNet.Numerics.Statistics;
using Runnel.Science.Statistics;

namespace Runnel.Science.Tests.Statistics;

// Reference: MathNet.Numerics 5.0.
public sealed class RegressionTests
{
    private static readonly Gen<double[]> Series = Gen.Double[-100, 100].Array[6, 40];

    [Fact, Trait("source", "MathNet.Numerics 5.0 MultipleRegression, Statistics")]
    public void Least_squares_and_order_statistics_agree_with_the_reference_library() => Series.Sample(values =>
    {
        double[][] rows = [.. values.Select((_, i) => new[] { 1.0, i, Math.Sin(3.0 * i) })];
        double[] expected = MultipleRegression.QR(rows, values);
        var fit = LeastSquares.Fit([.. rows.SelectMany(r => r)], 3, values)!;
        for (int j = 0; j < 3; j++) Assert.Equal(expected[j], fit.Coefficients[j], 1e-8);
        Assert.Equal(values.Median(), Robust.Median(values), 1e-12);
        Assert.Equal(values.QuantileCustom(0.31, QuantileDefinition.R7), Robust.Quantile(values, 0.31), 1e-9);
        Assert.Equal(values.StandardDeviation(), Moments.SampleSd(values), 1e-9);
    });

    [Fact, Trait("source", "MathNet.Numerics 5.0 WeightedRegression")]
    public void Weighted_least_squares_agrees_with_the_reference_library()
    {
        double[][] rows = [[1, 0.5], [1, 2], [1, 3.5], [1, 4], [1, 7]];
        double[] y = [1, 3, 2, 6, 9], weights = [1, 0.2, 3, 0, 2];
        double[] expected = WeightedRegression.Weighted(rows, y, weights);
        var fit = LeastSquares.Fit([.. rows.SelectMany(r => r)], 2, y, weights)!;
        Assert.Equal(expected[0], fit.Coefficients[0], 1e-10);
        Assert.Equal(expected[1], fit.Coefficients[1], 1e-10);
    }

    [Fact]
    public void Columns_that_depend_on_each_other_are_refused() =>
        Assert.Null(LeastSquares.Fit([1, 2, 2, 4, 3, 6], 2, [1, 2, 3]));

    [Theory]
    [InlineData(RobustWeight.Huber, 0.4)]
    [InlineData(RobustWeight.Tukey, 0.06)]
    public void Robust_line_holds_where_least_squares_is_turned(RobustWeight kind, double within)
    {
        var random = new Random(7);
        double[] x = [.. Enumerable.Range(0, 60).Select(i => (double)i)];
        double[] y = [.. x.Select(v => 5 + (0.5 * v) + (0.4 * (random.NextDouble() - 0.5)))];
        for (int i = 50; i < 58; i++) y[i] -= 40;
        var fit = RobustRegression.Line(x, y, kind)!;
        Assert.True(fit.Converged);
        Assert.Equal(5, fit.Coefficients[0], within);
        Assert.Equal(0.5, fit.Coefficients[1], within / 20);
        Assert.True(Math.Abs(LeastSquares.Line(x, y)!.Coefficients[1] - 0.5) > 0.1);
        Assert.All(Enumerable.Range(50, 8), i => Assert.True(fit.Weights[i] < 0.05));
    }

    [Fact]
    public void Robust_line_on_clean_values_is_the_least_squares_line() => Gen.Int[1, 1000].Sample(seed =>
    {
        var random = new Random(seed);
        double[] x = [.. Enumerable.Range(0, 40).Select(i => (double)i)];
        double[] y = [.. x.Select(v => 3 - (0.2 * v) + random.NextDouble())];
        // Uniform errors never pass 1.345 spreads by much: all weights stay near 1.
        Assert.Equal(LeastSquares.Line(x, y)!.Coefficients[1], RobustRegression.Line(x, y)!.Coefficients[1], 0.01);
    }, iter: 50);

    [Fact]
    public void Spread_estimates_follow_scale_and_ignore_place() => Series.Sample(values =>
    {
        double[] moved = [.. values.Select(v => (3 * v) - 50)];
        Assert.Equal(3 * Robust.Sn(values), Robust.Sn(moved), 1e-9);
        Assert.Equal(3 * Robust.Qn(values), Robust.Qn(moved), 1e-9);
        Assert.Equal(3 * Robust.MedianAbsoluteDeviation(values), Robust.MedianAbsoluteDeviation(moved), 1e-9);
    });

    [Fact]
    public void Trend_of_the_reversed_series_is_the_opposite() => Series.Sample(values =>
    {
        double[] back = [.. values.Reverse()];
        double[] x = [.. Enumerable.Range(0, values.Length).Select(i => (double)i)];
        Assert.Equal(-MannKendall.Test(values).S, MannKendall.Test(back).S);
        Assert.Equal(-TheilSen.Fit(x, values).Slope, TheilSen.Fit(x, back).Slope, 1e-9);
    });

    [Fact]
    public void More_breaks_never_fit_worse_where_stretches_may_be_short() => Gen.Double[-10, 10].Array[20, 60].Sample(values =>
    {
        var search = Breakpoints.Find(values, 1, 4);
        for (int m = 1; m < search.ResidualSquares.Count; m++)
        {
            Assert.True(search.ResidualSquares[m] <= search.ResidualSquares[m - 1] * (1 + 1e-9));
            Assert.Equal(m, search.BreaksByCount[m].Count);
        }
    });

    [Fact]
    public void Bad_series_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Robust.Median([1, double.NaN]));
        Assert.Throws<ArgumentException>(() => Robust.Median([]));
        Assert.Throws<ArgumentException>(() => GrubbsTest.Statistic([2, 2, 2]));
        Assert.Throws<ArgumentException>(() => LeastSquares.Line([1, 2], [1, 2, 3]));
        Assert.Throws<ArgumentException>(() => MeanShiftTests.OlsCusum([1, 1, 1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Cusum.Next(Cusum.Start(), double.NaN, new CusumDesign(0, 0.5, 5)));
        Assert.Throws<ArgumentException>(() => LocalLevel.Fit([3, 3, 3, 3, 3, 3]));
    }

    [Fact]
    public void A_gap_lets_the_level_grow_uncertain()
    {
        var before = new LevelForecast(10, 2);
        var gap = LocalLevel.Step(before, double.NaN, 1, 0.5);
        Assert.Equal(new LevelForecast(10, 2.5), gap.Next);
        Assert.True(double.IsNaN(gap.Surprise));
    }
}
