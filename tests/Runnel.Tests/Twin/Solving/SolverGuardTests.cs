using Runnel.Twin.Solving;

namespace Runnel.Tests.Twin.Solving;

public class SolverGuardTests
{
    private static readonly double[] One = [1.0];

    [Fact]
    public void The_explicit_method_refuses_what_is_stiff_early_and_automatic_goes_over_to_the_implicit_one()
    {
        var plain = new OdeSolver(ReferenceProblems.Of("prothero"), new SolverOptions { Method = SteppingMethod.Explicit });
        plain.Start(0, One);
        var refused = plain.AdvanceTo(10);
        Assert.Equal(StopReason.Stiff, refused.Stop);
        Assert.True(refused.IsStiff);
        Assert.InRange(refused.Statistics.Steps, 15, 2000);

        var automatic = new OdeSolver(ReferenceProblems.Of("prothero"));
        automatic.Start(0, One);
        var done = automatic.AdvanceTo(10);
        Assert.Equal((StopReason.Reached, true), (done.Stop, done.IsStiff));
        Assert.InRange(done.Statistics.Steps, 15, 3000);
    }

    [Theory]
    [InlineData(SteppingMethod.Explicit)]
    [InlineData(SteppingMethod.Stiff)]
    public void A_solution_that_runs_away_stops_just_before_its_pole(SteppingMethod method)
    {
        var solver = new OdeSolver(new MadeSystem(1, (_, y, f) => f[0] = y[0] * y[0]), new SolverOptions { Method = method });
        solver.Start(0, One);
        var result = solver.AdvanceTo(2);

        Assert.Contains(result.Stop, (StopReason[])[StopReason.StepTooShort, StopReason.NotANumber]);
        Assert.Equal(1, result.Time, 1e-4);
        Assert.True(double.IsFinite(solver.State[0]));
    }

    [Theory]
    [InlineData(SteppingMethod.Explicit)]
    [InlineData(SteppingMethod.Stiff)]
    public void A_rate_that_is_no_number_is_named_by_its_equation_and_the_state_stays_good(SteppingMethod method)
    {
        var solver = new OdeSolver(new MadeSystem(2, (_, y, f) => (f[0], f[1]) = (1, y[0] < 3 ? 0 : double.NaN)), new SolverOptions { Method = method });
        solver.Start(0, [0, 5]);
        var result = solver.AdvanceTo(10);

        Assert.Equal((StopReason.NotANumber, 1), (result.Stop, result.Index));
        Assert.Equal(3, result.Time, 1e-6);
        Assert.Equal(5, solver.State[1], 1e-9);

        solver.Start(0, [4, 5]);
        Assert.Equal((StopReason.NotANumber, 1), (solver.AdvanceTo(10).Stop, solver.AdvanceTo(10).Index));
    }

    [Theory]
    [InlineData(SteppingMethod.Explicit)]
    [InlineData(SteppingMethod.Stiff)]
    public void A_jump_in_the_rates_costs_short_steps_and_nothing_else(SteppingMethod method)
    {
        var solver = new OdeSolver(new MadeSystem(1, (t, _, f) => f[0] = t < 1 ? 1 : -1), new SolverOptions { Method = method });
        solver.Start(0, [0.0]);

        Assert.Equal(StopReason.Reached, solver.AdvanceTo(2).Stop);
        Assert.Equal(0, solver.State[0], 1e-4);
        Assert.InRange(solver.Statistics.Steps, 3, 300);
    }

    [Fact]
    public void Too_many_steps_are_told_and_can_be_gone_on_from()
    {
        var solver = new OdeSolver(ReferenceProblems.Of("lotka"), new SolverOptions { Method = SteppingMethod.Explicit, MostSteps = 10 });
        solver.Start(0, [1.8, 1.8]);

        Assert.Equal((StopReason.TooManySteps, 10), (solver.AdvanceTo(30).Stop, solver.Statistics.Steps));
        while (solver.AdvanceTo(30).Stop == StopReason.TooManySteps)
        {
        }

        Assert.Equal(0.19372088456858053, solver.State[0], 1e-4);
    }

