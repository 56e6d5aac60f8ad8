using System.Text.Json;
using Runnel.Twin.Solving;

namespace Runnel.Tests.Twin.Solving;

// Times of events against closed forms and printed runs; Published/events.json names the source of each.
public class EventTimeTests
{
    public static TheoryData<SteppingMethod> Methods => [SteppingMethod.Explicit, SteppingMethod.Stiff];

    private static SolverOptions Careful(SteppingMethod method) => new() { Method = method, RelativeTolerance = 1e-12, AbsoluteTolerance = 1e-13 };

    [Theory]
    [InlineData("bouncing-ball-1", SteppingMethod.Explicit)]
    [InlineData("bouncing-ball-3", SteppingMethod.Explicit)]
    [InlineData("bouncing-ball-1", SteppingMethod.Stiff)]
    [InlineData("bouncing-ball-3", SteppingMethod.Stiff)]
    public void A_ball_bounces_at_the_times_of_the_closed_form(string name, SteppingMethod method)
    {
        var (parameters, expected) = Read(name);
        double restitution = parameters.GetProperty("restitution").GetDouble();
        List<double> speeds = [];
        var ball = Ball(parameters, (t, y, _) =>
        {
            speeds.Add(-y[1]);
            y[1] *= -restitution;
            return EventOutcome.Changed;
        });
        double[] times = Numbers(expected, "bounce_times_s");
        var solver = new OdeSolver(ball, Careful(method));
        solver.Start(0, [parameters.GetProperty("h0_m").GetDouble(), 0]);
        solver.AdvanceTo(times[^1] + 0.01);

        Same(times, [.. ball.Told.Select(e => e.Time)], 1e-8);
        Same(Numbers(expected, "impact_speeds_m_s"), speeds, 1e-8);
    }

    // Rounding of the value is greater than what it moves by within the tolerance of the search.
    [Theory, MemberData(nameof(Methods))]
    public void A_value_that_passes_zero_so_slowly_that_rounding_hides_it_is_found_all_the_same(SteppingMethod method)
    {
        for (int i = 0; i < 200; i++)
        {
            double level = 6.5 + (0.001 * i), rate = 1e-4 * (1 + (0.37 * i));
            var sinking = new MadeSystem(
                1, (_, y, f) => f[0] = -rate * (y[0] - 5), (_, y, v) => v[0] = y[0] - level, [EventDirection.Falling], (_, _, _) => EventOutcome.Stop);
            var solver = new OdeSolver(sinking, new SolverOptions { Method = method, RelativeTolerance = 1e-5, AbsoluteTolerance = 1e-5 });
            solver.Start(0, [8]);
            var result = solver.AdvanceTo(1e5);
            Assert.Equal(StopReason.Event, result.Stop);
            Assert.Equal(Math.Log(3 / (level - 5)) / rate, result.Time, 2e-3 / rate);
        }
    }

    [Theory, MemberData(nameof(Methods))]
    public void A_ball_that_bounces_ever_faster_is_stopped_near_its_last_bounce_as_chattering(SteppingMethod method)
    {
        var (parameters, expected) = Read("bouncing-ball-1");
        var ball = Ball(parameters, (_, y, _) =>
        {
            y[1] *= -0.8;
            return EventOutcome.Changed;
        });
        var solver = new OdeSolver(ball, Careful(method));
        solver.Start(0, [10, 0]);
        var result = solver.AdvanceTo(20);

        Assert.Equal((StopReason.Chattering, 0), (result.Stop, result.Index));
        Assert.Equal(expected.GetProperty("zeno_time_s").GetDouble(), result.Time, 1e-4);
    }

