namespace Runnel.Steward.Drift;

/// <summary>Shapes that a departure from the healthy curve can have.</summary>
internal enum DepartureShape { Step, Ramp, NightStep, DayStep }

/// <summary>The best fit of one shape: when it began, its size (a step's height, a ramp's rise a day), and by how much it lowers the
/// weighted squares against no change (twice its log-likelihood ratio).</summary>
internal readonly record struct ShapeFit(DepartureShape Shape, int Onset, double Size, double Gain);

/// <summary>Fits a step, a ramp and a step by night only to the same departures, each with the onset that fits it best.</summary>
internal static class StepOrRamp
{
    /// <summary>The best fit of a shape.</summary>
    /// <param name="days">Time of each departure, days, rising.</param>
    /// <param name="departures">Departure from the healthy curve, one for each time.</param>
    /// <param name="night">The departure was read by night.</param>
    /// <param name="variance">Effective variance of one departure.</param>
    /// <param name="shape">The shape to fit.</param>
    public static ShapeFit Fit(
        ReadOnlySpan<double> days, ReadOnlySpan<double> departures, ReadOnlySpan<bool> night, double variance, DepartureShape shape)
    {
        var best = new ShapeFit(shape, 0, 0, 0);
        for (int onset = 0; onset < days.Length - 3; onset++)
        {
            // A ramp starts from zero at its onset; a step stands at once.
            double sxx = 0, sxy = 0;
            for (int i = onset; i < days.Length; i++)
            {
                double x = shape switch
                {
                    DepartureShape.Ramp => days[i] - days[onset] + 0.04,
                    DepartureShape.NightStep => night[i] ? 1 : 0,
                    DepartureShape.DayStep => night[i] ? 0 : 1,
                    _ => 1,
                };
                sxx += x * x;
                sxy += x * departures[i];
            }

            if (sxx <= 0) continue;
            double gain = sxy * sxy / sxx / variance;
            if (gain > best.Gain) best = new ShapeFit(shape, onset, sxy / sxx, gain);
        }

        return best;
    }
}
