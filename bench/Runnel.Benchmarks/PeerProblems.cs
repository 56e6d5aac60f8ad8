using Runnel.Twin.Solving;

namespace Runnel.Benchmarks;

/// <summary>The problems that our solver and its peers solve side by side; Peers/ holds the same equations in C and R.</summary>
internal sealed class PeerProblem(string name, double end, double[] start, bool isStiff, double absolute) : OdeSystem(start.Length)
{
    public static IReadOnlyList<PeerProblem> All { get; } =
    [
        new("robertson", 4e7, [1, 0, 0], true, 1e-14), new("vanderpol", 2000, [2, 0], true, 1e-10),
        new("hires", 321.8122, [1, 0, 0, 0, 0, 0, 0, 0.0057], true, 1e-12), new("brusselator", 20, [1.5, 3], false, 1e-10),
        new("lotka", 30, [1.8, 1.8], false, 1e-10), new("tanks", 3600, [0.5, 0.5, 0.5, 0.5, 0.5, 0.5], false, 1e-10),
    ];

    public string Name { get; } = name;

    public double End { get; } = end;

    public double[] Start { get; } = start;

    public bool IsStiff { get; } = isStiff;

    public double Absolute { get; } = absolute;

    public override void Rates(double time, ReadOnlySpan<double> y, Span<double> f)
    {
        switch (Name)
        {
            case "robertson":
                double fast = 1e4 * y[1] * y[2], slow = 0.04 * y[0], square = 3e7 * y[1] * y[1];
                (f[0], f[1], f[2]) = (fast - slow, slow - fast - square, square);
                break;
            case "vanderpol":
                (f[0], f[1]) = (y[1], (1000 * (1 - (y[0] * y[0])) * y[1]) - y[0]);
                break;
            case "hires":
                f[0] = (-1.71 * y[0]) + (0.43 * y[1]) + (8.32 * y[2]) + 0.0007;
                f[1] = (1.71 * y[0]) - (8.75 * y[1]);
                f[2] = (-10.03 * y[2]) + (0.43 * y[3]) + (0.035 * y[4]);
                f[3] = (8.32 * y[1]) + (1.71 * y[2]) - (1.12 * y[3]);
                f[4] = (-1.745 * y[4]) + (0.43 * y[5]) + (0.43 * y[6]);
                f[5] = (-280 * y[5] * y[7]) + (0.69 * y[3]) + (1.71 * y[4]) - (0.43 * y[5]) + (0.69 * y[6]);
                f[6] = (280 * y[5] * y[7]) - (1.81 * y[6]);
                f[7] = -f[6];
                break;
            case "brusselator":
                (f[0], f[1]) = (1 + (y[0] * y[0] * y[1]) - (4 * y[0]), (3 * y[0]) - (y[0] * y[0] * y[1]));
                break;
            case "lotka":
                (f[0], f[1]) = ((2.0 / 3 * y[0]) - (4.0 / 3 * y[0] * y[1]), (y[0] * y[1]) - y[1]);
                break;
            default:
                double into = 0.001;
                for (int i = 0; i < 5; i++)
                {
                    double h = y[i] - 0.5, outflow = h > 0 ? 0.29 * h * Math.Sqrt(h) : 0;
                    f[i] = (into - outflow) / (0.2 + (0.2 * i));
                    into = outflow;
                }

                f[5] = (into - 0.001) / 0.8;
                break;
        }
    }
}
