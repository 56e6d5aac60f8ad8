using CsCheck;
using Runnel.Web.Charts;

namespace Runnel.Browser.Tests.Charts;

public sealed class RoundStepsTests
{
    [Fact]
    public void Three_to_six_round_values_cover_any_range() =>
        Gen.Select(Gen.Double[-1e6, 1e6], Gen.Double[1e-3, 1e6]).Sample((low, width) =>
        {
            RoundSteps steps = RoundSteps.Covering(low, low + width);
            int count = steps.Values().Count();
            double mantissa = steps.Step / Math.Pow(10, Math.Floor(Math.Log10(steps.Step) + 1e-9));
            return count is >= 3 and <= 6 && steps.Low <= low + (width * 1e-6) && steps.High >= low + width - (width * 1e-6)
                && new[] { 1.0, 2, 5 }.Any(m => Math.Abs(mantissa - m) < 1e-6);
        }, iter: 2000);

    [Theory]
    [InlineData(0, 0)]
    [InlineData(double.NaN, 3)]
    [InlineData(double.PositiveInfinity, double.NegativeInfinity)]
    public void Nothing_to_show_still_gives_an_axis(double low, double high) =>
        Assert.InRange(RoundSteps.Covering(low, high).Values().Count(), 3, 6);

    [Theory]
    [InlineData(0, 97, "0,20,40,60,80,100", 0)]
    [InlineData(7.1, 11.9, "7,8,9,10,11,12", 0)]
    [InlineData(0.62, 0.71, "0.62,0.64,0.66,0.68,0.7,0.72", 2)]
    public void Values_are_those_a_person_would_write(double low, double high, string expected, int decimals)
    {
        RoundSteps steps = RoundSteps.Covering(low, high);
        Assert.Equal(expected, string.Join(",", steps.Values().Select(v => Math.Round(v, 6).ToString("0.######", System.Globalization.CultureInfo.InvariantCulture))));
        Assert.Equal(decimals, steps.Decimals);
    }
}
