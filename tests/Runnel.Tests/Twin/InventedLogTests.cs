using NodaTime;
using Runnel.Place;
using Runnel.Twin.Invented;

namespace Runnel.Tests.Twin;

/// <summary>The invented plant must be honest before anything is judged on it.</summary>
public sealed class InventedLogTests
{
    private static InventedLog Make(LoopKind kind, string story, int seed, int days) => InventedLogs.Make(kind, Stories.Find(story)!, seed, days);

    [Theory]
    [InlineData(LoopKind.SwitchLog, "leak-6", 1)]
    [InlineData(LoopKind.SwitchLog, "screen-blocking", 4)]
    [InlineData(LoopKind.SwitchLog, "top-up-stuck-open", 2)]
    [InlineData(LoopKind.SiphonBed, "siphon-stuck", 2)]
    [InlineData(LoopKind.SiphonBed, "check-valve-leaking", 5)]
    [InlineData(LoopKind.PowerChannel, "drain-fouling-8", 3)]
    [InlineData(LoopKind.AlwaysOn, "bleed-stuck-open", 4)]
    [InlineData(LoopKind.AlwaysOn, "bed-watered", 1)]
    public void Water_in_equals_water_out_and_change_every_day(LoopKind kind, string story, int seed)
    {
        var log = Make(kind, story, seed, 14);
        Assert.All(log.Truth.Days, d => Assert.Equal(0, d.BalanceL, tolerance: 1e-6));
        Assert.True(log.Truth.Days.Sum(d => d.EvaporationL + d.PlantUseL) > 50);
    }

    [Theory]
    [InlineData(LoopKind.SwitchLog)]
    [InlineData(LoopKind.PowerChannel)]
    public void Same_seed_gives_the_same_log_and_another_seed_another(LoopKind kind)
    {
        var once = Make(kind, "healthy", 3, 3);
        var again = Make(kind, "healthy", 3, 3);
        var other = Make(kind, "healthy", 4, 3);
        Assert.Equal(once.Rows, again.Rows);
        Assert.Equal(once.PlaceToml, again.PlaceToml);
        Assert.NotEqual(once.Rows, other.Rows);
    }

    [Theory]
    [InlineData(LoopKind.SwitchLog, 4, 12, 1.2, 8)]
    [InlineData(LoopKind.PowerChannel, 15, 50, 5, 40)]
    public void Cycles_are_as_long_as_the_kind_of_place_says(LoopKind kind, double fillLeast, double fillMost, double runLeast, double runMost)
    {
        for (int seed = 1; seed <= 4; seed++)
        {
            var cycles = PumpCycles.Of(Make(kind, "healthy", seed, 3));
            double fill = PumpCycles.Median(cycles.Select(c => c.FillS / 60)), run = PumpCycles.Median(cycles.Select(c => c.RunS / 60));
            Assert.InRange(fill, fillLeast, fillMost);
            Assert.InRange(run, runLeast, runMost);
        }
    }

    [Fact]
    public void Weak_pump_runs_longer_at_the_same_fill()
    {
        var (before, after) = RunAtSameFill("pump-weakening-5", 4);
        Assert.True(after > before * 1.3, $"{before} then {after} s");
    }

    [Fact]
    public void Fouled_drains_run_shorter_at_the_same_fill_and_the_rule_pours_water_in()
    {
        var (before, after) = RunAtSameFill("drain-fouling-8", 15);
        Assert.True(after < before * 0.985, $"{before} then {after} s");
        var log = Make(LoopKind.SwitchLog, "drain-fouling-8", 15, 30);
        var onset = log.Truth.Events[0].Onset;
        var days = log.Truth.Days;
        int at = days.Count(d => log.Place.Zone.AtStartOfDay(d.Date).ToInstant() < onset);
        Assert.True(days.Skip(at).Average(d => d.StoredL) > 5 + days.Take(at).Average(d => d.StoredL));
    }

    [Fact]
    public void Leak_leaves_run_against_fill_as_it_was_and_costs_top_up()
    {
        var (before, after) = RunAtSameFill("leak-6", 4);
        Assert.InRange(after / before, 0.96, 1.04);
        var days = Make(LoopKind.SwitchLog, "leak-6", 4, 30).Truth.Days;
        Assert.True(days[^1].LeakL is > 140 and < 145);
        Assert.True(days.TakeLast(5).Average(d => d.TopUpL) > 100 + days.Take(10).Average(d => d.TopUpL));
    }