    [Theory]
    [InlineData("tank-level-switches-1", SteppingMethod.Explicit)]
    [InlineData("tank-level-switches-2", SteppingMethod.Explicit)]
    [InlineData("tank-level-switches-1", SteppingMethod.Stiff)]
    [InlineData("tank-level-switches-2", SteppingMethod.Stiff)]
    [InlineData("tank-level-switches-2", SteppingMethod.Automatic)]
    public void Level_switches_act_at_the_times_of_the_closed_form(string name, SteppingMethod method)
    {
        var (p, expected) = Read(name);
        double area = p.GetProperty("area_m2").GetDouble(), inflow = p.GetProperty("inflow_m3_s").GetDouble(), c = p.GetProperty("c_m2_5_s").GetDouble();
        double low = p.GetProperty("low_m").GetDouble(), high = p.GetProperty("high_m").GetDouble();
        bool pumps = true;
        var tank = new MadeSystem(
            1, (_, y, f) => f[0] = ((pumps ? inflow : 0) - (c * Math.Sqrt(y[0]))) / area,
            (_, y, g) => (g[0], g[1]) = (y[0] - high, y[0] - low), [EventDirection.Rising, EventDirection.Falling],
            (_, _, events) =>
            {
                pumps = events[0] == 1;
                return EventOutcome.Changed;
            });
        double[] times = [.. expected.GetProperty("events").EnumerateArray().Select(e => e.GetProperty("t_s").GetDouble())];
        int[] which = [.. expected.GetProperty("events").EnumerateArray().Select(e => e.GetProperty("event").GetString() == "high" ? 0 : 1)];
        var solver = new OdeSolver(tank, Careful(method) with { RelativeTolerance = 1e-10, AbsoluteTolerance = 1e-11 });
        solver.Start(0, [low]);
        solver.AdvanceTo(times[^1] + 1);

        Same(times, [.. tank.Told.Select(e => e.Time)], 1e-5);
        Assert.Equal(which, tank.Told.Select(e => e.Event));
    }

    [Theory, MemberData(nameof(Methods))]
    public void At_everyday_tolerance_a_level_switch_is_still_met_to_a_millisecond(SteppingMethod method)
    {
        var (_, expected) = Read("tank-level-switches-1");
        bool pumps = true;
        var tank = new MadeSystem(
            1, (_, y, f) => f[0] = ((pumps ? 0.0009 : 0) - (0.00045 * Math.Sqrt(y[0]))) / 0.5,
            (_, y, g) => (g[0], g[1]) = (y[0] - 0.8, y[0] - 0.3), [EventDirection.Rising, EventDirection.Falling],
            (_, _, events) =>
            {
                pumps = events[0] == 1;
                return EventOutcome.Changed;
            });
        var solver = new OdeSolver(tank, new SolverOptions { Method = method, RelativeTolerance = 1e-6, AbsoluteTolerance = 1e-7 });
        solver.Start(0, [0.3]);
        solver.AdvanceTo(1300);

        Assert.Equal(expected.GetProperty("rise_s").GetDouble(), tank.Told[0].Time, 1e-3);
        Assert.Equal(expected.GetProperty("fall_s").GetDouble(), tank.Told[1].Time - tank.Told[0].Time, 1e-3);
    }

    // Source and output of the example cvRocket_dns of SUNDIALS (LLNL).
    [Theory, MemberData(nameof(Methods))]
    public void A_rocket_is_cut_off_and_turns_where_it_should(SteppingMethod method)
    {
        var (_, expected) = Read("rocket-cutoff-and-apex");
        bool burns = true;
        double cutoff = 0, cutoffSpeed = 0;
        var rocket = new MadeSystem(
            2,
            (t, y, f) =>
            {
                f[0] = y[1];
                f[1] = burns ? (2200 / (11 - (0.1 * t))) - (0.3 * y[1]) - 32 : (-0.3 * y[1]) - 32;
            },
            (t, y, g) => (g[0], g[1], g[2]) = (y[0] - 4000, 1 - (0.1 * t), y[1]), [EventDirection.Rising, EventDirection.Falling, EventDirection.Falling],
            (t, y, events) =>
            {
                if (events[0] == 2) return EventOutcome.Stop;
                if (!burns) return EventOutcome.Continue;
                (burns, cutoff, cutoffSpeed) = (false, t, y[1]);
                return EventOutcome.Changed;
            });
        var solver = new OdeSolver(rocket, Careful(method));
        solver.Start(0, [0, 0]);
        var result = solver.AdvanceTo(70);

        Assert.Equal((StopReason.Event, 2), (result.Stop, result.Index));
        Assert.Equal(expected.GetProperty("cutoff_time").GetDouble(), cutoff, 1e-4);
        Assert.Equal(expected.GetProperty("cutoff_speed").GetDouble(), cutoffSpeed, 1e-4);
        Assert.Equal(expected.GetProperty("apex_time").GetDouble(), result.Time, 1e-4);
        Assert.Equal(expected.GetProperty("apex_height").GetDouble(), solver.State[0], 1e-4);
    }

