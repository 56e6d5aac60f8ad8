using Runnel.Science.Statistics;

namespace Runnel.Science.Fish;

/// <summary>What a weighed sample says of a group of fish.</summary>
/// <param name="MeanG">Mean weight, g.</param>
/// <param name="SdG">Standard deviation, g.</param>
/// <param name="MeanPm95G">Half width of the 95 % interval of the mean, g.</param>
/// <param name="BiomassKg">Weight of the whole group, kg.</param>
public readonly record struct FishSample(double MeanG, double SdG, double MeanPm95G, double BiomassKg);

/// <summary>Growth, condition and samples of fish.</summary>
public static class Growth
{
    /// <summary>Thermal growth coefficient, x 1000.</summary>
    /// <param name="startG">Weight at the start, g.</param>
    /// <param name="endG">Weight at the end, g.</param>
    /// <param name="degreeDays">Sum of the daily mean temperatures, °C days.</param>
    /// <returns>Coefficient x 1000 (some print it x 100).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Iwama and Tautz (1981), Can. J. Fish. Aquat. Sci. 38:649-656.</remarks>
    public static double ThermalCoefficient(double startG, double endG, double degreeDays)
    {
        Require.Positive(startG);
        Require.Positive(endG);
        Require.Positive(degreeDays);
        return 1000 * (Math.Cbrt(endG) - Math.Cbrt(startG)) / degreeDays;
    }

    /// <summary>Weight after so many degree days, g.</summary>
    /// <param name="startG">Weight at the start, g.</param>
    /// <param name="coefficient">Thermal growth coefficient x 1000.</param>
    /// <param name="degreeDays">Sum of the daily mean temperatures, °C days.</param>
    /// <returns>Weight, g.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Iwama and Tautz (1981), solved for the weight. Holds within a species, strain and feed; not near its upper temperatures.</remarks>
    public static double WeightG(double startG, double coefficient, double degreeDays)
    {
        Require.Positive(startG);
        Require.InRange(coefficient, 0, 10);
        Require.NotNegative(degreeDays);
        return Math.Pow(Math.Cbrt(startG) + (coefficient / 1000 * degreeDays), 3);
    }

    /// <summary>Days to a target weight.</summary>
    /// <param name="startG">Weight at the start, g.</param>
    /// <param name="targetG">Target, g; 0 days when it is reached.</param>
    /// <param name="coefficient">Thermal growth coefficient x 1000, above 0.</param>
    /// <param name="waterTempC">Mean water temperature, °C, above 0.</param>
    /// <returns>Days.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Iwama and Tautz (1981), solved for the days.</remarks>
    public static double DaysTo(double startG, double targetG, double coefficient, double waterTempC)
    {
        Require.Positive(startG);
        Require.Positive(targetG);
        Require.InRange(coefficient, 1e-6, 10);
        Require.InRange(waterTempC, 0.1, 45);
        return Math.Max(0, 1000 * (Math.Cbrt(targetG) - Math.Cbrt(startG)) / (coefficient * waterTempC));
    }

    /// <summary>Specific growth rate, % a day.</summary>
    /// <param name="startG">Weight at the start, g.</param>
    /// <param name="endG">Weight at the end, g.</param>
    /// <param name="days">Days between.</param>
    /// <returns>% a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Definition: 100 (ln W2 - ln W1)/days.</remarks>
    public static double SpecificPercentPerDay(double startG, double endG, double days)
    {
        Require.Positive(startG);
        Require.Positive(endG);
        Require.Positive(days);
        return 100 * Math.Log(endG / startG) / days;
    }

    /// <summary>Weight from length: a L^b, in the units of the coefficients.</summary>
    /// <param name="length">Length (cm for g).</param>
    /// <param name="a">Coefficient.</param>
    /// <param name="b">Exponent, 2 to 4.</param>
    /// <returns>Weight.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Definition (allometry); single fish scatter by 10 to 20 %.</remarks>
    public static double WeightOfLength(double length, double a, double b)
    {
        Require.Positive(length);
        Require.Positive(a);
        Require.InRange(b, 2, 4);
        return a * Math.Pow(length, b);
    }

    /// <summary>Fulton's condition factor.</summary>
    /// <param name="weightG">Weight, g.</param>
    /// <param name="lengthCm">Length, cm.</param>
    /// <returns>100 W/L³.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Fulton (1904), as in Ricker (1975), Bull. Fish. Res. Board Can. 191.</remarks>
    public static double Condition(double weightG, double lengthCm)
    {
        Require.Positive(weightG);
        Require.Positive(lengthCm);
        return 100 * weightG / (lengthCm * lengthCm * lengthCm);
    }

