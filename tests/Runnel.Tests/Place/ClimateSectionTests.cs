using Runnel.Place.PlaceFiles;

namespace Runnel.Tests.Place;

public class ClimateSectionTests
{
    private const string Months = "1 2 3 4 5 6 7 8 9 10 11 12";

    [Fact]
    public void Twelve_numbers_and_a_unit_are_read_month_by_month_in_any_unit_of_the_kind()
    {
        var climate = Read(
            """
            high = "50 50 50 50 50 50 50 50 50 50 50 68 degF"
            low  = "1, 2, 3, 4, 5, 6, 5, 4, 3, 2, 1, -1 degC"
            humidity = "50 50 50 50 50 50 50 50 50 50 50 75%"
            wind = "3.6 3.6 3.6 3.6 3.6 3.6 3.6 3.6 3.6 3.6 3.6 7.2 km/h"
            solar = "10 10 10 10 10 10 10 10 10 10 10 20 MJ/m2/d"
            """, out var problems)!;
        Assert.Empty(problems);
        Assert.Equal(20, climate.HighC![11], 1e-9);
        Assert.Equal(-1, climate.LowC![11]);
        Assert.Equal(0.75, climate.RelHumidity![11], 1e-12);
        Assert.Equal(2, climate.WindMPerS![11], 1e-9);
        Assert.Equal(20, climate.SolarMJPerM2Day![11], 1e-9);
    }

    [Theory]
    [InlineData("wind = \"1 2 3 m/s\"", "twelve numbers")]
    [InlineData("wind = \"" + Months + "\"", "twelve numbers")]
    [InlineData("wind = \"" + Months + " mm\"", "no unit of this")]
    [InlineData("wind = \"" + Months + " furlongs\"", "no unit of this")]
    [InlineData("wind = \"1 2 3 4 5 6 7 8 9 10 11 99 m/s\"", "twelve numbers")]
    [InlineData("high = \"" + Months + " degC\"", "low")]
    [InlineData("high = \"" + Months + " degC\"\nlow = \"" + Months + " degC\"", "lower than high")]
    [InlineData("rain = \"1 1 1 1 1 1 1 1 1 1 1 1 mm\"\nrain-days = \"2 2 2 2 2 2 2 2 2 2 2 2 d\"", "rain")]
    [InlineData("windy = \"" + Months + " m/s\"", "wind")]
    public void What_is_wrong_is_told_once_with_a_remedy(string lines, string says)
    {
        Read(lines, out var problems);
        string line = Assert.Single(problems).ToString();
        Assert.Contains(says, line, StringComparison.Ordinal);
    }

    private static Runnel.Place.Climate? Read(string lines, out IReadOnlyList<PlaceProblem> problems)
    {
        var read = PlaceFile.Read("[climate]\n" + lines + "\n", "place.toml", PlaceNeeds.Nothing);
        problems = read.Problems;
        return read.Place?.Climate;
    }
}
