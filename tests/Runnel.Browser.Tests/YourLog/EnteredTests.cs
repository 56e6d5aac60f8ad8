using Runnel.Web.YourLog;

namespace Runnel.Browser.Tests.YourLog;

public sealed class EnteredTests
{
    [Theory]
    [InlineData("65", 65.0)]
    [InlineData(" 65 L", 65.0)]
    [InlineData("65,5l", 65.5)]
    [InlineData("1e3", null)]
    [InlineData("1,000,000", null)]
    [InlineData("sixty", null)]
    [InlineData("", null)]
    public void Litres_are_read_as_typed(string text, double? expected) => Assert.Equal(expected, Entered.Number(text, "L"));

    [Theory]
    [InlineData("34.2 S", -34.2)]
    [InlineData("34,2°s", -34.2)]
    [InlineData("-34.2", -34.2)]
    [InlineData("\u221234.2", -34.2)]
    [InlineData("34.2 N", 34.2)]
    [InlineData("-34.2 S", null)]
    [InlineData("95", null)]
    [InlineData("34 E", null)]
    public void Latitudes_are_read_with_or_without_the_half_of_the_globe(string text, double? expected) =>
        Assert.Equal(expected, Entered.Angle(text, 'N', 'S', 90));

    [Fact]
    public void Every_choice_of_a_column_is_found_again_by_what_the_form_sends()
    {
        Assert.All(MeasureChoice.All, c => Assert.Same(c, MeasureChoice.Find(c.Value)));
        Assert.Null(MeasureChoice.Find(""));
        Assert.Null(MeasureChoice.Find("running:something"));
    }
}
