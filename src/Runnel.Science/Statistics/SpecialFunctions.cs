namespace Runnel.Science.Statistics;

/// <summary>Incomplete gamma and beta functions, which the distributions rest on.</summary>
/// <remarks>Abramowitz and Stegun (1964), chapters 6 and 26: series and continued fractions (evaluated after Lentz).</remarks>
public static class SpecialFunctions
{
    private const double Tiny = 1e-300;

    /// <summary>Natural logarithm of the gamma function.</summary>
    /// <param name="x">Argument, above 0.</param>
    /// <returns>ln gamma(x), to about 1e-14.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The argument is NaN, 0 or negative.</exception>
    /// <remarks>Stirling's series (Abramowitz and Stegun 6.1.41) after raising the argument above 12.</remarks>
    public static double LogGamma(double x)
    {
        Require.Positive(x);
        double raised = 1;
        while (x < 12)
        {
            raised *= x;
            x++;
        }

        double inverse = 1 / x, square = inverse * inverse;
        double series = inverse * ((1.0 / 12) - (square * ((1.0 / 360) - (square * ((1.0 / 1260)
            - (square * ((1.0 / 1680) - (square * ((1.0 / 1188) - (square * (691.0 / 360360)))))))))));
        return ((x - 0.5) * Math.Log(x)) - x + (0.5 * Math.Log(2 * Math.PI)) + series - Math.Log(raised);
    }

    /// <summary>Regularised upper incomplete gamma function Q(a, x).</summary>
    /// <param name="a">Shape, above 0.</param>
    /// <param name="x">Lower limit, 0 or more.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument is NaN or out of range.</exception>
    public static double UpperGamma(double a, double x)
    {
        Require.Positive(a);
        if (!(x >= 0)) throw new ArgumentOutOfRangeException(nameof(x), x, "x must be 0 or more");
        if (x == 0) return 1;
        if (double.IsPositiveInfinity(x)) return 0;
        double front = Math.Exp((a * Math.Log(x)) - x - LogGamma(a));
        if (x < a + 1)
        {
            double term = 1 / a, sum = term;
            for (int n = 1; n < 1000 && Math.Abs(term) > Math.Abs(sum) * 1e-17; n++)
            {
                term *= x / (a + n);
                sum += term;
            }

            return 1 - (front * sum);
        }

        double b = x + 1 - a, c = 1 / Tiny, d = 1 / b, fraction = d;
        for (int n = 1; n < 1000; n++)
        {
            double numerator = -n * (n - a);
            b += 2;
            d = 1 / NotZero((numerator * d) + b);
            c = NotZero(b + (numerator / c));
            fraction *= d * c;
            if (Math.Abs((d * c) - 1) < 1e-16) break;
        }

        return front * fraction;
    }

    /// <summary>Regularised incomplete beta function.</summary>
    /// <param name="x">Upper limit, 0 to 1.</param>
    /// <param name="a">First shape, above 0.</param>
    /// <param name="b">Second shape, above 0.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument is NaN or out of range.</exception>
    public static double Beta(double x, double a, double b)
    {
        Require.InRange(x, 0, 1);
        Require.Positive(a);
        Require.Positive(b);
        if (x is 0 or 1) return x;
        double front = Math.Exp(LogGamma(a + b) - LogGamma(a) - LogGamma(b) + (a * Math.Log(x)) + (b * double.LogP1(-x)));
        return x < (a + 1) / (a + b + 2) ? front * BetaFraction(x, a, b) / a : 1 - (front * BetaFraction(1 - x, b, a) / b);
    }

    private static double BetaFraction(double x, double a, double b)
    {
        double c = 1, d = 1 / NotZero(1 - ((a + b) * x / (a + 1))), fraction = d;
        for (int n = 1; n < 1000; n++)
        {
            double even = n * (b - n) * x / ((a + (2 * n) - 1) * (a + (2 * n)));
            d = 1 / NotZero(1 + (even * d));
            c = NotZero(1 + (even / c));
            fraction *= d * c;
            double odd = -(a + n) * (a + b + n) * x / ((a + (2 * n)) * (a + (2 * n) + 1));
            d = 1 / NotZero(1 + (odd * d));
            c = NotZero(1 + (odd / c));
            fraction *= d * c;
            if (Math.Abs((d * c) - 1) < 1e-16) break;
        }

        return fraction;
    }

    private static double NotZero(double value) => Math.Abs(value) < Tiny ? Tiny : value;
}
