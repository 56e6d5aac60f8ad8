using NodaTime;
using Runnel.Place;
using Runnel.Twin.Faults;
using Runnel.Twin.Playing;
using Runnel.Twin.Solving;

namespace Runnel.Tests.Twin.Playing;

/// <summary>Readings as a kit gives them.</summary>
public class KitTests
{
    private static readonly Instant Start = Instant.FromUtc(2025, 10, 4, 14, 0);
    private static readonly PlaceDescription Place = PlayedPlaceTests.Demo();

    [Fact]
    public void The_same_seed_gives_the_same_readings_and_another_gives_others()
    {
        var once = Play(1, 3);

        Assert.Equal(once, Play(1, 3));
        Assert.NotEqual(once, Play(1, 4));
    }

    [Fact]
    public void Small_steps_give_the_world_of_one_great_step()
    {
        var whole = new PlayedPlace(Place, Start, 3, KitQuality.Perfect);
        var stepped = new PlayedPlace(Place, Start, 3, KitQuality.Perfect);
        List<Reading> ofWhole = [], ofStepped = [];
        whole.AdvanceTo(Start + Duration.FromHours(2), ofWhole.Add);
        for (int s = 1; s <= 7200; s++) stepped.AdvanceTo(Start + Duration.FromSeconds(s), ofStepped.Add);

        Assert.Equal(ofWhole.Count, ofStepped.Count);
        int pump = Place.ChannelIndex("sump-pump");
        foreach (var (a, b) in ofWhole.Where(r => r.Channel == pump).Zip(ofStepped.Where(r => r.Channel == pump)))
        {
            Assert.Equal(a.Value, b.Value);
            Assert.Equal(0, (a.Time - b.Time).TotalSeconds, 0.5);
        }
    }

    [Fact]
    public void Each_channel_keeps_its_interval_and_a_perfect_kit_reads_the_truth()
    {
        var world = new PlayedPlace(Place, Start, 3, KitQuality.Perfect);
        List<Reading> readings = [];
        world.AdvanceTo(Start + Duration.FromHours(6), readings.Add);
        var levels = Of(readings, "sump-level");

        Assert.InRange(levels.Count, 360, 361);
        Assert.All(levels.Zip(levels.Skip(1)), p => Assert.Equal(60, (p.Second.Time - p.First.Time).TotalSeconds, 1e-6));
        // The switch acts at 250 and 140 mm; between two readings it may go beyond neither.
        Assert.All(levels, r => Assert.InRange(r.Value, 139.9, 250.1));
        Assert.InRange(world.Truth.Water.CameL - (Of(readings, "top-up").Count(r => r.Value == 1) * 18.0), -18, 18);
        Assert.Empty(world.SilentChannels);
    }

    [Fact]
    public void Readings_are_as_rough_as_the_sensor_and_some_are_lost()
    {
        List<Reading> rough = Play(4, 3, quality: new KitQuality { LostShare = 0.05, PumpWander = 0, SwitchJitter = 0 }), smooth = Play(4, 3, quality: KitQuality.Perfect);
        var level = Of(rough, "perch-tank-level");

        Assert.InRange(level.Count, 4 * 720 * 0.93, 4 * 720 * 0.97);
        Assert.All(level, r => Assert.Equal(Math.Round(r.Value), r.Value, 1e-6));
        var exact = Of(smooth, "perch-tank-level").ToDictionary(r => r.Time, r => r.Value);
        double[] off = [.. level.Where(r => exact.ContainsKey(r.Time)).Select(r => r.Value - exact[r.Time])];
        Assert.InRange(Math.Sqrt(off.Average(e => e * e)), 1.1, 1.5);
        Assert.All(Of(rough, "rain"), r => Assert.Equal(0, r.Value / 0.2 - Math.Round(r.Value / 0.2), 1e-6));
    }