    /// <summary>Mean weight and biomass of a group from a sample.</summary>
    /// <param name="weightsG">Weights of the sample, g, two or more.</param>
    /// <param name="population">Fish in the group, as many as the sample or more.</param>
    /// <returns>Mean, spread, interval and biomass.</returns>
    /// <exception cref="ArgumentException">Fewer than two weights.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Cochran (1977), Sampling Techniques: t interval with the factor sqrt((N - n)/(N - 1)). Netted fish are seldom a fair sample.</remarks>
    public static FishSample Sample(ReadOnlySpan<double> weightsG, int population)
    {
        Require.Series(weightsG, 2);
        Require.InRange(population, weightsG.Length, int.MaxValue);
        int n = weightsG.Length;
        double mean = Moments.Mean(weightsG), sd = Moments.SampleSd(weightsG);
        double finite = Math.Sqrt((population - n) / (population - 1.0));
        return new FishSample(mean, sd, StudentDistribution.Quantile(0.975, n - 1) * sd / Math.Sqrt(n) * finite, mean * population / 1000);
    }

    /// <summary>Length from weight, the inverse of <see cref="WeightOfLength"/>.</summary>
    /// <param name="weight">Weight, in the units of the coefficients (g for cm).</param>
    /// <param name="a">Coefficient.</param>
    /// <param name="b">Exponent, 2 to 4.</param>
    /// <returns>Length.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks><see cref="WeightOfLength"/> turned round.</remarks>
    public static double LengthOfWeight(double weight, double a, double b)
    {
        Require.Positive(weight);
        Require.Positive(a);
        Require.InRange(b, 2, 4);
        return Math.Pow(weight / a, 1 / b);
    }

    /// <summary>Weight over what the species weighs at that length: 1 is usual, 0.8 and less is lean.</summary>
    /// <param name="weightG">Weight, g.</param>
    /// <param name="lengthCm">Length, cm.</param>
    /// <param name="a">Coefficient of the species, g and cm.</param>
    /// <param name="b">Exponent, 2 to 4.</param>
    /// <returns>Relative condition factor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Le Cren (1951), J. Animal Ecology 20:201-219.</remarks>
    public static double RelativeCondition(double weightG, double lengthCm, double a, double b)
    {
        Require.Positive(weightG);
        return weightG / WeightOfLength(lengthCm, a, b);
    }

    /// <summary>Weight after some days at a specific growth rate, g.</summary>
    /// <param name="startG">Weight at the start, g.</param>
    /// <param name="percentPerDay">Specific growth rate, % a day, -10 to 20.</param>
    /// <param name="days">Days, 0 or more. The rate falls as fish grow: weeks, not months.</param>
    /// <returns>Weight, g.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Inverse of <see cref="SpecificPercentPerDay"/>.</remarks>
    public static double WeightAtSpecificRateG(double startG, double percentPerDay, double days)
    {
        Require.Positive(startG);
        Require.InRange(percentPerDay, -10, 20);
        Require.InRange(days, 0, 3650);
        return startG * Math.Exp(percentPerDay / 100 * days);
    }

    /// <summary>Sum of daily mean temperatures above a base, °C days: the time scale of growth.</summary>
    /// <param name="tempsC">Mean water temperature of each day, °C, oldest first.</param>
    /// <param name="baseC">Temperature below which nothing grows: 0 for the thermal growth coefficient.</param>
    /// <returns>°C days.</returns>
    /// <exception cref="ArgumentException">No days.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A temperature is NaN or infinite.</exception>
    /// <remarks>Definition.</remarks>
    public static double DegreeDays(ReadOnlySpan<double> tempsC, double baseC = 0)
    {
        Require.Series(tempsC, 1);
        Require.InRange(baseC, -5, 40);
        double sum = 0;
        foreach (double temp in tempsC) sum += Math.Max(0, temp - baseC);
        return sum;
    }

    /// <summary>Fish to weigh so that the mean is known well enough.</summary>
    /// <param name="sdG">Standard deviation of the weights, g, from an earlier sample.</param>
    /// <param name="pm95G">Half width wanted of the 95 % interval, g.</param>
    /// <param name="population">Fish in the group.</param>
    /// <returns>Fish, 2 or more, at most the group.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Cochran (1977), chapter 4: n0 = (1.96 s/d)², less for a small group.</remarks>
    public static int SampleSize(double sdG, double pm95G, int population)
    {
        Require.NotNegative(sdG);
        Require.Positive(pm95G);
        Require.InRange(population, 2, int.MaxValue);
        double ratio = 1.959964 * sdG / pm95G, n = ratio * ratio;
        return (int)Math.Clamp(Math.Ceiling(n / (1 + (n / population))), 2, population);
    }
}
