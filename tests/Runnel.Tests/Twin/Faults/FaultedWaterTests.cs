using NodaTime;
using Runnel.Place;
using Runnel.Science.Pipes;
using Runnel.Tests.Twin.Water;
using Runnel.Twin.Faults;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;

namespace Runnel.Tests.Twin.Faults;

/// <summary>What each fault does to the water, against closed forms.</summary>
public class FaultedWaterTests
{
    // A sump filled by rain at 12 L/min and emptied by a pump of 30 L/min: every time is known.
    private const string Sump =
        """
        [loop]
        open-water = "0.5 m2"
        [[vessel]]
        id = "sump"
        kind = "sump"
        footprint = "0.5 m2"
        switch-low = "100 mm"
        switch-high = "300 mm"
        rim = "900 mm"
        water-height = "300 mm"
        [[equipment]]
        id = "pump"
        kind = "pump"
        from = "sump"
        to = "garden"
        rate = "30 L/min"
        [[equipment]]
        id = "top-up"
        kind = "top-up-valve"
        to = "sump"
        rate = "6 L/min"
        every = "1 h"
        run = "5 min"
        """;

    private const string Bed =
        """
        [loop]
        open-water = "0.8 m2"
        [[vessel]]
        id = "bed"
        kind = "media-bed"
        footprint = "0.8 m2"
        rim = "400 mm"
        water-height = "50 mm"
        outlet = { kind = "siphon", height = "240 mm", trip = "250 mm", break = "50 mm", diameter = "25 mm", to = "waste" }
        """;

    private static readonly ForecastOptions Rainy = new() { Days = 0.5, EvaporationMmPerDay = 0, RainMmPerDay = 12 * 1440 / 0.5 };
    private static readonly double Bore = 0.6 * Math.PI / 4 * 0.025 * 0.025 * Math.Sqrt(2 * PipeFlow.GravityMPerS2);

    [Fact]
    public void A_weakening_pump_delivers_what_is_left_of_its_flow_summed_over_the_days()
    {
        var place = WaterForecastTests.Read(
            """
            [[vessel]]
            id = "pond"
            kind = "sump"
            footprint = "500 m2"
            rim = "3 m"
            water-height = "2 m"
            [[equipment]]
            id = "pump"
            kind = "pump"
            from = "pond"
            to = "garden"
            rate = "30 L/min"
            """);
        var forecast = Run(place, new ForecastOptions { Days = 10, EvaporationMmPerDay = 0 }, "pump-weakening@2 d,5 %/d");

        Assert.Equal(30 * 1440 * (10 - (0.05 * 8 * 8 / 2)), forecast.Pumps[0].DeliveredL, 1e-3);
    }

    [Fact]
    public void A_pump_that_stands_or_runs_dry_or_without_power_moves_nothing_until_then_as_before()
    {
        var before = Run(Read(Sump), Rainy with { Days = 0.25 });
        foreach (string fault in (string[])["pump-stopped@6 h", "pump-dry@6 h", "pump-left-off:pump@6 h", "power-cut:pump@6 h,12 h"])
        {
            var forecast = Run(Read(Sump), Rainy, fault);
            Assert.Equal(before.Pumps[0].DeliveredL, forecast.Pumps[0].DeliveredL, 0.5);
        }

        // A cut of two hours, and all goes on.
        var cut = Run(Read(Sump), Rainy, "power-cut@6 h,2 h");
        Assert.InRange(cut.Pumps[0].DeliveredL, before.Pumps[0].DeliveredL * 1.7, before.Pumps[0].DeliveredL * 2.3);
        Assert.InRange(cut.Vessels[0].HighM, 0.9, 1.0);
    }

    // Storage between two switch levels, MIL-HDBK-1005/9A as in SumpCycle.Times.
    [Theory]
    [InlineData("switch-shifted:pump@0 h,20 mm", 110)]
    [InlineData("switch-shifted:pump@0 h,-50 mm", 75)]
    [InlineData("pump-short-cycling:pump@0 h,25 %", 25)]
    public void A_moved_switch_cycles_in_the_times_of_its_new_band(string fault, double litres)
    {
        var place = Read(Sump.Replace("every = \"1 h\"\nrun = \"5 min\"", "opens-at = \"5 mm\"\nshuts-at = \"10 mm\"", StringComparison.Ordinal));
        var expected = SumpCycle.Times(litres, 12, 30);
        var pump = Run(place, Rainy, fault).Pumps[0];

        Assert.Equal(expected.FillMin * 60, pump.MeanFillS!.Value, 0.2);
        Assert.Equal(expected.RunMin * 60, pump.MeanRunS!.Value, 1);
    }

    [Fact]
    public void Levels_that_drift_rise_by_so_much_a_day()
    {
        var forecast = Run(Read(Sump), Rainy with { Days = 2 }, "switch-drifting:pump@0 h,10 mm/d");

        Assert.Equal(0.32, forecast.Vessels[0].HighM, 2e-4);
    }

