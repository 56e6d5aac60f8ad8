using NodaTime;
using Runnel.Exchange.Logs;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Twin.Invented;

namespace Runnel.Tests.Twin;

/// <summary>What an invented log is in memory and what its files say must be one and the same.</summary>
public sealed class InventedTextTests
{
    [Theory]
    [InlineData(LoopKind.SwitchLog)]
    [InlineData(LoopKind.SiphonBed)]
    [InlineData(LoopKind.PowerChannel)]
    [InlineData(LoopKind.AlwaysOn)]
    public void Place_text_reads_back_as_the_place(LoopKind kind)
    {
        for (int seed = 1; seed <= 6; seed++)
        {
            var log = InventedLogs.Make(kind, Stories.Find("healthy")!, seed, 2);
            var read = PlaceFile.Read(log.PlaceToml, "place.toml");
            Assert.Empty(read.Problems);
            var (told, found) = (log.Place, read.Place!);
            Assert.Equal((told.Name, told.LatitudeDeg, told.LongitudeDeg, told.AltitudeM, told.Zone), (found.Name, found.LatitudeDeg, found.LongitudeDeg, found.AltitudeM, found.Zone));
            Assert.Equal(told.Loop, found.Loop);
            Assert.Equal(told.Channels, found.Channels);
            Assert.Equal(told.Vessels.Select(v => v with { BandL = null, SwitchLowM = null, SwitchHighM = null }), found.Vessels.Select(v => v with { BandL = null, SwitchLowM = null, SwitchHighM = null }));
            Assert.Equal(told.Vessels[^1].BandL ?? 0, found.Vessels[^1].BandL ?? 0, tolerance: 1e-6);
            Assert.Equal(told.Vessels[^1].SwitchHighM ?? 0, found.Vessels[^1].SwitchHighM ?? 0, tolerance: 1e-9);
            Assert.Equal(told.Equipment.Select(e => (e.Id, e.Kind, e.RateLPerMin, e.RatedPowerW)), found.Equipment.Select(e => (e.Id, e.Kind, e.RateLPerMin, e.RatedPowerW)));
        }
    }

    [Theory]
    [InlineData(LoopKind.SwitchLog, "healthy")]
    [InlineData(LoopKind.PowerChannel, "outage")]
    [InlineData(LoopKind.AlwaysOn, "clock-jump")]
    public async Task Log_text_reads_back_as_the_readings(LoopKind kind, string story)
    {
        var log = InventedLogs.Make(kind, Stories.Find(story)!, 3, 12);
        using var csv = new MemoryStream();
        await using (var writer = new StreamWriter(csv, leaveOpen: true)) CsvText.WriteLog(log, writer);
        csv.Position = 0;
        var read = Read(csv, log.Place);
        if (story == "clock-jump")
        {
            // How wrong times are set right is the reader's own affair; nothing may be lost without being counted.
            Assert.Equal(log.Rows.Count, read.Readings.Count + read.Skipped.Sum(s => s.Count));
            return;
        }

        Assert.Equal(log.Log.Readings.Count, read.Readings.Count + read.Skipped.Sum(s => s.Count));
        Assert.Equal(log.Log.Readings[0], read.Readings[0]);
        Assert.Equal(log.Log.Readings[^1], read.Readings[^1]);
    }

    private static ReadingLog Read(Stream csv, PlaceDescription place) => LogReader.Read(csv, place, LogReadOptions.Default, null, TestContext.Current.CancellationToken);
}
