namespace Runnel.Tests.Twin.Solving;

/// <summary>The equations of Published/ode.json.</summary>
internal static class ReferenceProblems
{
    public static MadeSystem Of(string problem) => problem switch
    {
        "robertson" => new(3, (_, y, f) =>
        {
            double fast = 1e4 * y[1] * y[2], slow = 0.04 * y[0], square = 3e7 * y[1] * y[1];
            f[0] = fast - slow;
            f[1] = slow - fast - square;
            f[2] = square;
        }),
        "vanderpol" => new(2, (_, y, f) =>
        {
            f[0] = y[1];
            f[1] = (1000 * (1 - (y[0] * y[0])) * y[1]) - y[0];
        }),
        "hires" => new(8, Hires),
        "oregonator" => new(3, (_, y, f) =>
        {
            f[0] = 77.27 * (y[1] + (y[0] * (1 - (8.375e-6 * y[0]) - y[1])));
            f[1] = (y[2] - ((1 + y[0]) * y[1])) / 77.27;
            f[2] = 0.161 * (y[0] - y[2]);
        }),
        "brusselator" => new(2, (_, y, f) =>
        {
            f[0] = 1 + (y[0] * y[0] * y[1]) - (4 * y[0]);
            f[1] = (3 * y[0]) - (y[0] * y[0] * y[1]);
        }),
        "lotka" => new(2, (_, y, f) =>
        {
            f[0] = (2.0 / 3 * y[0]) - (4.0 / 3 * y[0] * y[1]);
            f[1] = (y[0] * y[1]) - y[1];
        }),
        "arenstorf" => new(4, Arenstorf),
        "linear-decay" => new(1, (_, y, f) => f[0] = -0.3 * y[0]),
        "prothero" => new(1, (t, y, f) => f[0] = (-1e6 * (y[0] - Math.Cos(t))) - Math.Sin(t)),
        "two-tank" => new(2, (_, y, f) =>
        {
            f[0] = 20.0 / 400 * (y[1] - y[0]);
            f[1] = (20.0 / 150 * (y[0] - y[1])) - (0.002 * (y[1] - 15));
        }),
        _ => throw new ArgumentException($"no problem {problem}", nameof(problem)),
    };

    private static void Hires(double time, ReadOnlySpan<double> y, Span<double> f)
    {
        f[0] = (-1.71 * y[0]) + (0.43 * y[1]) + (8.32 * y[2]) + 0.0007;
        f[1] = (1.71 * y[0]) - (8.75 * y[1]);
        f[2] = (-10.03 * y[2]) + (0.43 * y[3]) + (0.035 * y[4]);
        f[3] = (8.32 * y[1]) + (1.71 * y[2]) - (1.12 * y[3]);
        f[4] = (-1.745 * y[4]) + (0.43 * y[5]) + (0.43 * y[6]);
        f[5] = (-280 * y[5] * y[7]) + (0.69 * y[3]) + (1.71 * y[4]) - (0.43 * y[5]) + (0.69 * y[6]);
        f[6] = (280 * y[5] * y[7]) - (1.81 * y[6]);
        f[7] = -f[6];
    }

    private static void Arenstorf(double time, ReadOnlySpan<double> y, Span<double> f)
    {
        const double mu = 0.012277471, rest = 1 - mu;
        double a = y[0] + mu, b = y[0] - rest, d1 = Math.Pow((a * a) + (y[1] * y[1]), 1.5), d2 = Math.Pow((b * b) + (y[1] * y[1]), 1.5);
        f[0] = y[2];
        f[1] = y[3];
        f[2] = y[0] + (2 * y[3]) - (rest * a / d1) - (mu * b / d2);
        f[3] = y[1] - (2 * y[2]) - (rest * y[1] / d1) - (mu * y[1] / d2);
    }
}