    [Fact]
    public void Sensors_fall_silent_freeze_jump_drift_and_grow_noisy()
    {
        var half = Start + Duration.FromDays(1);
        List<Reading> With(string fault, double? rate = null) => [.. Of(Play(2, 3, new Fault(fault, "perch-tank-level", rate), half), "perch-tank-level").Where(r => r.Time > half)];

        Assert.Empty(With("sensor-silent"));
        Assert.Single(With("sensor-frozen").Select(r => r.Value).Distinct());
        Assert.InRange(With("sensor-jumping", 0.1).Count(r => Math.Abs(r.Value - 752) > 60), 40, 110);
        // The usual range of a level is 200 mm: 10 % a day is 20 mm by the end.
        Assert.InRange(With("sensor-drifting", 0.1)[^20..].Average(r => r.Value) - With("sensor-drifting", 0.1)[..20].Average(r => r.Value), 15, 25);
        Assert.InRange(Spread(With("sensor-noisy", 8)), 8, 13);
    }

    [Fact]
    public void A_kit_sees_what_it_can_of_each_fault_and_nothing_after_it_is_mended()
    {
        var world = new PlayedPlace(Place, Start, 3);
        List<Reading> readings = [];
        var now = Start + Duration.FromHours(4);
        world.AdvanceTo(now, readings.Add);
        world.Inject(new Fault("pump-stopped"));
        world.Inject(new Fault("air-failed"));
        readings.Clear();
        Assert.Equal(StopReason.Reached, world.AdvanceTo(now += Duration.FromHours(2), readings.Add));
        Assert.Equal(1, Of(readings, "sump-pump").LastOrDefault(new Reading(0, now, 1)).Value);
        Assert.Equal(0, Of(readings, "air-pressure-line")[^1].Value, 0.3);
        Assert.False(world.Truth.Pumps[0].Turns);
        Assert.Equal(2, world.Faults.Count);

        Assert.True(world.Mend("pump-stopped"));
        Assert.True(world.Mend("air-failed"));
        Assert.False(world.Mend("air-failed"));
        readings.Clear();
        world.AdvanceTo(now += Duration.FromHours(6), readings.Add);
        Assert.True(Of(readings, "sump-pump").Count > 40);
        Assert.InRange(Of(readings, "air-pressure-line")[^1].Value, 17, 19);
        Assert.Throws<ArgumentException>(() => world.Inject(new Fault("siphon-stuck")));
        Assert.Throws<ArgumentException>(() => world.Inject(new Fault("leak", "nothing")));
    }

    [Fact]
    public void An_order_opens_the_top_up_for_so_long()
    {
        var world = new PlayedPlace(Place, Start, 3);
        double before = world.Truth.Water.CameL;
        world.Order("top-up", 120);
        world.AdvanceTo(Start + Duration.FromMinutes(5), _ => { });

        Assert.Equal(12, world.Truth.Water.CameL - before, 1e-6);
        Assert.Throws<ArgumentException>(() => world.Order("nothing", 1));
    }

    [Fact]
    public void Every_fault_that_fits_keeps_the_waters_balance()
    {
        foreach (var kind in FaultCatalogue.All.Where(k => k.Fits(Place).Count > 0))
        {
            var world = new PlayedPlace(Place, Start, 3);
            world.Inject(new Fault(kind.Name, null, kind.Unit.EndsWith("/d", StringComparison.Ordinal) ? 10 * kind.Usual : null), Start + Duration.FromHours(1.3));

            Assert.Equal(StopReason.Reached, world.AdvanceTo(Start + Duration.FromHours(12), _ => { }));
            Assert.True(Math.Abs(world.Truth.Water.BalanceL) < 1e-9 * (world.Truth.Water.WaterL + world.Truth.Water.CameL), kind.Name);
        }
    }

    private static List<Reading> Play(double days, int seed, Fault? fault = null, Instant? at = null, KitQuality? quality = null)
    {
        var world = new PlayedPlace(Place, Start, seed, quality);
        if (fault is not null) world.Inject(fault, at);
        List<Reading> readings = [];
        world.AdvanceTo(Start + Duration.FromDays(days), readings.Add);
        return readings;
    }

    private static List<Reading> Of(IEnumerable<Reading> readings, string channel) => [.. readings.Where(r => r.Channel == Place.ChannelIndex(channel))];

    private static double Spread(List<Reading> of)
    {
        double mean = of.Average(r => r.Value);
        return Math.Sqrt(of.Average(r => (r.Value - mean) * (r.Value - mean)));
    }
}