    [Fact]
    public void A_welded_switch_pumps_the_sump_down_to_what_comes_in_and_a_dead_one_lets_it_spill()
    {
        var on = Run(Read(Sump), Rainy, "pump-stuck-on@1 h");
        var off = Run(Read(Sump), Rainy, "pump-stuck-off@1 h");

        // It draws air below 20 mm, in proportion: 13.2 of 30 L/min at the mean, 12 between top-ups.
        Assert.InRange(on.Vessels[0].EndM, 0.02 * 12 / 30 * 0.99, 0.02 * 18 / 30);
        Assert.True(off.Vessels[0].SpilledL > 1000);
    }

    // Closed form: Torricelli with an opening that shrinks evenly, sqrt(h0) - sqrt(h) = c / (2 A) (t - r t^2 / 2).
    [Fact]
    public void A_tank_empties_through_a_hole_that_fouls_in_the_time_of_the_closed_form()
    {
        var place = Read(
            """
            [[vessel]]
            id = "tank"
            kind = "fish-tank"
            footprint = "1.2 m2"
            rim = "1 m"
            water-height = "900 mm"
            outlet = { kind = "orifice", height = "100 mm", diameter = "20 mm", to = "waste" }
            """);
        const double days = 0.01, perDay = 40;
        double c = 0.61 * Math.PI / 4 * 0.02 * 0.02 * Math.Sqrt(2 * PipeFlow.GravityMPerS2), t = days * 86_400, r = perDay / 86_400;
        double root = Math.Sqrt(0.8) - (c / (2 * 1.2) * (t - (r * t * t / 2)));
        var forecast = Run(place, new ForecastOptions { Days = days, EvaporationMmPerDay = 0 }, "drain-fouling@0 h,4000 %/d");

        Assert.Equal(0.1 + (root * root), forecast.Vessels[0].EndM, 1e-6);
    }

    // Closed form: a hole whose flow at the usual level is told, so that sqrt(h) falls evenly.
    [Fact]
    public void A_tank_leaks_down_to_its_hole_by_the_closed_form()
    {
        var place = Read(
            """
            [[vessel]]
            id = "tank"
            kind = "fish-tank"
            footprint = "1.2 m2"
            rim = "1 m"
            water-height = "700 mm"
            outlet = { kind = "standpipe", height = "700 mm", diameter = "50 mm", to = "waste" }
            """);
        double q = 10 / 3.6e6, root = Math.Sqrt(0.4) - (q / Math.Sqrt(0.4) / (2 * 1.2) * 2 * 86_400);
        var forecast = Run(place, new ForecastOptions { Days = 2, EvaporationMmPerDay = 0 }, "leak@0 h,10 L/h,300 mm");
        Assert.Equal(0.3 + (root * root), forecast.Vessels[0].EndM, 1e-5);
        Assert.Equal(1.2 * 1000 * (0.7 - forecast.Vessels[0].EndM), forecast.Totals.LeakedL, 1e-6);

        var byNight = Run(place, new ForecastOptions { Days = 1, EvaporationMmPerDay = 0, BeginsAt = new LocalTime(14, 0) }, "leak@0 h,1 L/h,20:00-06:00");
        Assert.Equal(10, byNight.Totals.LeakedL, 0.05);
    }

    [Fact]
    public void A_stuck_siphon_stands_at_the_head_of_its_crest_and_one_that_does_not_break_at_that_of_its_bore()
    {
        var rain = new ForecastOptions { Days = 0.5, EvaporationMmPerDay = 0, RainMmPerDay = 15 * 1440 / 0.8 };
        const double inflow = 15.0 / 60_000;

        Assert.Equal(0.24 + Standpipe.HeadM(0.025, 15), Run(Read(Bed), rain, "siphon-stuck@0 h").Vessels[0].EndM, 1e-4);
        Assert.Equal(Math.Pow(inflow / Bore, 2), Run(Read(Bed), rain, "siphon-not-breaking@0 h").Vessels[0].EndM, 1e-4);
        // What runs out at its foot is more than what comes in: it never trips.
        Assert.Equal(Math.Pow(inflow / (0.5 * Bore), 2), Run(Read(Bed), rain, "siphon-dribbling@0 h,50 %").Vessels[0].EndM, 1e-4);
    }

    // A hole at the foot with inflow: DrainDown.WithInflowS gives the slower fill.
    [Fact]
    public void A_dribbling_siphon_fills_its_bed_more_slowly_by_the_closed_form()
    {
        const double inflow = 15.0 / 60_000;
        double fills = DrainDown.WithInflowS(0.8, 0.2 * Bore, inflow, 0.05, 0.24);
        var rain = new ForecastOptions { Days = fills / 86_400, EvaporationMmPerDay = 0, RainMmPerDay = 15 * 1440 / 0.8 };

        Assert.Equal(0.24, Run(Read(Bed), rain, "siphon-dribbling@0 h,20 %").Vessels[0].EndM, 1e-5);
    }

