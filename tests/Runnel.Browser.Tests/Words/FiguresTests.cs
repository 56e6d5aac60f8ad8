using NodaTime;
using Runnel.Web.Words;

namespace Runnel.Browser.Tests.Words;

public sealed class FiguresTests
{
    [Theory]
    [InlineData(1234, 0, "1234")]
    [InlineData(12345, 0, "12\u202F345")]
    [InlineData(-3.14, 1, "\u22123.1")]
    [InlineData(-0.04, 1, "0.0")]
    public void Numbers_are_printed_as_people_read_them(double value, int decimals, string expected) =>
        Assert.Equal(expected, Figures.Number(value, decimals));

    [Theory]
    [InlineData(13943, "13\u202F900")]
    [InlineData(27.4, "27")]
    [InlineData(9.72, "9.7")]
    [InlineData(0.394, "0.39")]
    public void Estimates_show_three_digits_or_so(double value, string expected) => Assert.Equal(expected, Figures.Rounded(value, value));

    [Theory]
    [InlineData(119, "119 min")]
    [InlineData(121, "2 h")]
    [InlineData(60 * 71.9, "71 h")]
    [InlineData(60 * 24 * 4.9, "4 days")]
    public void Time_left_is_rounded_down(double minutes, string expected) =>
        Assert.Equal(expected, Times.SpanRoundedDown(Duration.FromMinutes(minutes)));

    [Fact]
    public void A_figure_never_parts_from_its_unit_at_the_end_of_a_line() =>
        Assert.Equal("Since 26\u00A0February runs are 57\u00A0% of 9.3\u00A0min, 12\u00A0L/h less.", Phrase.Kept("Since 26 February runs are 57 % of 9.3 min, 12 L/h less."));
}
