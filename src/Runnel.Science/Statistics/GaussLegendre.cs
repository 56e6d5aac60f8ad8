namespace Runnel.Science.Statistics;

/// <summary>Gauss-Legendre quadrature.</summary>
/// <remarks>Abramowitz and Stegun (1964) 25.4.29; nodes by Newton steps on the Legendre recurrence.</remarks>
internal static class GaussLegendre
{
    /// <summary>Nodes and weights on an interval.</summary>
    /// <param name="from">Lower end.</param>
    /// <param name="to">Upper end.</param>
    /// <param name="nodes">Receives the nodes, ascending.</param>
    /// <param name="weights">Receives the weights; same length.</param>
    public static void Fill(double from, double to, Span<double> nodes, Span<double> weights)
    {
        int n = nodes.Length;
        double half = (to - from) / 2, middle = (to + from) / 2;
        for (int i = 0; i < (n + 1) / 2; i++)
        {
            double x = Math.Cos(Math.PI * (i + 0.75) / (n + 0.5)), slope = 0;
            for (int step = 0; step < 100; step++)
            {
                double p = 1, previous = 0;
                for (int k = 0; k < n; k++) (p, previous) = ((((2 * k) + 1) * x * p - (k * previous)) / (k + 1), p);
                slope = n * ((x * p) - previous) / ((x * x) - 1);
                double change = p / slope;
                x -= change;
                if (Math.Abs(change) < 1e-15) break;
            }

            double weight = 2 * half / ((1 - (x * x)) * slope * slope);
            nodes[i] = middle - (half * x);
            nodes[n - 1 - i] = middle + (half * x);
            weights[i] = weights[n - 1 - i] = weight;
        }
    }
}