    [Fact]
    public void Roots_of_stiff_kinetics_lie_at_the_refined_times()
    {
        var (_, expected) = Read("robertson-roots");
        var kinetics = new MadeSystem(
            3, (t, y, f) => ReferenceProblems.Of("robertson").Rates(t, y, f), (_, y, g) => (g[0], g[1]) = (y[0] - 1e-4, y[2] - 0.01),
            [EventDirection.Falling, EventDirection.Rising]);
        var solver = new OdeSolver(kinetics, new SolverOptions { Method = SteppingMethod.Stiff, RelativeTolerance = 1e-9, AbsoluteTolerances = [1e-12, 1e-16, 1e-12] });
        solver.Start(0, [1, 0, 0]);
        solver.AdvanceTo(4e7);

        Assert.Equal([1, 0], kinetics.Told.Select(e => e.Event));
        double early = expected.GetProperty("t_y3").GetDouble(), late = expected.GetProperty("t_y1").GetDouble();
        Assert.Equal(early, kinetics.Told[0].Time, 1e-6 * early);
        Assert.Equal(late, kinetics.Told[1].Time, 1e-6 * late);
    }

    [Theory, MemberData(nameof(Methods))]
    public void Zeros_of_the_sine_are_found(SteppingMethod method)
    {
        var (_, expected) = Read("sine-crossings");
        double[] zeros = Numbers(expected, "zero_times");
        var sine = new MadeSystem(2, (_, y, f) => (f[0], f[1]) = (y[1], -y[0]), (_, y, g) => g[0] = y[0], [EventDirection.Either]);
        var solver = new OdeSolver(sine, Careful(method));
        solver.Start(0, [0, 1]);
        solver.AdvanceTo(zeros[^1] + 1);

        Same(zeros, [.. sine.Told.Select(e => e.Time)], 1e-9);
    }

    [Theory, MemberData(nameof(Methods))]
    public void A_touch_without_passing_is_no_event_and_a_short_visit_is_two(SteppingMethod method)
    {
        double depth = 0;
        var sine = new MadeSystem(
            1, (t, _, f) => f[0] = -Math.Cos(t), (_, y, g) => g[0] = y[0] + depth, [EventDirection.Either]);
        var touching = new OdeSolver(sine, Careful(method) with { LongestStep = 0.5 });
        depth = 1e-9; // rounding must not decide
        touching.Start(0, [1]);
        touching.AdvanceTo(3);
        Assert.Empty(sine.Told);

        depth = -1e-7; // 1 - sin t - 1e-7: below zero for 0.9 ms, within steps of half a second
        var passing = new OdeSolver(sine, Careful(method) with { LongestStep = 0.5 });
        passing.Start(0, [1]);
        passing.AdvanceTo(3);
        double half = Math.Acos(1 - 1e-7);
        Same([(Math.PI / 2) - half, (Math.PI / 2) + half], [.. sine.Told.Select(e => e.Time)], 1e-6);
    }