    [Fact]
    public void Two_switches_that_throw_each_other_back_are_told_as_chattering()
    {
        double flow = 1;
        var level = new MadeSystem(
            1, (_, _, f) => f[0] = flow, (_, y, g) => (g[0], g[1]) = (y[0] - 1, y[0] - 1), [EventDirection.Rising, EventDirection.Falling],
            (_, _, _) =>
            {
                flow = -flow;
                return EventOutcome.Changed;
            });
        var solver = new OdeSolver(level, new SolverOptions { Method = SteppingMethod.Explicit });
        solver.Start(0, [0.0]);
        var result = solver.AdvanceTo(10);

        Assert.Equal(StopReason.Chattering, result.Stop);
        Assert.Equal(1, result.Time, 1e-6);
    }

    [Theory]
    [InlineData(SteppingMethod.Explicit)]
    [InlineData(SteppingMethod.Stiff)]
    public void Nothing_is_allocated_after_the_start(SteppingMethod method)
    {
        bool up = false;
        var system = new MadeSystem(
            3, (t, y, f) => (f[0], f[1], f[2]) = (y[1], -y[0], Math.Sin(t)), (_, y, g) => g[0] = y[0], [EventDirection.Either], (_, _, _) => EventOutcome.Changed);
        system.Told.Capacity = 10_000;
        var solver = new OdeSolver(system, new SolverOptions { Method = method, ChatterGap = 1e-12 });
        solver.Start(0, [0, 1, 0]);
        solver.AdvanceTo(20, _ => up = !up);
        Action<OdeSolver> watch = _ => up = !up;
        long before = GC.GetAllocatedBytesForCurrentThread();
        solver.AdvanceTo(2000, watch);

        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1000);
        Assert.True(solver.Statistics.Steps > 1000);
    }

    [Fact]
    public void A_banded_Jacobian_gives_the_same_answer_with_fewer_rates()
    {
        // Heat along a rod of 40 parts, one end heated: stiff, and each part touches its neighbours only.
        void Rod(double t, ReadOnlySpan<double> y, Span<double> f)
        {
            for (int i = 0; i < 40; i++)
            {
                double left = i == 0 ? Math.Sin(t) : y[i - 1], right = i == 39 ? 0 : y[i + 1];
                f[i] = 1600 * (left - (2 * y[i]) + right);
            }
        }

        var options = new SolverOptions { Method = SteppingMethod.Stiff, RelativeTolerance = 1e-8, AbsoluteTolerance = 1e-10 };
        var full = new OdeSolver(new MadeSystem(40, Rod), options);
        var banded = new OdeSolver(new MadeSystem(40, Rod, band: new Band(1, 1)), options);
        full.Start(0, new double[40]);
        banded.Start(0, new double[40]);
        full.AdvanceTo(5);
        banded.AdvanceTo(5);

        for (int i = 0; i < 40; i++) Assert.Equal(full.State[i], banded.State[i], 1e-8);
        Assert.True(banded.Statistics.RateCalls < full.Statistics.RateCalls);
    }

    [Fact]
    public void Bad_input_is_refused_with_its_name()
    {
        var system = ReferenceProblems.Of("lotka");
        Assert.Throws<ArgumentOutOfRangeException>(() => new OdeSolver(system, new SolverOptions { RelativeTolerance = double.NaN }));
        Assert.Throws<ArgumentOutOfRangeException>(() => new OdeSolver(system, new SolverOptions { AbsoluteTolerance = 0 }));
        Assert.Throws<ArgumentException>(() => new OdeSolver(system, new SolverOptions { AbsoluteTolerances = [1] }));
        var solver = new OdeSolver(system);
        Assert.Throws<InvalidOperationException>(() => solver.AdvanceTo(1));
        Assert.Throws<ArgumentException>(() => solver.Start(0, [1]));
        Assert.Throws<ArgumentException>(() => solver.Start(0, [1, double.NaN]));
        solver.Start(5, [1, 1]);
        Assert.Throws<ArgumentOutOfRangeException>(() => solver.AdvanceTo(4));
    }
}
