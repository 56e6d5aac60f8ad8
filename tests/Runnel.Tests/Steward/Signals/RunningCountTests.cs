using CsCheck;
using Runnel.Steward.Signals;

namespace Runnel.Tests.Steward.Signals;

public sealed class RunningCountTests
{
    [Fact]
    public void A_first_reading_gives_nothing() => Assert.Equal([0, 2, 0, 3], Came(1, 5120, 5122, 5122, 5125));

    [Fact]
    public void A_count_that_begins_again_gives_what_it_shows() => Assert.Equal([0, 10, 4, 6], Came(1, 800, 810, 4, 10));

    [Theory]
    [InlineData(1, 9990, 9998, 6, 8)] // four wheels of figures
    [InlineData(0.5, 4990, 4998, 3, 5)] // the same, half a litre a count
    [InlineData(1, 65_520, 65_530, 4, 10)] // sixteen bits
    [InlineData(0.01, 42_949_660, 42_949_672, 6, 6.96)] // thirty-two bits, counts of a hundredth
    public void A_dial_that_rolls_over_goes_on(double scale, double before, double last, double after, double came) =>
        Assert.Equal(came, Came(scale, before, last, after)[^1], 0.01);

    [Fact]
    public void A_new_meter_with_a_history_gives_nothing_at_first() => Assert.Equal([0, 10, 0, 5], Came(1, 100, 110, 62, 67));

    [Fact]
    public void Running_back_a_little_and_forth_again_counts_once() => Assert.Equal([0, 10, 0, 0, 2], Came(1, 100, 110, 109, 110, 112));

    [Fact]
    public void What_a_meter_counts_is_found_again_over_any_resets()
    {
        // Amounts of 1 to 20 litres, the count set to nought now and then just before an amount: nothing is lost and nothing counted twice.
        // Not where a dial of 1000 is nearly full: there a reset and a rollover cannot be told apart.
        Gen.Select(Gen.Int[1, 20], Gen.Int[0, 15]).Array[5, 80].Sample(shots =>
        {
            var meter = new RunningCount(1);
            meter.Take(300);
            meter.Take(320);
            double count = 320, poured = 0, came = 0;
            foreach (var (litres, reset) in shots)
            {
                if (reset == 0 && count is > 45 and (< 975 or > 1025)) count = 0;
                count += litres;
                poured += litres;
                came += meter.Take(count);
            }

            return Math.Abs(came - poured) < 1e-9;
        }, iter: 500);
    }

    private static double[] Came(double scale, params double[] counts)
    {
        var meter = new RunningCount(scale);
        return [.. counts.Select(meter.Take)];
    }
}