    [Fact]
    public void Written_rows_are_in_the_order_of_the_logger_and_readings_in_order_of_time()
    {
        foreach (var kind in Enum.GetValues<LoopKind>())
        {
            var log = Make(kind, "outage", 2, 20);
            Assert.True(log.Log.Readings.Zip(log.Log.Readings.Skip(1)).All(p => p.First.Time <= p.Second.Time));
            Assert.All(log.Log.Readings, r => Assert.InRange(r.Channel, 0, log.Place.Channels.Count - 1));
            var gap = log.Truth.Events[0];
            Assert.DoesNotContain(log.Log.Readings, r => r.Time >= gap.Onset && r.Time < gap.End);
        }
    }

    [Fact]
    public void A_wrong_clock_is_in_the_rows_as_the_logger_wrote_it()
    {
        for (int seed = 1; seed <= 6; seed++)
        {
            var log = Make(LoopKind.AlwaysOn, "clock-jump", seed, 20);
            Assert.NotEmpty(log.Log.ClockSteps);
            Assert.Contains(log.Rows.Zip(log.Rows.Skip(1)), p => p.Second.Time - p.First.Time < -Duration.FromHours(2));
        }
    }

    [Fact]
    public void Each_story_can_be_told_at_each_kind_of_place_that_it_fits()
    {
        // A valve that sticks at its next order may see none in six days.
        string[] waits = ["healthy", "top-up-stuck-open", "top-up-without-effect", "bleed-stuck-open"];
        foreach (var story in Stories.All)
        {
            foreach (var kind in Enum.GetValues<LoopKind>().Where(story.Fits).Take(1))
            {
                var log = InventedLogs.Make(kind, story, 6, 6);
                Assert.True(log.Log.Readings.Count > 500);
                Assert.All(log.Truth.Events, e => Assert.True(e.Onset > log.Rows[0].Time));
                if (!waits.Contains(story.Name)) Assert.Contains(log.Truth.Events, e => e.IsFault == story.IsFault);
            }
        }
    }

    [Fact]
    public void A_stopped_pump_is_a_run_that_does_not_end_while_the_sump_stands_full()
    {
        var log = Make(LoopKind.SwitchLog, "pump-stopped", 4, 20);
        var last = log.Log.Readings.Last(r => r.Channel == 0);
        Assert.Equal(1, last.Value);
        Assert.InRange((last.Time - log.Truth.Events[0].Onset).TotalHours, -0.2, 1);
    }

    [Fact]
    public void The_demo_tells_its_story()
    {
        var log = InventedDemo.Make();
        Assert.Equal(60, log.Truth.Days.Count);
        Assert.Equal(
            [HappeningKind.Harvest, HappeningKind.Storm, HappeningKind.SludgeDrainedUnlogged, HappeningKind.DrainFouling],
            log.Truth.Events.Select(e => e.Kind));
        // From the day on which the drains begin to foul, more is let in than the loop has lost.
        double before = log.Truth.Days.Take(44).Average(d => d.TopUpL), after = log.Truth.Days.TakeLast(10).Average(d => d.TopUpL);
        Assert.True(after > before * 1.4, $"{before} then {after} L a day");
        Assert.True(log.Truth.Days.TakeLast(10).Sum(d => d.StoredL) > 100);
        Assert.True(log.Daybook.Count >= 4);
        Assert.DoesNotContain(log.Truth.Events, e => e.Causes.Contains("tank-overflow"));
    }

    private static (double Before, double After) RunAtSameFill(string story, int seed)
    {
        var log = Make(LoopKind.SwitchLog, story, seed, 30);
        var onset = log.Truth.Events[0].Onset;
        var cycles = PumpCycles.Of(log);
        var before = cycles.Where(c => c.On < onset && c.On > log.Rows[0].Time.Plus(Duration.FromDays(1))).ToList();
        var after = cycles.Where(c => c.On > onset.Plus(Duration.FromDays(6)) && c.On < onset.Plus(Duration.FromDays(10))).ToList();
        double low = PumpCycles.Median(after.Select(c => c.FillS)) - 15, high = low + 30;
        bool Near(PumpCycle c) => c.FillS >= low && c.FillS <= high;
        return (PumpCycles.Median(before.Where(Near).Select(c => c.RunS)), PumpCycles.Median(after.Where(Near).Select(c => c.RunS)));
    }
}
