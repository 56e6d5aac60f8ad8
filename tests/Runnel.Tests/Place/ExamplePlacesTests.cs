using Runnel.Place;
using Runnel.Place.PlaceFiles;

namespace Runnel.Tests.Place;

public class ExamplePlacesTests
{
    public static TheoryData<string> Files =>
        [.. Directory.GetFiles(Folder, "*.toml").Select(f => Path.GetFileName(f))];

    private static string Folder => Path.Combine(AppContext.BaseDirectory, "places");

    [Theory, MemberData(nameof(Files))]
    public void Every_example_reads_without_problems(string file)
    {
        var result = Read(file);

        Assert.Empty(result.Problems);
        Assert.NotNull(result.Place);
    }

    [Fact]
    public void There_are_five_examples() => Assert.Equal(5, Files.Count);

    [Fact]
    public void The_southern_example_gets_its_band_from_footprint_and_switches_and_its_wind_in_metres_a_second()
    {
        var place = Read("outdoor-terraces.toml").Place!;

        Assert.Equal(-33.6, place.LatitudeDeg);
        Assert.Equal(82.5, place.FindVessel("collector")!.BandL!.Value, 9);
        Assert.Equal(1 / 3.6, place.Channels[place.ChannelIndex("wind")].Scale, 12);
        Assert.Equal(3, place.Channels[place.ChannelIndex("wind")].HeightM);
        Assert.Equal(0.2, place.Channels[place.ChannelIndex("rain")].Scale);
        Assert.Equal(8.4, place.FindEquipment("make-up")!.RateLPerMin!.Value, 9);
    }

    [Fact]
    public void The_northern_example_is_under_cover_and_reads_power_level_and_float_valve_in_standard_units()
    {
        var place = Read("glasshouse.toml").Place!;
        var level = place.Channels[place.ChannelIndex("pit-level")];

        Assert.Equal(0, place.Loop.RainCatchM2);
        Assert.Equal(6, place.FindEquipment("tap-water")!.RateLPerMin!.Value, 9);
        Assert.Equal(0.12, place.FindEquipment("last-resort")!.ShutsAtM!.Value, 12);
        Assert.Equal(40, place.Channels[place.ChannelIndex("pit-pump-power")].RunningAbove);
        Assert.Equal(OutletKind.Siphon, place.FindVessel("gravel-bed")!.Outlet);
        Assert.Equal((10, 850), (level.Scale, level.Greatest!.Value));
    }

    [Fact]
    public void The_small_example_has_a_level_instead_of_a_band()
    {
        var result = Read("patio-barrel.toml");

        Assert.Null(result.Place!.FindVessel("barrel")!.BandL);
        Assert.Contains(result.Remarks, r => r.Contains("no band", StringComparison.Ordinal));
        Assert.Equal(-0.5, result.Place.LongitudeDeg);
    }

    private static PlaceFileResult Read(string file) => PlaceFile.Read(File.ReadAllText(Path.Combine(Folder, file)), file);
}
