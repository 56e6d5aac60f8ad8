using CsCheck;
using Runnel.Science.Statistics;

namespace Runnel.Science.Tests.Statistics;

public sealed class ScalarKalmanTests
{
    [Fact]
    public void A_level_without_rule_is_the_local_level_filter() => Gen.Double[-50, 50].Array[3, 20].Sample(readings =>
    {
        var forecast = new LevelForecast(1, 100);
        var state = new KalmanState(1, 100);
        foreach (double reading in readings)
        {
            var level = LocalLevel.Step(forecast, reading, 4, 0.3);
            var update = ScalarKalman.Update(state, reading, 4);
            Assert.Equal(level.Surprise, update.Surprise, 1e-9);
            Assert.Equal(level.Gain, update.Gain, 1e-9);
            Assert.Equal(level.Variance, update.State.Variance, 1e-9);
            forecast = level.Next;
            state = ScalarKalman.Predict(update.State, 1, 0, 0.3);
        }
    });

    // The variance settles where the Riccati equation of the scalar filter stands still.
    [Fact]
    public void The_variance_settles_at_the_root_of_the_riccati_equation() =>
        Gen.Select(Gen.Double[0.5, 1.1], Gen.Double[0.2, 3], Gen.Double[0.01, 5], Gen.Double[0.1, 5]).Sample((a, h, q, r) =>
        {
            var state = new KalmanState(0, 1);
            for (int i = 0; i < 3000; i++) state = ScalarKalman.Predict(ScalarKalman.Update(state, 0, r, h).State, a, 0, q);
            double p = state.Variance;
            Assert.Equal(p, (a * a * p * r / ((h * h * p) + r)) + q, 1e-9 * Math.Max(1, p));
        });

    [Fact]
    public void A_sure_reading_is_believed_and_a_wild_one_is_not()
    {
        var state = new KalmanState(10, 1);
        Assert.Equal(20, ScalarKalman.Update(state, 20, 1e-12).State.Mean, 1e-6);
        Assert.Equal(10, ScalarKalman.Update(state, 20, 1e12).State.Mean, 1e-6);
        Assert.Equal(5, ScalarKalman.Predict(state, 0.5, 0, 0).Mean);
        Assert.Throws<ArgumentOutOfRangeException>("reading", () => ScalarKalman.Update(state, double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>("processVariance", () => ScalarKalman.Predict(state, 1, 0, -1));
    }
}
