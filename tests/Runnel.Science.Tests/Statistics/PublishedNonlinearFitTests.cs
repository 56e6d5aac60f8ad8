using System.Text.Json;
using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;
using Runnel.Science.Statistics;

namespace Runnel.Science.Tests.Statistics;

// Source: NIST/ITL Statistical Reference Datasets, nonlinear regression, certified to 11 digits.
public sealed class PublishedNonlinearFitTests
{
    private static readonly Dictionary<string, JsonElement> Cases = PublishedSeries.Open("hydraulics-signals/nlsq.json");

    public static IEnumerable<TheoryDataRow<string, string>> Starts => Cases.Keys.SelectMany(n => Enumerable.Range(1, 2).Select(s => new TheoryDataRow<string, string>(n, $"start{s}")));

    [Theory, MemberData(nameof(Starts))]
    public void Certified_fits_are_reached_from_either_start(string name, string start)
    {
        var published = Cases[name];
        var fit = NonlinearLeastSquares.Fit(Model(name), published.Numbers("x"), published.Numbers("y"), published.Numbers(start));
        Assert.Equal(FitStop.Converged, fit.Stop);
        double[] certified = published.Numbers("certified"), sd = published.Numbers("certified_sd");
        for (int j = 0; j < certified.Length; j++)
        {
            published.Near(certified[j], fit.Parameters[j], 1e-6);
            published.Near(sd[j], fit.StandardError(j), 1e-5);
        }

        published.Near(published.Number("residual_sum_of_squares"), fit.SumOfSquares, 1e-8);
        published.Near(published.Number("residual_sd"), fit.ResidualSd, 1e-8);
    }

    [Theory, InlineData("strd-misra1a"), InlineData("strd-thurber")]
    public void The_reference_library_finds_the_same_curve(string name)
    {
        var published = Cases[name];
        double[] x = published.Numbers("x"), y = published.Numbers("y"), start = published.Numbers("start2");
        var model = Model(name);
        var objective = ObjectiveFunction.NonlinearModel(
            (p, at) => Vector<double>.Build.DenseOfEnumerable(at.Select(v => model(v, p.ToArray()))), Vector<double>.Build.Dense(x), Vector<double>.Build.Dense(y), accuracyOrder: 6);
        var theirs = new LevenbergMarquardtMinimizer(maximumIterations: 500).FindMinimum(objective, Vector<double>.Build.Dense(start));
        var ours = NonlinearLeastSquares.Fit(model, x, y, start);
        for (int j = 0; j < start.Length; j++) Assert.Equal(1, theirs.MinimizingPoint[j] / ours.Parameters[j], 1e-4);
    }

    [Fact]
    public void Parameters_that_made_the_values_are_found_again() => Gen.Select(Gen.Double[0.5, 50], Gen.Double[0.05, 1], Gen.Double[-5, 5]).Sample((scale, rate, floor) =>
    {
        double[] x = [.. Enumerable.Range(0, 25).Select(i => 0.5 * i)], y = [.. x.Select(v => floor + (scale * Math.Exp(-rate * v)))];
        var fit = NonlinearLeastSquares.Fit((v, p) => p[0] + (p[1] * Math.Exp(-p[2] * v)), x, y, [0, 10, 0.3]);
        Assert.Equal(FitStop.Converged, fit.Stop);
        Assert.Equal(floor, fit.Parameters[0], 1e-4);
        Assert.Equal(scale, fit.Parameters[1], 1e-4);
        Assert.Equal(rate, fit.Parameters[2], 1e-4);
    });

    [Fact]
    public void A_straight_model_gives_the_linear_fit() => Gen.Double[-10, 10].Array[6, 30].Sample(y =>
    {
        double[] x = [.. y.Select((_, i) => (double)i)];
        var line = LeastSquares.Line(x, y)!;
        var fit = NonlinearLeastSquares.Fit((v, p) => p[0] + (p[1] * v), x, y, [1, 1]);
        Assert.Equal(FitStop.Converged, fit.Stop);
        for (int j = 0; j < 2; j++)
        {
            Assert.Equal(line.Coefficients[j], fit.Parameters[j], 1e-6);
            Assert.Equal(line.StandardErrors[j], fit.StandardError(j), 1e-6);
        }
    });

    [Fact]
    public void A_weight_counts_as_so_many_values()
    {
        double[] x = [0, 1, 2, 3, 4], y = [5, 3.2, 1.7, 1.4, 0.8];
        var weighted = NonlinearLeastSquares.Fit((v, p) => p[0] * Math.Exp(-p[1] * v), x, y, [4, 0.5], [1, 3, 1, 1, 1]);
        var repeated = NonlinearLeastSquares.Fit((v, p) => p[0] * Math.Exp(-p[1] * v), [.. x, 1, 1], [.. y, 3.2, 3.2], [4, 0.5]);
        for (int j = 0; j < 2; j++) Assert.Equal(repeated.Parameters[j], weighted.Parameters[j], 1e-8);
    }

    [Fact]
    public void A_fit_that_fails_says_so()
    {
        double[] x = [0, 1, 2, 3], y = [1, 2, 3, 4];
        Assert.Equal(FitStop.UndefinedAtStart, NonlinearLeastSquares.Fit((v, p) => Math.Log(p[0]), x, y, [-1.0]).Stop);
        Assert.NotEqual(FitStop.Converged, NonlinearLeastSquares.Fit((v, p) => Math.Exp(-p[0]), x, [-1, -1, -1, -1], [1.0]).Stop);
        var twins = NonlinearLeastSquares.Fit((v, p) => (p[0] + p[1]) * v, x, y, [1, 1]);
        Assert.True(double.IsNaN(twins.StandardError(0)));
        Assert.Throws<ArgumentException>(() => NonlinearLeastSquares.Fit((v, p) => v, x, [1, 2], [1.0]));
        Assert.Throws<ArgumentOutOfRangeException>(() => NonlinearLeastSquares.Fit((v, p) => v, x, y, [double.NaN]));
    }

    private static CurveModel Model(string name) => name switch
    {
        "strd-misra1a" or "strd-boxbod" => static (x, b) => b[0] * (1 - Math.Exp(-b[1] * x)),
        "strd-mgh09" => static (x, b) => b[0] * ((x * x) + (x * b[1])) / ((x * x) + (x * b[2]) + b[3]),
        "strd-thurber" => static (x, b) => (b[0] + (x * (b[1] + (x * (b[2] + (x * b[3])))))) / (1 + (x * (b[4] + (x * (b[5] + (x * b[6])))))),
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "no such model"),
    };
}
