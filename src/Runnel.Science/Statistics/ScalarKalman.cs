namespace Runnel.Science.Statistics;

/// <summary>What is known of one hidden quantity.</summary>
/// <param name="Mean">Best estimate.</param>
/// <param name="Variance">Its variance.</param>
public readonly record struct KalmanState(double Mean, double Variance);

/// <summary>A reading taken in.</summary>
/// <param name="Surprise">Reading less what was expected of it.</param>
/// <param name="SurpriseVariance">Variance that the surprise was expected to have: their ratio tells whether the model holds.</param>
/// <param name="Gain">Change of the estimate for each unit of surprise.</param>
/// <param name="State">What is known now.</param>
public readonly record struct KalmanUpdate(double Surprise, double SurpriseVariance, double Gain, KalmanState State);

/// <summary>Kalman filter of one quantity that moves by a known rule and is read with noise: x' = a x + u, reading = h x.</summary>
/// <remarks>Kalman (1960); Durbin and Koopman (2012), Time Series Analysis by State Space Methods, 2nd ed., chapter 4. <see cref="LocalLevel"/> is the case a = h = 1.</remarks>
public static class ScalarKalman
{
    /// <summary>Moves on to the next time.</summary>
    /// <param name="state">What is known now.</param>
    /// <param name="transition">a: 1 for a level, below 1 for what fades.</param>
    /// <param name="input">u: known change, such as litres let in.</param>
    /// <param name="processVariance">Variance of what the rule leaves out, 0 or more.</param>
    /// <returns>What is expected then.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static KalmanState Predict(KalmanState state, double transition, double input, double processVariance)
    {
        Require.Finite(state.Mean);
        Require.NotNegative(state.Variance);
        Require.Finite(transition);
        Require.Finite(input);
        Require.NotNegative(processVariance);
        return new KalmanState((transition * state.Mean) + input, (transition * transition * state.Variance) + processVariance);
    }

    /// <summary>Takes in a reading; leave the call out where there is a gap.</summary>
    /// <param name="state">What is expected.</param>
    /// <param name="reading">Reading.</param>
    /// <param name="readingVariance">Its variance, above 0.</param>
    /// <param name="observation">h: what the reading shows of one unit of the quantity, not 0.</param>
    /// <returns>The update.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    public static KalmanUpdate Update(KalmanState state, double reading, double readingVariance, double observation = 1)
    {
        Require.Finite(state.Mean);
        Require.NotNegative(state.Variance);
        Require.Finite(reading);
        Require.Positive(readingVariance);
        Require.Finite(observation);
        double surprise = reading - (observation * state.Mean), spread = (observation * observation * state.Variance) + readingVariance;
        double gain = observation * state.Variance / spread;
        // Joseph's form: rounding cannot make the variance negative.
        double kept = 1 - (gain * observation), variance = (kept * kept * state.Variance) + (gain * gain * readingVariance);
        return new KalmanUpdate(surprise, spread, gain, new KalmanState(state.Mean + (gain * surprise), variance));
    }
}