    [Fact]
    public void Valves_weep_slow_down_stick_and_stand_without_supply()
    {
        double usual = 23 * 30;
        var day = Rainy with { Days = 1 };

        Assert.Equal(usual, Run(Read(Sump), day).Valves[0].LetL, 1e-6);
        // Shut for all but 23 pulses of five minutes.
        Assert.Equal(usual + (6 * (24 - (23 * 5 / 60.0))), Run(Read(Sump), day, "top-up-weeping@0 h,6 L/h").Valves[0].LetL, 1e-6);
        // Five pulses, and from the sixth opening on six hours without an end.
        Assert.Equal((5 * 30) + (6 * 360), Run(Read(Sump), Rainy, "top-up-stuck-open@5.5 h").Valves[0].LetL, 1e-6);
        Assert.Equal(5 * 30, Run(Read(Sump), day, "top-up-without-effect@5.5 h").Valves[0].LetL, 1e-6);
        Assert.Equal(5 * 30, Run(Read(Sump), day, "top-up-stuck-shut@5.5 h").Valves[0].LetL, 1e-6);
        double slow = Enumerable.Range(1, 23).Sum(h => 30 * (1 - (0.5 * ((h * 60) + 2.5) / 1440)));
        Assert.Equal(slow, Run(Read(Sump), day, "top-up-slowing@0 h,50 %/d").Valves[0].LetL, 1e-4);
    }

    // Closed form: flow by the root of the head, so that the root falls evenly.
    [Fact]
    public void A_top_up_gives_less_as_its_tank_runs_down()
    {
        var place = Read(
            """
            [[vessel]]
            id = "roof-water"
            kind = "rain-tank"
            footprint = "1 m2"
            rim = "2 m"
            water-height = "1.5 m"
            [[vessel]]
            id = "pond"
            kind = "sump"
            footprint = "500 m2"
            rim = "3 m"
            water-height = "500 mm"
            outlet = { kind = "standpipe", height = "2 m", diameter = "50 mm", to = "waste" }
            [[equipment]]
            id = "top-up"
            kind = "top-up-valve"
            from = "roof-water"
            to = "pond"
            rate = "6 L/min"
            rate-at = "1.5 m"
            opens-at = "1 m"
            shuts-at = "2 m"
            """);
        double root = Math.Sqrt(1.5) - (6 / 60_000.0 / Math.Sqrt(1.5) / 2 * 21_600);

        Assert.Equal(root * root, Run(place, new ForecastOptions { Days = 0.25, EvaporationMmPerDay = 0 }).Vessels[0].EndM, 1e-6);
    }

    [Fact]
    public void People_draw_sludge_leave_hoses_running_and_turn_valves()
    {
        Assert.Equal(30, Run(Read(Sump), Rainy, "sludge-drained@2 h,30 L").Totals.DrawnL, 1e-3);
        var none = Run(Read(Sump), Rainy);
        var hose = Run(Read(Sump), Rainy, "hose-left-running@2 h,4 L/min");
        Assert.Equal(none.Totals.CameL + (10 * 60 * 4), hose.Totals.CameL, 1e-6);
        // With half of its flow left it runs for 100 / (15 - 12) minutes.
        var turned = Run(Read(Sump.Replace("every = \"1 h\"\nrun = \"5 min\"", "opens-at = \"5 mm\"\nshuts-at = \"10 mm\"", StringComparison.Ordinal)), Rainy, "valve-moved@0 h,50 %");
        Assert.Equal(SumpCycle.Times(100, 12, 15).RunMin * 60, turned.Pumps[0].MeanRunS!.Value, 1);
    }

    [Fact]
    public void A_leaking_check_valve_lets_the_line_run_empty_and_a_tank_back_down_to_the_pipes_end()
    {
        string looped = WaterForecastTests.Looped("curve = [[\"0 L/min\", \"3.6 m\"], [\"60 L/min\", \"2.5 m\"], [\"95 L/min\", \"1.2 m\"]]\nto = \"tank\"\n"
            + "pipe = { length = \"3 m\", diameter = \"32 mm\", end-height = \"300 mm\" }\ncheck-valve = true");
        var options = new ForecastOptions { Days = 1, EvaporationMmPerDay = 0 };
        var held = Run(Read(looped), options, "pump-stopped@1 h");
        var leaks = Run(Read(looped), options, "pump-stopped@1 h", "check-valve-leaking@0 h,20 %");

        Assert.Equal(0.5, held.Vessels[1].EndM, 2e-3);
        Assert.Equal(0.3, leaks.Vessels[1].EndM, 5e-3);
        Assert.True(leaks.Vessels[0].EndM > held.Vessels[0].EndM + 0.2);
    }

    internal static PlaceDescription Read(string toml) => WaterForecastTests.Read(toml);

    internal static WaterForecast Run(PlaceDescription place, ForecastOptions options, params string[] faults)
    {
        var read = faults.Select(f => FaultText.Read(f, place)).ToList();
        Assert.All(read, r => Assert.True(r.Planned is not null, r.Problem));
        var forecast = WaterForecaster.Run(place, options with { Faults = [.. read.Select(r => r.Planned!)] });
        Assert.Equal(StopReason.Reached, forecast.Stop);
        Assert.InRange(Math.Abs(forecast.Totals.BalanceL), 0, 1e-9 * (forecast.Totals.WaterL + forecast.Totals.CameL + forecast.Totals.RainL));
        return forecast;
    }
}
