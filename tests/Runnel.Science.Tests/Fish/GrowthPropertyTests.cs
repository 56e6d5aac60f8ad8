using CsCheck;
using Runnel.Science.Fish;
using Runnel.Science.Plants;
using Runnel.Science.Soil;

namespace Runnel.Science.Tests.Fish;

public sealed class GrowthPropertyTests
{
    [Fact]
    public void Length_and_weight_undo_each_other() => Gen.Select(Gen.Double[1, 100], Gen.Double[0.005, 0.05], Gen.Double[2.5, 3.5]).Sample((length, a, b) =>
    {
        double weight = Growth.WeightOfLength(length, a, b);
        Assert.Equal(length, Growth.LengthOfWeight(weight, a, b), 1e-9 * length);
        Assert.Equal(1, Growth.RelativeCondition(weight, length, a, b), 1e-12);
        Assert.Equal(0.8, Growth.RelativeCondition(0.8 * weight, length, a, b), 1e-12);
    });

    [Fact]
    public void Growth_rates_undo_each_other() => Gen.Select(Gen.Double[1, 500], Gen.Double[0.1, 5], Gen.Double[1, 100]).Sample((start, rate, days) =>
    {
        double end = Growth.WeightAtSpecificRateG(start, rate, days);
        Assert.Equal(rate, Growth.SpecificPercentPerDay(start, end, days), 1e-9);
        Assert.True(end > start);
        double coefficient = Growth.ThermalCoefficient(start, end, 20 * days);
        if (coefficient is > 1e-6 and < 10) Assert.Equal(days, Growth.DaysTo(start, end, coefficient, 20), 1e-6);
    });

    [Fact]
    public void Warm_days_count_and_cold_ones_do_not_count_against()
    {
        Assert.Equal(33, Growth.DegreeDays([10, 23]));
        Assert.Equal(13, Growth.DegreeDays([8, 23], 10));
        Assert.Throws<ArgumentException>(() => Growth.DegreeDays([]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Growth.DegreeDays([double.NaN]));
    }

    [Fact, Trait("source", "Cochran (1977), Sampling Techniques, chapter 4: n0 = (t s / d)^2, n = n0 / (1 + n0 / N)")]
    public void A_sample_is_as_large_as_the_interval_asks()
    {
        Assert.Equal(97, Growth.SampleSize(50, 10, 1_000_000));
        Assert.Equal(49, Growth.SampleSize(50, 10, 100));
        Assert.Equal(2, Growth.SampleSize(0, 10, 100));
        Assert.Equal(20, Growth.SampleSize(500, 1, 20));
    }

    [Fact]
    public void Nitrogen_and_plants_balance()
    {
        Assert.Equal(0, PlantBalance.NitrateRiseMgNPerLDay(3, 3, 1000));
        Assert.Equal(2, PlantBalance.NitrateRiseMgNPerLDay(5, 3, 1000), 1e-12);
        Assert.Equal(14, PlantBalance.SeedsPerSowing(10, 0.8, 0.9));
        Assert.Equal(10, PlantBalance.SeedsPerSowing(10, 1));
        Assert.Throws<ArgumentOutOfRangeException>("germination", () => PlantBalance.SeedsPerSowing(10, 0));
    }

    [Fact]
    public void Leaching_and_soaking_only_add() => Gen.Select(Gen.Double[1, 30], Gen.Double[0, 0.8]).Sample((depth, share) =>
    {
        double gross = Irrigation.WithLeachingMm(depth, share);
        Assert.Equal(share * gross, gross - depth, 1e-9);
        var split = Irrigation.Split(depth, 40, 10, 4);
        Assert.Equal(split.TotalMin + (30 * (split.Cycles - 1)), Irrigation.WithSoakMin(split, 30), 1e-9);
    });
}
