using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Science.Pipes;
using Runnel.Science.Pipes.Networks;
using Runnel.Twin.Solving;
using Runnel.Twin.Water;

namespace Runnel.Tests.Twin.Water;

public class WaterForecastTests
{
    private static readonly string Example = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "places", "low-wall-yard.toml"));

    [Fact]
    public void Water_balances_over_thirty_days_of_pump_cycles()
    {
        var forecast = WaterForecaster.Run(Read(Example), new ForecastOptions { Days = 30, EvaporationMmPerDay = 4.2, RainMmPerDay = 0.6 });

        Assert.Equal(StopReason.Reached, forecast.Stop);
        Assert.True(forecast.Pumps[0].Starts > 1000, $"{forecast.Pumps[0]}");
        var t = forecast.Totals;
        Assert.InRange(Math.Abs(t.BalanceL) / t.WaterL, 0, 1e-9);
        // Added up anew from what is told: what came less what went is what is stored.
        Assert.InRange(Math.Abs(t.CameL + t.RainL - t.LostL - t.SpilledL - t.LeftL - t.StoredL) / t.WaterL, 0, 1e-9);
        Assert.Equal(4.2 * (3.4 + 5) * 30, t.LostL, 1e-6);
        Assert.Equal(0.6 * 3.4 * 30, t.RainL, 1e-6);
        Assert.Equal(29 * 33.6, forecast.Valves[0].LetL, 1e-6);
        Assert.Equal(0, forecast.Vessels.Sum(v => v.SpilledL));
    }

    [Fact]
    public void A_drain_of_32_in_place_of_40_millimetres_makes_the_fish_tank_spill_and_no_other()
    {
        var wide = WaterForecaster.Run(Read(Example), new ForecastOptions { Days = 2 });
        var narrow = WaterForecaster.Run(Read(Example.Replace("diameter = \"40 mm\"", "diameter = \"32 mm\"", StringComparison.Ordinal)), new ForecastOptions { Days = 2 });

        Assert.All(wide.Vessels, v => Assert.Null(v.FirstSpillS));
        var spilled = Assert.Single(narrow.Vessels, v => v.SpilledL > 0);
        Assert.Equal("trout-tank", spilled.Id);
        Assert.InRange(spilled.FirstSpillS!.Value, 120, 900);
        Assert.InRange(spilled.SpilledL, 20, 200);
        Assert.Equal(spilled.SpilledL, narrow.Totals.SpilledL, 1e-9);
    }

    // Closed form: Torricelli with a falling head, DrainDown.UprightS.
    [Fact]
    public void A_tank_empties_through_a_hole_in_the_time_of_the_closed_form()
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
        double seconds = DrainDown.UprightS(1.2, 0.02, 0.8, 0.2);
        var forecast = WaterForecaster.Run(place, new ForecastOptions { Days = seconds / 86_400, EvaporationMmPerDay = 0 });

        Assert.Equal(0.3, forecast.Vessels[0].EndM, 1e-6);
    }

    // Closed form: storage between two switch levels, MIL-HDBK-1005/9A as in SumpCycle.Times; here rain is the inflow.
    [Fact]
    public void A_sump_cycles_in_the_times_of_the_closed_form()
    {
        var place = Read(
            """
            [loop]
            open-water = "0.5 m2"
            [[vessel]]
            id = "sump"
            kind = "sump"
            footprint = "0.5 m2"
            switch-low = "100 mm"
            switch-high = "300 mm"
            rim = "500 mm"
            water-height = "300 mm"
            [[equipment]]
            id = "pump"
            kind = "pump"
            from = "sump"
            to = "garden"
            rate = "30 L/min"
            """);
        var expected = SumpCycle.Times(100, 12, 30);
        var forecast = WaterForecaster.Run(place, new ForecastOptions { Days = 0.5, EvaporationMmPerDay = 0, RainMmPerDay = 12 * 1440 / 0.5 });
        var pump = forecast.Pumps[0];

        Assert.Equal(expected.FillMin * 60, pump.MeanFillS!.Value, 1e-3);
        Assert.Equal(expected.RunMin * 60, pump.MeanRunS!.Value, 1e-3);
        Assert.Equal(Math.Ceiling(expected.StartsPerH), pump.MostStartsPerH);
    }

    // Closed form: a hole with inflow, DrainDown.WithInflowS; a siphon without a pipe runs like a hole at the floor.
    [Fact]
    public void A_siphon_fills_trips_and_empties_in_the_times_of_the_closed_form()
    {
        var place = Read(
            """
            [loop]
            open-water = "0.8 m2"
            [[vessel]]
            id = "bed"
            kind = "media-bed"
            footprint = "2 m2"
            void-fraction = 0.4
            rim = "400 mm"
            water-height = "50 mm"
            outlet = { kind = "siphon", height = "240 mm", trip = "250 mm", break = "50 mm", diameter = "25 mm", to = "waste" }
            """);
        const double inflow = 15.0 / 60_000;
        var forecast = WaterForecaster.Run(place, new ForecastOptions { Days = 0.5, EvaporationMmPerDay = 0, RainMmPerDay = 15 * 1440 / 0.8, EveryS = 60 });
        double c = 0.6 * Math.PI / 4 * 0.025 * 0.025 * Math.Sqrt(2 * PipeFlow.GravityMPerS2);
        double empties = DrainDown.WithInflowS(0.8, c, inflow, 0.25, 0.05);

        // Until it trips a little runs over its crest; that only slows the last centimetre.
        double fills = (0.24 - 0.05) * 0.8 / inflow;
        var low = forecast.Samples.Where((s, i) => i > 0 && s.OutLPerMin[0] > 18).Select(s => s.TimeS).ToList();
        Assert.Equal(0.05, forecast.Vessels[0].LowM, 1e-3);
        Assert.Equal(0.25, forecast.Vessels[0].HighM, 1e-3);
        Assert.InRange(low[0], fills, fills * 1.3);
        // With less than its crest carries at the trip it dribbles, and never runs.
        var dribbles = WaterForecaster.Run(place, new ForecastOptions { Days = 0.5, EvaporationMmPerDay = 0, RainMmPerDay = 4 * 1440 / 0.8 });
        Assert.Equal(0.24 + Standpipe.HeadM(0.025, 4), dribbles.Vessels[0].EndM, 1e-5);
        int firstRun = low.TakeWhile((t, i) => i == 0 || t - low[i - 1] < 61).Count();
        Assert.InRange(firstRun * 60, empties - 90, empties + 90);
    }

    // The twin's tables against the relations themselves: pump curve on pipe (PumpCurve, PipeFlow), head over a standpipe (Standpipe).
    [Fact]
    public void A_pump_that_always_runs_settles_at_its_duty_point_and_the_tank_at_the_head_of_its_standpipe()
    {
        var place = Read(Looped("curve = [[\"0 L/min\", \"3.6 m\"], [\"60 L/min\", \"2.5 m\"], [\"95 L/min\", \"1.2 m\"]]\nlift = \"1.9 m\"\nto = \"tank\"\ncheck-valve = true\n"
            + "pipe = { length = \"3.6 m\", diameter = \"32 mm\", k = 2.4 }"));
        var forecast = WaterForecaster.Run(place, new ForecastOptions { Days = 1, EvaporationMmPerDay = 0 });
        double sump = forecast.Vessels[0].EndM;
        var duty = PumpCurve.ThroughPoints(3.6, 60, 2.5, 95, 1.2).DutyPoint(q => 1.9 - sump + PipeFlow.AtFlow(q / 60_000, 3.6, 0.032, 0.007, 3.4).HeadLossM);

        Assert.Equal(duty.FlowLPerMin, forecast.Samples[^1].PumpedLPerMin[0], 1e-4 * duty.FlowLPerMin);
        Assert.Equal(duty.FlowLPerMin, forecast.Samples[^1].OutLPerMin[1], 1e-4 * duty.FlowLPerMin);
        Assert.Equal(0.5 + Standpipe.HeadM(0.05, duty.FlowLPerMin), forecast.Vessels[1].EndM, 1e-5);
    }

    [Fact]
    public void Where_the_pumps_pipe_splits_the_flows_are_those_of_the_network()
    {
        var place = Read(Looped(
            """
            curve = [["0 L/min", "3.6 m"], ["60 L/min", "2.5 m"], ["95 L/min", "1.2 m"]]
            lift = "1.9 m"
            check-valve = true
            pipe = { length = "3 m", diameter = "32 mm", k = 2.4 }
            split = [{ to = "tank", length = "1 m", diameter = "25 mm" }, { to = "second", length = "4 m", diameter = "20 mm", k = 6, end-height = "200 mm" }]
            """));
        var forecast = WaterForecaster.Run(place, new ForecastOptions { Days = 1, EvaporationMmPerDay = 0 });
        var network = new PipeNetwork(
            [new("sump", forecast.Vessels[0].EndM), new("pump"), new("split"), new("tank", 1.9), new("second", 1.4)],
            [
                new NetworkPump("p", "sump", "pump", PumpCurve.ThroughPoints(3.6, 60, 2.5, 95, 1.2)), new NetworkPipe("main", "pump", "split", 3, 0.032, 0.007, 2.4),
                new NetworkPipe("a", "split", "tank", 1, 0.025, 0.007, 1), new NetworkPipe("b", "split", "second", 4, 0.020, 0.007, 7),
            ]);
        network.Solve();
        double toTank = network.FlowM3PerS(network.Link("a")) * 60_000, toSecond = network.FlowM3PerS(network.Link("b")) * 60_000;

        Assert.True(toSecond > 5 && toTank > toSecond);
        Assert.Equal(toTank, forecast.Samples[^1].OutLPerMin[1], 1e-3 * toTank);
        Assert.Equal(toSecond, forecast.Samples[^1].OutLPerMin[2], 1e-3 * toSecond);
    }

    [Fact]
    public void When_the_pump_stops_its_pipe_and_the_moving_water_come_down_to_the_sump()
    {
        string pump = "curve = [[\"0 L/min\", \"3.6 m\"], [\"60 L/min\", \"2.5 m\"], [\"95 L/min\", \"1.2 m\"]]\nlift = \"1.9 m\"\nto = \"tank\"\n"
            + "pipe = { length = \"6 m\", diameter = \"40 mm\" }\ncheck-valve = ";
        var options = new ForecastOptions { Days = 1, EvaporationMmPerDay = 0, PumpsDieAtS = 7200 };
        var held = WaterForecaster.Run(Read(Looped(pump + "true")), options);
        var free = WaterForecaster.Run(Read(Looped(pump + "false")), options);
        double lineM3 = Math.PI / 4 * 0.04 * 0.04 * 6;

        Assert.Equal(7200, free.Pumps[0].RunS, 1);
        Assert.Equal(0.5, free.Vessels[1].EndM, 2e-3); // run down to the sill
        Assert.True(free.Vessels[0].EndM > free.Samples[1].LevelM[0] + 0.05);
        // Both began with the same water in their vessels: the one with a free line lent it some, and has it back; the other's line began full and stays so.
        Assert.Equal(free.Vessels.Sum(v => v.VolumeL), held.Vessels.Sum(v => v.VolumeL), 0.1);
        Assert.Equal(lineM3 * 1000, held.Totals.WaterL - held.Vessels.Sum(v => v.VolumeL), 1e-6);
    }

    [Fact]
    public void A_pipe_that_ends_under_water_siphons_the_tank_back_down_to_its_end_unless_a_check_valve_holds()
    {
        string pump = "curve = [[\"0 L/min\", \"3.6 m\"], [\"60 L/min\", \"2.5 m\"], [\"95 L/min\", \"1.2 m\"]]\nto = \"tank\"\n"
            + "pipe = { length = \"3 m\", diameter = \"32 mm\", end-height = \"300 mm\" }\ncheck-valve = ";
        var options = new ForecastOptions { Days = 1, EvaporationMmPerDay = 0, PumpsDieAtS = 3600 };
        var free = WaterForecaster.Run(Read(Looped(pump + "false")), options);
        var held = WaterForecaster.Run(Read(Looped(pump + "true")), options);

        Assert.Equal(0.3, free.Vessels[1].EndM, 5e-3);
        Assert.Equal(0.5, held.Vessels[1].EndM, 2e-3);
    }

    [Fact]
    public void A_rim_spills_to_the_vessel_it_names()
    {
        var place = Read(Looped("rate = \"200 L/min\"\nto = \"tank\"").Replace("rim = \"700 mm\"", "rim = \"560 mm\"", StringComparison.Ordinal).Replace("spills-to = \"ground\"", "spills-to = \"second\"", StringComparison.Ordinal));
        var forecast = WaterForecaster.Run(place, new ForecastOptions { Days = 0.1, EvaporationMmPerDay = 0 });

        Assert.True(forecast.Vessels[1].SpilledL > 10, $"{forecast.Vessels[1]}");
        Assert.Equal(0, forecast.Totals.SpilledL);
        Assert.InRange(Math.Abs(forecast.Totals.BalanceL), 0, 1e-9);
    }

    internal static PlaceDescription Read(string toml)
    {
        var read = PlaceFile.Read(toml, "place.toml", PlaceNeeds.Forecast);
        Assert.True(read.Problems.Count == 0, string.Join('\n', read.Problems));
        return read.Place!;
    }

    internal static string Looped(string pump) =>
        $$"""
        [[vessel]]
        id = "sump"
        kind = "sump"
        footprint = "0.6 m2"
        rim = "800 mm"
        floor-height = "0 m"
        water-height = "500 mm"
        [[vessel]]
        id = "tank"
        kind = "fish-tank"
        footprint = "1.5 m2"
        rim = "700 mm"
        floor-height = "1.2 m"
        spills-to = "ground"
        outlet = { kind = "standpipe", height = "500 mm", diameter = "50 mm", to = "sump" }
        [[vessel]]
        id = "second"
        kind = "trough"
        footprint = "1 m2"
        rim = "300 mm"
        floor-height = "1.2 m"
        outlet = { kind = "standpipe", height = "150 mm", diameter = "50 mm", to = "sump" }
        [[equipment]]
        id = "pump"
        kind = "pump"
        from = "sump"
        {{pump}}
        """;
}
