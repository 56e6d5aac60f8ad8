using Runnel.Science.Statistics;
using Runnel.Steward.Store;

namespace Runnel.Tests.Steward.Store;

/// <summary>The gauge learnt from all readings at once.</summary>
public class GaugeFilterTests
{
    private const double BandL = 180;

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    public void Pulses_that_are_small_against_the_scatter_still_tell_within_the_stated_spread(double lagH)
    {
        int within = 0;
        double widest = 0;
        for (int seed = 0; seed < 40; seed++)
        {
            var random = new Random(seed);
            double litresPerUnit = BandL * (2 + (10 * random.NextDouble()));
            var (found, spread) = Learn(random, litresPerUnit, lagH, hour => hour % 29 == 0 ? 60 : hour % 37 == 11 ? -40 : 0);
            if (Math.Abs(Math.Log(found / litresPerUnit)) < 1.645 * spread) within++;
            widest = Math.Max(widest, spread);
        }

        Assert.InRange(within, 34, 40);
        Assert.InRange(widest, 0, 0.65);
    }

    [Fact]
    public void What_a_timer_brings_and_the_weather_takes_alike_tells_little()
    {
        var (found, spread) = Learn(new Random(3), 5 * BandL, 0, hour => hour % 24 == 7 ? 12 : 0);
        Assert.InRange(spread, 0.3, 0.9);
        Assert.InRange(found, 1.5 * BandL, 15 * BandL);
    }

    [Fact]
    public void Nothing_is_said_of_a_young_log()
    {
        var filter = new GaugeFilter(BandL);
        for (int i = 0; i < 40; i++) filter.Take(1, i % 8 == 0 ? 40 : 0, 1, 1);
        Assert.Null(filter.Solve());
    }

    // Without wander and lag the filter is a regression of the reading on what came, and must agree with one done at once.
    [Fact]
    public void A_store_that_never_wanders_is_a_plain_regression()
    {
        var random = new Random(5);
        var hypothesis = new StoreHypothesis(0, 0);
        var design = new List<double>();
        var readings = new List<double>();
        double known = 0, weather = 0, hours = 0;
        for (int i = 0; i < 400; i++)
        {
            double k = i % 9 == 0 ? 40 : 0, w = 1 + Math.Sin(i / 4.0), h = 1;
            known += i == 0 ? 0 : k;
            weather += i == 0 ? 0 : w;
            hours += i == 0 ? 0 : h;
            double reading = 1 + (0.002 * known) - (0.0016 * weather) - (0.0004 * hours) + (0.02 * Normal(random));
            hypothesis.Take(reading, k, w, h);
            design.AddRange([1, known - weather, -weather, -hours]);
            readings.Add(reading);
        }

        var fit = LeastSquares.Fit(design.ToArray(), 4, readings.ToArray())!;
        var (perLitre, error) = hypothesis.Solve(1e6, 1, 1)!.Value;

        // Readings that lie far off count for less here.
        Assert.Equal(fit.Coefficients[1], perLitre, 0.5 * fit.StandardErrors[1]);
        Assert.Equal(fit.StandardErrors[1], error, 0.1 * fit.StandardErrors[1]);
    }

    private static (double LitresPerUnit, double RelativeSpread) Learn(Random random, double litresPerUnit, double lagH, Func<int, double> knownL)
    {
        var filter = new GaugeFilter(BandL);
        double g = 1, shown = 1, factor = 0.7 + (0.6 * random.NextDouble());
        for (int hour = 0; hour < 24 * 30; hour++)
        {
            double weather = Math.Max(0, Math.Sin((hour - 6) * Math.PI / 12)) * 1.6, known = knownL(hour);
            g += ((known - (factor * weather)) / litresPerUnit) + (0.0015 * Normal(random));
            shown += lagH == 0 ? g - shown : (g - shown) * (1 - Math.Exp(-1 / lagH));
            filter.Take(shown + (0.015 * Normal(random)), known, weather, 1);
        }

        return filter.Solve()!.Value;
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
