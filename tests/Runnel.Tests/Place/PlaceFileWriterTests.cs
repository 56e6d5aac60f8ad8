using CsCheck;
using Runnel.Place;
using Runnel.Place.PlaceFiles;

namespace Runnel.Tests.Place;

public class PlaceFileWriterTests
{
    private static readonly PlaceAnswers Answers = new()
    {
        Name = "Heron \"Ford\" 🐟",
        LatitudeDeg = -41.25,
        LongitudeDeg = 173.1,
        AltitudeM = 12.5,
        TimeZone = "Pacific/Auckland",
        BandL = 72,
        TopUpRateLPerMin = 9.75,
        BleedRateLPerMin = 14,
        OpenWaterM2 = 3.1,
        CanopyM2 = 7,
        RainCatchM2 = 0,
        Channels =
        [
            new("pump-1", Quantity.Running, "sump-pump", "Pump 1"),
            new("make-up", Quantity.Running, "top-up"),
            new("drain", Quantity.Running, "bleed"),
            new("watts", Quantity.Power, "sump-pump"),
            new("tank-2", Quantity.WaterTemperature, "fish-tank-2", "Tank 2 °F", "degF"),
            new("outside", Quantity.AirTemperature),
        ],
    };

    [Fact]
    public void What_was_answered_reads_back_without_problems()
    {
        var result = PlaceFile.Read(PlaceFileWriter.Write(Answers), "new.toml");

        Assert.Empty(result.Problems);
        Assert.Empty(result.Remarks);
        var place = result.Place!;
        Assert.Equal((Answers.Name, -41.25, 173.1, 12.5), (place.Name, place.LatitudeDeg, place.LongitudeDeg, place.AltitudeM));
        Assert.Equal("Pacific/Auckland", place.Zone.Id);
        Assert.Equal(new LoopTotals(3.1, 7, 0), place.Loop);
        Assert.Equal(72, place.FindVessel("sump")!.BandL);
        Assert.Equal(VesselKind.FishTank, place.FindVessel("fish-tank-2")!.Kind);
        Assert.Equal("sump", place.FindEquipment("sump-pump")!.From);
        Assert.Equal((9.75, 14), (place.FindEquipment("top-up")!.RateLPerMin, place.FindEquipment("bleed")!.RateLPerMin));
        Assert.Equal(
            Answers.Channels.Select(c => (c.Id, c.Measures, c.Of, c.Column)), place.Channels.Select(c => (c.Id, c.Measures, c.Of, c.Column)));
        Assert.Equal(5.0 / 9, place.Channels[4].Scale, 12);
    }

    [Fact]
    public void What_is_not_known_yet_is_left_as_a_comment_that_shows_how_to_add_it()
    {
        string text = PlaceFileWriter.Write(Answers with
        {
            BandL = null,
            TopUpRateLPerMin = null,
            OpenWaterM2 = null,
            CanopyM2 = null,
            RainCatchM2 = null,
        });

        Assert.Empty(PlaceFile.Read(text, "new.toml").Problems);
        foreach (string key in (string[])["band", "rate", "open-water", "canopy", "rain-catch"])
        {
            Assert.Contains($"# {key} = \"", text, StringComparison.Ordinal);
        }

        // Taking the # away gives lines that read well.
        string opened = string.Join('\n', text.Split('\n').Select(l => l.Contains("# not told yet", StringComparison.Ordinal) ? l[2..] : l));
        var place = PlaceFile.Read(opened, "new.toml").Place!;
        Assert.Equal((65, 2.5), (place.Vessels[0].BandL, place.Loop.OpenWaterM2));
    }

    [Fact]
    public void Any_name_and_any_column_reads_back() =>
        Gen.Select(Gen.String, Gen.String, Gen.Double[-90, 90], Gen.Double[-180, 180]).Sample((name, column, latitude, longitude) =>
        {
            var answers = Answers with
            {
                Name = "x" + name,
                LatitudeDeg = latitude,
                LongitudeDeg = longitude,
                Channels = [new(PlaceFileWriter.IdFor(column, []), Quantity.Running, "sump-pump", "c" + column)],
            };
            var result = PlaceFile.Read(PlaceFileWriter.Write(answers), "new.toml");
            Assert.Empty(result.Problems);
            Assert.Equal(latitude, result.Place!.LatitudeDeg, 1e-6);
            Assert.Equal(longitude, result.Place.LongitudeDeg, 1e-6);
        }, iter: 300);

    [Fact]
    public void Identifiers_come_from_column_names_and_are_never_used_twice()
    {
        Assert.Equal("pump-power-w", PlaceFileWriter.IdFor("Pump Power (W)", []));
        Assert.Equal("pump-2", PlaceFileWriter.IdFor("pump", ["pump"]));
        Assert.Equal("channel", PlaceFileWriter.IdFor("°", []));
    }

    [Fact]
    public void A_channel_of_something_unheard_of_is_the_callers_mistake() =>
        Assert.Throws<ArgumentException>(() => PlaceFileWriter.Write(Answers with { Channels = [new("a", Quantity.Running, "windmill")] }));
}
