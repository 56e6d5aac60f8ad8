using Runnel.Place.PlaceFiles;

namespace Runnel.Tests.Place;

public class FishSectionTests
{
    private const string Tank = """
        [place]
        name = "Invented"
        [[vessel]]
        id = "tank"
        kind = "fish-tank"
        footprint = "1.2 m2"
        water-depth = "700 mm"
        [[equipment]]
        id = "air"
        kind = "main-air"
        serves = ["tank"]
        oxygen-transfer = "30 g/h"

        """;

    [Fact]
    public void Fish_their_tank_and_their_air_are_read()
    {
        var fish = Read(Tank + Group("trout", "tank", "24")).Place!.Fish!;
        Assert.Equal(24 * 0.18, Assert.Single(fish.Groups).BiomassKg, 9);
        Assert.Equal((840, 1.2), (Math.Round(fish.Tanks[0].VolumeL, 9), fish.Tanks[0].SurfaceM2));
        Assert.Equal(30, Assert.Single(fish.Air).StandardGPerH);
    }

    [Theory]
    [InlineData("trout", "tenk", "24", "Write \"tank\"")]
    [InlineData("trout", "tank", "24.5", "Count them")]
    [InlineData("trout", "tank", "\"many\"", "")]
    public void What_is_wrong_with_a_group_is_told_by_line(string species, string tank, string count, string remedy)
    {
        var problem = Assert.Single(Read(Tank + Group(species, tank, count)).Problems);
        Assert.InRange(problem.Line, 13, 19);
        Assert.Contains(remedy, problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_without_fish_is_told_what_to_add() =>
        Assert.Contains("[[fish-group]]", Assert.Single(Read(Tank).Problems).Remedy, StringComparison.Ordinal);

    [Fact]
    public void What_nothing_needs_never_fails()
    {
        string file = Tank + Group("trout", "nowhere", "24.5");
        Assert.DoesNotContain(PlaceFile.Read(file, "place.toml", PlaceNeeds.Import).Problems, p => p.What.Contains("fish", StringComparison.Ordinal));
    }

    private static string Group(string species, string tank, string count) =>
        $"[[fish-group]]\nid = \"g\"\nspecies = \"{species}\"\nin = \"{tank}\"\ncount = {count}\nweight = \"180 g\"\n";

    private static PlaceFileResult Read(string text) => PlaceFile.Read(text, "place.toml", PlaceNeeds.TimeLeft);
}
