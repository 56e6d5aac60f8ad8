using Runnel.Science.Units;

namespace Runnel.Science.Tests.Units;

public class MeasureTests
{
    [Theory]
    [InlineData("65 L", 65, "L")]
    [InlineData("65L", 65, "L")]
    [InlineData("  11.5   L/min ", 11.5, "L/min")]
    [InlineData("-4.5 degC", -4.5, "degC")]
    [InlineData("1e3 mm", 1000, "mm")]
    [InlineData("1.2E-3 m3", 0.0012, "m3")]
    [InlineData(".5 h", 0.5, "h")]
    public void A_number_and_a_unit_read(string text, double value, string unit)
    {
        var measure = Measure.Read(text);
        Assert.Equal((MeasureFault.None, value, unit), (measure.Fault, measure.Value, measure.Unit!.Symbol));
    }

    [Theory]
    [InlineData("6,5 L", MeasureFault.Comma)]
    [InlineData("1,800 L", MeasureFault.Comma)]
    [InlineData("65", MeasureFault.NoUnit)]
    [InlineData("L", MeasureFault.NoNumber)]
    [InlineData("", MeasureFault.NoNumber)]
    [InlineData("about 65 L", MeasureFault.NoNumber)]
    [InlineData("65 buckets", MeasureFault.UnknownUnit)]
    [InlineData("1e999 L", MeasureFault.NoNumber)]
    [InlineData("1.2.3 L", MeasureFault.NoNumber)]
    [InlineData("--1 L", MeasureFault.NoNumber)]
    public void What_is_wrong_is_named(string text, MeasureFault fault) => Assert.Equal(fault, Measure.Read(text).Fault);
}
