namespace Runnel.Science.Statistics;

/// <summary>Distribution of the place at which a two-sided random walk with falling drift is greatest.</summary>
/// <remarks>Bai (1997), Review of Economics and Statistics 79:551-563, appendix: unit variance and drift on the left, variance
/// <c>ratio</c> and the same drift on the right. The closed form is continuous at 0, where it is 1/(1 + ratio).</remarks>
internal static class BreakDistribution
{
    public static double Cdf(double x, double ratio)
    {
        double size = Math.Abs(x), root = Math.Sqrt(size);
        if (x < 0)
        {
            double inverse = 1 / ratio;
            double c = ratio * (ratio + 2) / (ratio + 1), d = (ratio + 2) * (ratio + 2) / (ratio + 1);
            return -(root * Math.Exp(-size / 8) / Math.Sqrt(2 * Math.PI))
                - (c * ExpTimesTail(inverse * (1 + inverse) * size / 2, (0.5 + inverse) * root))
                + ((d - 2 + (size / 2)) * NormalDistribution.Cdf(-root / 2));
        }

        double scaled = size / ratio, scaledRoot = Math.Sqrt(scaled);
        double e = ((2 * ratio) + 1) / (ratio * (ratio + 1)), f = ((2 * ratio) + 1) * ((2 * ratio) + 1) / ((ratio + 1) * ratio);
        return 1 + (scaledRoot * Math.Exp(-scaled / 8) / Math.Sqrt(2 * Math.PI))
            + (e * ExpTimesTail((ratio + 1) * size / 2, (ratio + 0.5) * scaledRoot))
            - ((f - 2 + (scaled / 2)) * NormalDistribution.Cdf(-scaledRoot / 2));
    }

    public static double Quantile(double probability, double ratio)
    {
        double low = -1, high = 1;
        while (Cdf(low, ratio) > probability) low *= 2;
        while (Cdf(high, ratio) < probability) high *= 2;
        for (int i = 0; i < 200 && high - low > 1e-10 * (1 + Math.Abs(low)); i++)
        {
            double middle = (low + high) / 2;
            if (Cdf(middle, ratio) < probability) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }

    // exp(exponent) times the lower tail at -z, where the first alone would overflow.
    private static double ExpTimesTail(double exponent, double z) =>
        exponent < 600 ? Math.Exp(exponent) * NormalDistribution.Cdf(-z)
            : Math.Exp(exponent - (z * z / 2)) / (z * Math.Sqrt(2 * Math.PI)) * (1 - (1 / (z * z)));
}
