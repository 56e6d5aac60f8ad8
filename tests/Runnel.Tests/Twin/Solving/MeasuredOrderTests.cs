using Runnel.Twin.Solving;

namespace Runnel.Tests.Twin.Solving;

public class MeasuredOrderTests
{
    // Depends on t explicitly: a method whose stage times are wrong loses its order here, and on no autonomous problem.
    // y1 = exp(sin t), y2 = 1/(1 + t^2), y3 = y1 y2.
    private static MadeSystem TimeDependent() => new(3, (t, y, f) =>
    {
        f[0] = Math.Cos(t) * y[0];
        f[1] = -2 * t * y[1] * y[1];
        f[2] = (Math.Cos(t) - (2 * t * y[1])) * y[2];
    });

    private static double Error(double t, ReadOnlySpan<double> y)
    {
        double a = Math.Exp(Math.Sin(t)), b = 1 / (1 + (t * t));
        return Math.Max(Math.Max(Math.Abs(y[0] - a), Math.Abs(y[1] - b)), Math.Abs(y[2] - (a * b)));
    }

    [Theory]
    [InlineData(SteppingMethod.Explicit, 0.1, 5)]
    [InlineData(SteppingMethod.Stiff, 0.1, 5)]
    public void The_error_at_the_end_falls_with_the_fifth_power_of_the_step(SteppingMethod method, double step, double order)
    {
        double coarse = EndError(method, step), fine = EndError(method, step / 2), finest = EndError(method, step / 4);

        Assert.InRange(Math.Log2(coarse / fine), order - 0.4, order + 0.8);
        Assert.InRange(Math.Log2(fine / finest), order - 0.4, order + 0.8);
    }

    // Within a step: an interpolant of order 4 adds errors of the fifth power, the collocation polynomial of order 3 errors of the fourth.
    [Theory]
    [InlineData(SteppingMethod.Explicit, 0.1, 5)]
    [InlineData(SteppingMethod.Stiff, 0.1, 4)]
    public void The_error_within_steps_falls_as_the_dense_output_promises(SteppingMethod method, double step, double order)
    {
        double coarse = ErrorWithin(method, step), fine = ErrorWithin(method, step / 2);

        Assert.InRange(Math.Log2(coarse / fine), order - 0.5, order + 0.8);
    }

    // Prothero and Robinson (1974): order falls to that of the stages where the equations are stiff; an L-stable method stays accurate all the same.
    [Fact]
    public void Stiffness_does_not_spoil_the_implicit_method()
    {
        var solver = new OdeSolver(
            ReferenceProblems.Of("prothero"), new SolverOptions { Method = SteppingMethod.Stiff, FixedStep = 0.1, RelativeTolerance = 1e-10, AbsoluteTolerance = 1e-12 });
        solver.Start(0, [1.0]);
        solver.AdvanceTo(10);

        Assert.Equal(Math.Cos(10), solver.State[0], 1e-8);
        Assert.Equal(100, solver.Statistics.Steps);
    }

    // Radau IIA, order 5: Hairer and Wanner (1996), table IV.5.6. The transformed tables must give back the method's own matrix.
    [Fact]
    public void The_tables_of_the_implicit_method_multiply_out_to_its_inverse_matrix()
    {
        double r = Math.Sqrt(6);
        double[,] a =
        {
            { (88 - (7 * r)) / 360, (296 - (169 * r)) / 1800, (-2 + (3 * r)) / 225 },
            { (296 + (169 * r)) / 1800, (88 + (7 * r)) / 360, (-2 - (3 * r)) / 225 },
            { (16 - r) / 36, (16 + r) / 36, 1.0 / 9 },
        };
        double[,] t =
        {
            { StiffStepper.T11, StiffStepper.T12, StiffStepper.T13 },
            { StiffStepper.T21, StiffStepper.T22, StiffStepper.T23 },
            { StiffStepper.T31, 1, 0 },
        };
        double[,] back =
        {
            { StiffStepper.I11, StiffStepper.I12, StiffStepper.I13 }, { StiffStepper.I21, StiffStepper.I22, StiffStepper.I23 },
            { StiffStepper.I31, StiffStepper.I32, StiffStepper.I33 },
        };
        double[,] block = { { StiffStepper.Gamma, 0, 0 }, { 0, StiffStepper.Alpha, -StiffStepper.Beta }, { 0, StiffStepper.Beta, StiffStepper.Alpha } };

        var one = Times(Times(Times(t, block), back), a);

        for (int i = 0; i < 3; i++)
        {
            for (int j = 0; j < 3; j++) Assert.Equal(i == j ? 1 : 0, one[i, j], 1e-13);
        }
    }

    private static double EndError(SteppingMethod method, double step)
    {
        var solver = Solver(method, step);
        solver.AdvanceTo(4);
        return Error(4, solver.State);
    }

    private static double ErrorWithin(SteppingMethod method, double step)
    {
        var solver = Solver(method, step);
        double most = 0;
        double[] state = new double[3];
        solver.AdvanceTo(4, s =>
        {
            for (int k = 1; k < 8; k++)
            {
                double t = s.StepFrom + (k / 8.0 * (s.Time - s.StepFrom));
                s.At(t, state);
                most = Math.Max(most, Error(t, state));
            }
        });
        return most;
    }

    private static OdeSolver Solver(SteppingMethod method, double step)
    {
        var solver = new OdeSolver(
            TimeDependent(), new SolverOptions { Method = method, FixedStep = step, RelativeTolerance = 1e-13, AbsoluteTolerance = 1e-13, StopWhenStiff = false });
        solver.Start(0, [1, 1, 1]);
        return solver;
    }

    private static double[,] Times(double[,] a, double[,] b)
    {
        double[,] product = new double[3, 3];
        for (int i = 0; i < 3; i++)
        {
            for (int j = 0; j < 3; j++)
            {
                for (int k = 0; k < 3; k++) product[i, j] += a[i, k] * b[k, j];
            }
        }

        return product;
    }
}