    [Theory, MemberData(nameof(Methods))]
    public void Events_at_the_same_time_are_told_together_in_the_order_of_their_numbers(SteppingMethod method)
    {
        var (_, expected) = Read("simultaneous-events");
        int calls = 0;
        var level = new MadeSystem(
            1, (_, _, f) => f[0] = 1, (_, y, g) => (g[0], g[1], g[2]) = (y[0] - 100, 2 * (y[0] - 100), y[0] - 150),
            [EventDirection.Rising, EventDirection.Rising, EventDirection.Rising],
            (_, _, events) =>
            {
                calls++;
                return EventOutcome.Continue;
            });
        var solver = new OdeSolver(level, Careful(method));
        solver.Start(0, [0.0]);
        solver.AdvanceTo(200);

        Assert.Equal(2, calls);
        Assert.Equal([0, 1, 2], level.Told.Select(e => e.Event));
        Assert.Equal(level.Told[0].Time, level.Told[1].Time);
        Assert.Equal(expected.GetProperty("t_s").GetDouble(), level.Told[0].Time, 1e-9);
    }

    [Theory, MemberData(nameof(Methods))]
    public void A_thermostat_keeps_the_times_of_the_closed_form(SteppingMethod method)
    {
        var (_, expected) = Read("hysteresis-heater");
        bool on = false;
        var water = new MadeSystem(
            1, (_, y, f) => f[0] = ((15 - y[0]) / 300) + (on ? 0.06 : 0), (_, y, g) => (g[0], g[1]) = (y[0] - 24, y[0] - 25),
            [EventDirection.Falling, EventDirection.Rising],
            (_, _, events) =>
            {
                on = events[0] == 0;
                return EventOutcome.Changed;
            });
        var solver = new OdeSolver(water, Careful(method));
        solver.Start(0, [24.5]);
        solver.AdvanceTo(90);

        double first = expected.GetProperty("first_on_min").GetDouble(), second = expected.GetProperty("second_on_min").GetDouble();
        Same([first, first + expected.GetProperty("on_duration_min").GetDouble(), second], [.. water.Told.Select(e => e.Time)], 1e-6);
    }

    [Theory, MemberData(nameof(Methods))]
    public void A_limit_of_time_is_an_event_like_any_other(SteppingMethod method)
    {
        var sump = new MadeSystem(
            1, (_, _, f) => f[0] = 0.1, (t, y, g) => (g[0], g[1]) = (t - 30, y[0] - 50), [EventDirection.Rising, EventDirection.Rising],
            (_, _, _) => EventOutcome.Stop);
        var solver = new OdeSolver(sump, Careful(method));
        solver.Start(0, [0.0]);

        Assert.Equal(30, solver.AdvanceTo(100).Time, 1e-9);
        Assert.Equal(100, solver.AdvanceTo(100).Time, 1e-9); // and goes on when asked to
    }

    [Fact]
    public void A_wrong_way_and_a_start_on_the_very_zero_are_no_events()
    {
        var rising = new MadeSystem(1, (t, _, f) => f[0] = Math.Cos(t), (_, y, g) => g[0] = y[0], [EventDirection.Rising]);
        var solver = new OdeSolver(rising, Careful(SteppingMethod.Explicit));
        solver.Start(0, [0.0]);
        solver.AdvanceTo(7);

        Same([2 * Math.PI], [.. rising.Told.Select(e => e.Time)], 1e-9);
    }

    private static MadeSystem Ball(JsonElement parameters, Answer answer)
    {
        double gravity = parameters.GetProperty("gravity").GetDouble();
        return new(2, (_, y, f) => (f[0], f[1]) = (y[1], -gravity), (_, y, g) => g[0] = y[0], [EventDirection.Falling], answer);
    }

    private static void Same(double[] expected, List<double> found, double tolerance)
    {
        Assert.True(expected.Length == found.Count, $"{expected.Length} expected, found {found.Count}: {string.Join(", ", found)}");
        for (int i = 0; i < expected.Length; i++) Assert.Equal(expected[i], found[i], tolerance);
    }

    private static double[] Numbers(JsonElement element, string key) => [.. element.GetProperty(key).EnumerateArray().Select(v => v.GetDouble())];

    private static (JsonElement Parameters, JsonElement Expected) Read(string name)
    {
        var document = JsonDocument.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Published", "events.json")));
        var found = document.RootElement.GetProperty("cases").EnumerateArray().Single(c => c.GetProperty("case").GetString() == name);
        return (found.TryGetProperty("params", out var parameters) ? parameters : default, found.GetProperty("expected"));
    }
}
