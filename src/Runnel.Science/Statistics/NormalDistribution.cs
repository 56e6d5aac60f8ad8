namespace Runnel.Science.Statistics;

/// <summary>The standard normal distribution.</summary>
public static class NormalDistribution
{
    /// <summary>Density at a value.</summary>
    /// <param name="z">Value in standard deviations from the mean.</param>
    /// <returns>Density.</returns>
    public static double Density(double z) => Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI);

    /// <summary>Logarithm of the density of a normal law with a mean of nought.</summary>
    /// <param name="x">Value.</param>
    /// <param name="sd">Standard deviation, above 0, in the value's unit.</param>
    /// <returns>Natural logarithm, of a density for one unit of the value.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite, or the deviation not above 0 and finite.</exception>
    public static double LogDensity(double x, double sd)
    {
        Require.Finite(x);
        Require.Positive(sd);
        return -(0.5 * x * x / (sd * sd)) - Math.Log(sd * Math.Sqrt(2 * Math.PI));
    }

    /// <summary>Probability of a smaller value.</summary>
    /// <param name="z">Value in standard deviations from the mean.</param>
    /// <returns>Probability, 0 to 1; with full relative precision in the lower tail.</returns>
    /// <remarks>Through the incomplete gamma function: erfc(x) = Q(1/2, x²).</remarks>
    public static double Cdf(double z)
    {
        if (double.IsNaN(z)) return double.NaN;
        double tail = SpecialFunctions.UpperGamma(0.5, z * z / 2) / 2;
        return z < 0 ? tail : 1 - tail;
    }

    /// <summary>Two-sided probability of a value at least that far from the mean.</summary>
    /// <param name="z">Value in standard deviations from the mean.</param>
    /// <returns>Probability, 0 to 1.</returns>
    public static double TwoSided(double z) => double.IsNaN(z) ? double.NaN : SpecialFunctions.UpperGamma(0.5, z * z / 2);

    /// <summary>Value below which a share of the distribution lies.</summary>
    /// <param name="probability">Share, above 0 and below 1.</param>
    /// <returns>Quantile in standard deviations.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The probability is NaN or not between 0 and 1.</exception>
    /// <remarks>Rational start of Abramowitz and Stegun 26.2.23, then Halley steps on the distribution itself; good to 1e-14.</remarks>
    public static double Quantile(double probability)
    {
        Require.InRange(probability, 1e-300, 1 - 1e-16);
        if (probability > 0.5) return -Quantile(1 - probability);
        double t = Math.Sqrt(-2 * Math.Log(probability));
        double z = -(t - ((2.515517 + (t * (0.802853 + (0.010328 * t)))) / (1 + (t * (1.432788 + (t * (0.189269 + (0.001308 * t))))))));
        for (int i = 0; i < 3; i++)
        {
            double step = (Cdf(z) - probability) / Density(z);
            z -= step / (1 + (z * step / 2));
        }

        return z;
    }
}
