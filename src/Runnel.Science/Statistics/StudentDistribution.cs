namespace Runnel.Science.Statistics;

/// <summary>Student's t distribution.</summary>
public static class StudentDistribution
{
    /// <summary>Probability of a smaller value.</summary>
    /// <param name="t">Value.</param>
    /// <param name="degreesOfFreedom">Degrees of freedom, above 0.</param>
    /// <returns>Probability, 0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Abramowitz and Stegun 26.7.1, through the incomplete beta function.</remarks>
    public static double Cdf(double t, double degreesOfFreedom)
    {
        Require.Finite(t);
        Require.Positive(degreesOfFreedom);
        double tail = SpecialFunctions.Beta(degreesOfFreedom / (degreesOfFreedom + (t * t)), degreesOfFreedom / 2, 0.5) / 2;
        return t < 0 ? tail : 1 - tail;
    }

    /// <summary>Value below which a share of the distribution lies.</summary>
    /// <param name="probability">Share, above 0 and below 1.</param>
    /// <param name="degreesOfFreedom">Degrees of freedom, above 0.</param>
    /// <returns>Quantile.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Bisection on the distribution, on the logarithm of t where tails are long.</remarks>
    public static double Quantile(double probability, double degreesOfFreedom)
    {
        Require.InRange(probability, 1e-300, 1 - 1e-16);
        Require.Positive(degreesOfFreedom);
        if (probability > 0.5) return -Quantile(1 - probability, degreesOfFreedom);
        if (probability == 0.5) return 0;
        double near = 0, far = 1;
        while (Cdf(-far, degreesOfFreedom) > probability && far < 1e300)
        {
            near = far;
            far *= 2;
        }

        for (int i = 0; i < 200 && far - near > 1e-15 * far; i++)
        {
            double middle = (near + far) / 2;
            if (Cdf(-middle, degreesOfFreedom) > probability) near = middle;
            else far = middle;
        }

        return -(near + far) / 2;
    }
}
