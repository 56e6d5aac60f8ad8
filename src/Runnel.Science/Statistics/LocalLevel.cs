namespace Runnel.Science.Statistics;

/// <summary>What is expected of the level before its next reading.</summary>
/// <param name="Mean">Expected level.</param>
/// <param name="Variance">Its variance.</param>
public readonly record struct LevelForecast(double Mean, double Variance);

/// <summary>One step of the local-level filter.</summary>
/// <param name="Surprise">Reading less forecast (NaN for a gap).</param>
/// <param name="SurpriseVariance">Variance of the surprise.</param>
/// <param name="Gain">Share of the surprise that the level follows.</param>
/// <param name="Mean">Level with the reading taken in.</param>
/// <param name="Variance">Its variance.</param>
/// <param name="Next">Forecast for the next reading.</param>
public readonly record struct LevelStep(
    double Surprise, double SurpriseVariance, double Gain, double Mean, double Variance, LevelForecast Next);

/// <summary>Variances of a local-level model and how likely they make the series.</summary>
/// <param name="ReadingVariance">Variance of the readings about the level.</param>
/// <param name="LevelVariance">Variance of the level's step from one reading to the next.</param>
/// <param name="LogLikelihood">Diffuse log-likelihood, the first reading left out.</param>
public readonly record struct LocalLevelFit(double ReadingVariance, double LevelVariance, double LogLikelihood);

/// <summary>A level that wanders, read with noise: the scalar Kalman filter.</summary>
/// <remarks>Durbin and Koopman (2012), Time Series Analysis by State Space Methods, 2nd ed., chapter 2.</remarks>
public static class LocalLevel
{
    /// <summary>Takes in one reading.</summary>
    /// <param name="forecast">What was expected before it.</param>
    /// <param name="reading">The reading, or NaN for a gap.</param>
    /// <param name="readingVariance">Variance of a reading, above 0.</param>
    /// <param name="levelVariance">Variance of the level's step to the next reading, 0 or more.</param>
    /// <returns>The step.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A variance is NaN or out of range, or the reading infinite.</exception>
    public static LevelStep Step(LevelForecast forecast, double reading, double readingVariance, double levelVariance)
    {
        Require.Positive(readingVariance);
        Require.NotNegative(levelVariance);
        Require.NotNegative(forecast.Variance);
        double f = forecast.Variance + readingVariance;
        if (double.IsNaN(reading))
        {
            return new LevelStep(double.NaN, f, 0, forecast.Mean, forecast.Variance,
                forecast with { Variance = forecast.Variance + levelVariance });
        }

        Require.Finite(reading);
        double surprise = reading - forecast.Mean, gain = forecast.Variance / f;
        double mean = forecast.Mean + (gain * surprise), variance = forecast.Variance * (1 - gain);
        return new LevelStep(surprise, f, gain, mean, variance, new LevelForecast(mean, variance + levelVariance));
    }

    /// <summary>Log-likelihood of a series from a given start.</summary>
    /// <param name="values">Readings, oldest first; NaN is a gap.</param>
    /// <param name="readingVariance">Variance of a reading, above 0.</param>
    /// <param name="levelVariance">Variance of the level's step, 0 or more.</param>
    /// <param name="start">Forecast before the first reading.</param>
    /// <param name="leaveOut">Readings at the start whose term is left out: 1 where the start is a guess with a huge variance.</param>
    /// <returns>Log-likelihood. Conventions differ in what they leave out: compare like with like.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static double LogLikelihood(
        ReadOnlySpan<double> values, double readingVariance, double levelVariance, LevelForecast start, int leaveOut = 0)
    {
        double sum = 0;
        var forecast = start;
        for (int i = 0; i < values.Length; i++)
        {
            var step = Step(forecast, values[i], readingVariance, levelVariance);
            forecast = step.Next;
            if (i < leaveOut || double.IsNaN(step.Surprise)) continue;
            sum -= (Math.Log(2 * Math.PI) + Math.Log(step.SurpriseVariance) + (step.Surprise * step.Surprise / step.SurpriseVariance)) / 2;
        }

        return sum;
    }

    /// <summary>Variances of greatest likelihood, nothing supposed about the start.</summary>
    /// <param name="values">Five or more finite readings, oldest first, that are not all equal.</param>
    /// <returns>Variances and log-likelihood.</returns>
    /// <exception cref="ArgumentException">Too few readings, or all of them equal.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A reading is NaN or infinite.</exception>
    /// <remarks>Durbin and Koopman (2012), section 2.10: the likelihood is concentrated on the ratio of both variances, which is searched on a
    /// logarithmic grid from 1e-8 to 1e6 and then by golden section. At the lower end the level is as good as constant.</remarks>
    public static LocalLevelFit Fit(ReadOnlySpan<double> values)
    {
        Require.Series(values, 5);
        double best = double.NegativeInfinity, middle = 0;
        for (double exponent = -8; exponent <= 6; exponent += 0.25)
        {
            double likelihood = Concentrated(values, Math.Pow(10, exponent)).LogLikelihood;
            if (likelihood > best) (best, middle) = (likelihood, exponent);
        }

        if (double.IsNegativeInfinity(best)) throw new ArgumentException("values are all equal", nameof(values));
        double golden = (Math.Sqrt(5) - 1) / 2, low = middle - 0.25, high = middle + 0.25;
        double inner = high - (golden * (high - low)), outer = low + (golden * (high - low));
        double atInner = At(values, inner), atOuter = At(values, outer);
        while (high - low > 1e-8)
        {
            if (atInner > atOuter)
            {
                (high, outer, atOuter) = (outer, inner, atInner);
                inner = high - (golden * (high - low));
                atInner = At(values, inner);
            }
            else
            {
                (low, inner, atInner) = (inner, outer, atOuter);
                outer = low + (golden * (high - low));
                atOuter = At(values, outer);
            }
        }

        return Concentrated(values, Math.Pow(10, (low + high) / 2));
    }

    private static double At(ReadOnlySpan<double> values, double exponent) =>
        Concentrated(values, Math.Pow(10, exponent)).LogLikelihood;

    // With the ratio fixed, the best reading variance has a closed form.
    private static LocalLevelFit Concentrated(ReadOnlySpan<double> values, double ratio)
    {
        var forecast = new LevelForecast(values[0], 1 + ratio);
        double squares = 0, logs = 0;
        for (int i = 1; i < values.Length; i++)
        {
            var step = Step(forecast, values[i], 1, ratio);
            squares += step.Surprise * step.Surprise / step.SurpriseVariance;
            logs += Math.Log(step.SurpriseVariance);
            forecast = step.Next;
        }

        int n = values.Length - 1;
        double variance = squares / n;
        double likelihood = variance > 0 ? -((n * (Math.Log(2 * Math.PI) + 1 + Math.Log(variance))) + logs) / 2 : double.NegativeInfinity;
        return new LocalLevelFit(variance, variance * ratio, likelihood);
    }
}
