namespace Runnel.Science.Statistics;

/// <summary>Settings of an EWMA chart.</summary>
/// <param name="Target">Value expected in health.</param>
/// <param name="Sd">Standard deviation of single values in health, above 0.</param>
/// <param name="Weight">Weight lambda of the newest value, above 0 to 1; 0.05 to 0.3 is usual.</param>
/// <param name="Width">Width L of the limits in standard deviations of the average; 2.7 to 3.1 is usual.</param>
public readonly record struct EwmaDesign(double Target, double Sd, double Weight, double Width);

/// <summary>The moving average of an EWMA chart.</summary>
/// <param name="Average">Exponentially weighted moving average.</param>
/// <param name="Count">Values taken in so far.</param>
public readonly record struct EwmaState(double Average, int Count);

/// <summary>EWMA chart: finds small lasting shifts of a mean and shows where it stands now.</summary>
/// <remarks>Roberts (1959), Technometrics 1:239-250; Montgomery (2009), Introduction to Statistical Quality Control, 6th ed., section 9.2;
/// NIST/SEMATECH e-Handbook 6.3.2.4.</remarks>
public static class Ewma
{
    /// <summary>State before the first value.</summary>
    /// <param name="design">Settings.</param>
    /// <returns>State at the target.</returns>
    public static EwmaState Start(EwmaDesign design) => new(design.Target, 0);

    /// <summary>State after one more value.</summary>
    /// <param name="state">State before it.</param>
    /// <param name="value">The value.</param>
    /// <param name="design">Settings.</param>
    /// <returns>State after it.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite, or the weight out of range.</exception>
    public static EwmaState Next(EwmaState state, double value, EwmaDesign design)
    {
        Require.Finite(value);
        Require.InRange(design.Weight, double.Epsilon, 1);
        return new EwmaState((design.Weight * value) + ((1 - design.Weight) * state.Average), state.Count + 1);
    }

    /// <summary>Distance of the limits from the target after so many values.</summary>
    /// <param name="design">Settings.</param>
    /// <param name="count">Values taken in, 1 or more.</param>
    /// <returns>Half width in the units of the data; it grows to <see cref="SteadyHalfWidth"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The count or a setting is out of range.</exception>
    public static double HalfWidth(EwmaDesign design, int count)
    {
        Require.InRange(count, 1, int.MaxValue);
        return SteadyHalfWidth(design) * Math.Sqrt(1 - Math.Pow(1 - design.Weight, 2.0 * count));
    }

    /// <summary>Distance of the limits from the target in the long run.</summary>
    /// <param name="design">Settings.</param>
    /// <returns>Half width in the units of the data.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public static double SteadyHalfWidth(EwmaDesign design)
    {
        Require.InRange(design.Weight, double.Epsilon, 1);
        Require.Positive(design.Sd);
        Require.Positive(design.Width);
        return design.Width * design.Sd * Math.Sqrt(design.Weight / (2 - design.Weight));
    }

    /// <summary>Whether the average lies outside its limits.</summary>
    /// <param name="state">State after one value or more.</param>
    /// <param name="design">Settings.</param>
    /// <param name="steadyLimits">True for the wider limits of the long run from the start on.</param>
    /// <returns>True for a shift in either direction.</returns>
    public static bool Signals(EwmaState state, EwmaDesign design, bool steadyLimits = false) =>
        Math.Abs(state.Average - design.Target) > (steadyLimits ? SteadyHalfWidth(design) : HalfWidth(design, state.Count));
}
