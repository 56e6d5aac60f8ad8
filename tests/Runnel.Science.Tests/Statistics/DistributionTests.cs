using MathNet.Numerics.Distributions;
using Runnel.Science.Statistics;

namespace Runnel.Science.Tests.Statistics;

// Reference: MathNet.Numerics 5.0.
public sealed class DistributionTests
{
    [Fact, Trait("source", "MathNet.Numerics 5.0 Normal")]
    public void Normal_distribution_agrees_with_the_reference_library()
    {
        for (double z = -8; z <= 8; z += 0.37)
        {
            Assert.Equal(1, NormalDistribution.Cdf(z) / Normal.CDF(0, 1, z), 1e-12);
            Assert.Equal(Normal.PDF(0, 1, z), NormalDistribution.Density(z), 1e-15);
        }

        // Published to 19 figures, e.g. Abramowitz and Stegun table 26.1.
        Assert.Equal(0.975, NormalDistribution.Cdf(1.959963984540054), 1e-15);
    }

    [Theory]
    [InlineData(1e-200)]
    [InlineData(1e-12)]
    [InlineData(0.025)]
    [InlineData(0.3)]
    [InlineData(0.5)]
    [InlineData(0.99)]
    public void Normal_quantile_undoes_the_distribution(double probability) =>
        Assert.Equal(1, NormalDistribution.Cdf(NormalDistribution.Quantile(probability)) / probability, 1e-12);

    [Fact, Trait("source", "MathNet.Numerics 5.0 StudentT")]
    public void Student_distribution_agrees_with_the_reference_library()
    {
        foreach (double degrees in new[] { 1.0, 2, 4.5, 10, 30, 200 })
        {
            for (double t = -6; t <= 6; t += 0.5) Assert.Equal(StudentT.CDF(0, 1, degrees, t), StudentDistribution.Cdf(t, degrees), 1e-12);
            foreach (double p in new[] { 0.001, 0.025, 0.4, 0.5, 0.9, 0.995 })
                Assert.Equal(p, StudentDistribution.Cdf(StudentDistribution.Quantile(p, degrees), degrees), 1e-12);
        }
    }

    [Fact, Trait("source", "MathNet.Numerics 5.0 SpecialFunctions")]
    public void Incomplete_functions_agree_with_the_reference_library()
    {
        foreach (double a in new[] { 0.3, 0.5, 1, 3.7, 20 })
        {
            Assert.Equal(MathNet.Numerics.SpecialFunctions.GammaLn(a), Science.Statistics.SpecialFunctions.LogGamma(a), 1e-12);
            foreach (double x in new[] { 0.01, 0.5, 2.0, 9, 40 })
                Assert.Equal(MathNet.Numerics.SpecialFunctions.GammaUpperRegularized(a, x), Science.Statistics.SpecialFunctions.UpperGamma(a, x), 1e-12);
            foreach (double x in new[] { 0.0, 0.02, 0.4, 0.77, 1 })
                Assert.Equal(MathNet.Numerics.SpecialFunctions.BetaRegularized(a, 2.5, x), Science.Statistics.SpecialFunctions.Beta(x, a, 2.5), 1e-12);
        }
    }
}
