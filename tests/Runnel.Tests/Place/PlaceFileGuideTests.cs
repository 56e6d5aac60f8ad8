using System.Text.RegularExpressions;
using Runnel.Place;
using Runnel.Place.PlaceFiles;

namespace Runnel.Tests.Place;

/// <summary>The guide to the place file says what the reader does.</summary>
public partial class PlaceFileGuideTests
{
    private static readonly string Guide = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "docs", "place-file.md"));

    private static readonly string[] Examples = [.. TomlBlock().Matches(Guide).Select(m => m.Groups[1].Value)];

    [Fact]
    public void The_first_example_is_the_least_that_diagnose_needs()
    {
        Assert.Empty(PlaceFile.Read(Examples[0], "place-file.md").Problems);
        Assert.Equal(PlaceFile.Read(Sample.Least, "p").Place!.Channels, PlaceFile.Read(Examples[0], "p").Place!.Channels);
    }

    [Fact]
    public void The_other_examples_read_when_added_to_the_first()
    {
        Assert.True(Examples.Length >= 2);
        foreach (string example in Examples.Skip(1)) Assert.Empty(PlaceFile.Read(Examples[0] + example, "place-file.md").Problems);
    }

    [Fact]
    public void A_level_sensor_that_looks_down_reads_as_the_guide_says()
    {
        var level = PlaceFile.Read(Examples[0] + Examples.Single(e => e.Contains("sump-level", StringComparison.Ordinal)), "p").Place!.Channels.Single(c => c.Measures == Quantity.Level);
        Assert.Equal(320, (60 * level.Scale) + level.Offset, 9); // 60 cm down from 92 cm leaves 32 cm
    }

    [Fact]
    public void Every_name_that_a_place_file_may_hold_is_in_the_guide()
    {
        string[] names =
        [
            .. KeysOf("place"), .. KeysOf("climate"), .. KeysOf("loop"), .. KeysOf("vessel"), .. KeysOf("equipment"), .. KeysOf("channel"),
            .. PlaceFileNames.Sections, .. Quantities.Names,
        ];
        Assert.True(names.Length > 100);
        string[] missing = [.. names.Where(n => !Regex.IsMatch(Guide, $@"[`\[, ]{Regex.Escape(n)}[`\],\s]"))];
        Assert.Empty(missing);
    }

    private static IEnumerable<string> KeysOf(string section) => PlaceFileNames.KeysOf(section);

    [GeneratedRegex(@"^```toml\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex TomlBlock();
}
