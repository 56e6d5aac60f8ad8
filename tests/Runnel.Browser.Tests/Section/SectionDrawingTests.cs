using System.Xml.Linq;
using CsCheck;
using NodaTime;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Web.Section;

namespace Runnel.Browser.Tests.Section;

public sealed class SectionDrawingTests
{
    private static readonly SectionSize[] Sizes = [SectionSize.Wide, SectionSize.Phone, SectionSize.Wall];

    private static readonly Gen<(int Seed, SectionSize Size)> Drawings =
        Gen.Select(Gen.Int[0, 1_000_000], Gen.Int[0, 2].Select(i => Sizes[i]));

    [Fact]
    public void Words_never_overlap_and_stay_inside_the_frame() => Drawings.Sample(
        d =>
        {
            SectionPicture picture = Draw(d.Seed, d.Size);
            string[] overlaps = [.. picture.Words.SelectMany((a, i) => picture.Words.Skip(i + 1).Where(b => a.Meets(b)).Select(b => $"{a.Of} over {b.Of}"))];
            Assert.True(overlaps.Length == 0, $"seed {d.Seed}, {d.Size.Name}: {string.Join("; ", overlaps)}");
            Assert.All(picture.Words, w => Assert.True(
                w.LeftPx >= -0.5 && w.RightPx <= picture.WidthPx + 0.5 && w.TopPx >= -0.5 && w.BottomPx <= picture.HeightPx + 0.5, $"seed {d.Seed}, {d.Size.Name}: {w} of {picture.WidthPx} x {picture.HeightPx}"));
        },
        iter: 600);

    [Fact]
    public void Vessels_stand_apart_inside_the_frame_and_each_is_drawn_once() => Drawings.Sample(
        d =>
        {
            var (place, _) = SeededPlaces.Make(d.Seed);
            SectionPicture picture = Draw(d.Seed, d.Size);
            Assert.Equal(place.Vessels.Select(v => v.Id).Order(), picture.Vessels.Select(v => v.Of).Order());
            for (int i = 0; i < picture.Vessels.Count; i++)
            {
                PaperBox a = picture.Vessels[i];
                Assert.True(a.LeftPx >= 0 && a.RightPx <= picture.WidthPx && a.TopPx >= 0 && a.BottomPx <= picture.HeightPx && a.RightPx - a.LeftPx >= 8, $"seed {d.Seed}: {a}");
                Assert.All(picture.Vessels.Skip(i + 1), b => Assert.False(a.Meets(b), $"seed {d.Seed}: {a} over {b}"));
            }
        },
        iter: 400);

    [Fact]
    public void What_stands_higher_is_drawn_higher_within_a_strip() => Gen.Int[0, 1_000_000].Sample(
        seed =>
        {
            var (place, standing) = SeededPlaces.Make(seed);
            SectionPicture picture = SectionDrawing.Draw(place, standing, SectionSize.Wall with { WidthPx = 4000 });
            if (!picture.IsToHeight) return;
            var floors = place.Hydraulics!.Vessels.ToDictionary(v => v.Id, v => v.FloorM ?? 0);
            PaperBox[] byHeight = [.. picture.Vessels.OrderBy(v => floors[v.Of])];
            for (int i = 1; i < byHeight.Length; i++) Assert.True(byHeight[i].BottomPx <= byHeight[i - 1].BottomPx + 0.01, $"seed {seed}");
        },
        iter: 200);

    [Fact]
    public void The_drawing_is_well_formed_and_the_same_for_the_same_moment() => Gen.Int[0, 1_000_000].Sample(
        seed =>
        {
            string svg = Draw(seed, SectionSize.Phone).Svg;
            Assert.Equal(svg, Draw(seed, SectionSize.Phone).Svg);
            XDocument.Parse(svg);
            Assert.DoesNotContain("style=", svg, StringComparison.Ordinal);
            Assert.DoesNotContain("NaN", svg, StringComparison.Ordinal);
        },
        iter: 150);

    [Fact]
    public void Nothing_moves_where_no_water_moves()
    {
        var (place, standing) = SeededPlaces.Make(7);
        var still = standing with { ReturnsFlow = false, Running = new Dictionary<string, bool>() };
        Assert.DoesNotContain("class=\"flow", SectionDrawing.Draw(place, still, SectionSize.Wide).Svg, StringComparison.Ordinal);
        Assert.Contains("class=\"flow", SectionDrawing.Draw(place, still with { ReturnsFlow = true }, SectionSize.Wide).Svg, StringComparison.Ordinal);
    }

    [Fact]
    public void A_level_that_nobody_knows_is_hatched_and_said()
    {
        string svg = SectionDrawing.Draw(Example("low-wall-yard"), SectionStanding.NothingKnown, SectionSize.Wide).Svg;
        Assert.Contains("level not known", svg, StringComparison.Ordinal);
        Assert.Contains("class=\"dim\"", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("class=\"body\"", svg, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("low-wall-yard", true)]
    [InlineData("glasshouse", false)]
    [InlineData("patio-barrel", false)]
    [InlineData("outdoor-terraces", false)]
    public void Heights_are_claimed_only_where_the_file_tells_them(string name, bool toHeight)
    {
        SectionPicture picture = SectionDrawing.Draw(Example(name), SectionStanding.NothingKnown, SectionSize.Phone);
        Assert.Equal(toHeight, picture.IsToHeight);
        Assert.Equal(toHeight, picture.Words.Any(w => w.Of == "axis"));
    }

    private static SectionPicture Draw(int seed, SectionSize size)
    {
        var (place, standing) = SeededPlaces.Make(seed);
        return SectionDrawing.Draw(place, standing, size);
    }

    internal static PlaceDescription Example(string name) =>
        PlaceFile.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", name + ".toml")), name).Place!;
}
