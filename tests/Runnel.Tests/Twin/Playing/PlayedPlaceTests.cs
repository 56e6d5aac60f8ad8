using NodaTime;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Twin.Faults;
using Runnel.Twin.Playing;
using Runnel.Twin.Solving;

namespace Runnel.Tests.Twin.Playing;

public class PlayedPlaceTests
{
    private static readonly Instant Start = Instant.FromUtc(2025, 10, 4, 14, 0);

    [Fact]
    public void A_month_of_the_demo_place_runs_by_itself_and_its_water_balances()
    {
        var world = new PlayedPlace(Demo(), Start, 5);
        List<Reading> readings = [];

        Assert.Equal(StopReason.Reached, world.AdvanceTo(Start + Duration.FromDays(30), readings.Add));

        var water = world.Truth.Water;
        Assert.InRange(Math.Abs(water.BalanceL) / water.WaterL, 0, 1e-9);
        Assert.All(world.Truth.Vessels, v => Assert.Equal(0, v.SpilledL));
        int pump = Demo().ChannelIndex("sump-pump");
        var edges = readings.Where(r => r.Channel == pump).ToList();
        Assert.InRange(edges.Count(e => e.Value == 1), 1000, 8000);
        Assert.True(readings.Zip(readings.Skip(1)).All(p => p.First.Time <= p.Second.Time));
    }

    internal static PlaceDescription Demo()
    {
        var read = PlaceFile.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", "quince-court.toml")), "quince-court.toml", PlaceNeeds.Forecast);
        Assert.True(read.Problems.Count == 0, string.Join('\n', read.Problems));
        return read.Place!;
    }
}
