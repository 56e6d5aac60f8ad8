namespace Runnel.Twin.Solving;

/// <summary>How an attempt to take a step ended.</summary>
internal enum StepOutcome
{
    Taken,
    TooShort,
    NotANumber,
    Stiff,
}

/// <summary>Takes steps of controlled error, and gives the solution within the last one. Nothing is allocated after construction.</summary>
internal abstract class Stepper
{
    // Room for the rounding of the time itself.
    private const double Rounding = 2.22e-16;

    private readonly double[] absolute;

    protected Stepper(OdeSystem system, SolverOptions options)
    {
        System = system;
        Options = options;
        Count = system.Count;
        Core = system.Count - system.Sums;
        State = new double[Count];
        StateBefore = new double[Count];
        Weights = new double[Count];
        absolute = options.AbsoluteTolerances is { } each ? [.. each] : [.. Enumerable.Repeat(options.AbsoluteTolerance, Count)];
    }

    /// <summary>Where the last step began.</summary>
    public double From { get; protected set; }

    /// <summary>Where it ended: now.</summary>
    public double To { get; protected set; }

    /// <summary>The state now.</summary>
    public double[] State { get; }

    /// <summary>The length proposed for the next step; 0: not known yet.</summary>
    public double Proposed { get; set; }

    /// <summary>The equation whose rate is no number.</summary>
    public int BadIndex { get; protected set; } = -1;

    /// <summary>Whether the solution within a step is of lower order than at its end, so that an event is best met by a step that ends there.</summary>
    public abstract bool IsRoughWithin { get; }

    protected OdeSystem System { get; }

    protected SolverOptions Options { get; }

    protected int Count { get; }

    /// <summary>Equations whose error counts: all but those that only sum up.</summary>
    protected int Core { get; }

    protected double[] StateBefore { get; }

    protected double[] Weights { get; }

    /// <summary>Length of the last step as it was taken, before an event cut it short.</summary>
    public double Taken { get; protected set; }

    /// <summary>Begins, or begins afresh after a change.</summary>
    public abstract bool Begin(double time, ReadOnlySpan<double> state, ref SolverStatistics work);

    /// <summary>Takes one step of at most <paramref name="limit"/>.</summary>
    public abstract StepOutcome Step(double limit, ref SolverStatistics work);

    /// <summary>Takes the last step again, with another length and whatever its error; false where that cannot be, and the step is undone.</summary>
    public abstract bool Retake(double length, ref SolverStatistics work);

    /// <summary>The state at a share of the last step as it was taken, from 0 to 1 and a little beyond.</summary>
    public abstract void Within(double share, Span<double> into);

    /// <summary>Ends the last step at a share of it instead, at this state.</summary>
    public abstract bool Truncate(double share, ReadOnlySpan<double> state, ref SolverStatistics work);

    /// <summary>The weight of an error: one over what is tolerated.</summary>
    protected void Weigh(ReadOnlySpan<double> state, ReadOnlySpan<double> other, double relative, double absoluteFactor)
    {
        for (int i = 0; i < Weights.Length; i++) Weights[i] = 1 / ((absolute[i] * absoluteFactor) + (relative * Math.Max(Math.Abs(state[i]), Math.Abs(other[i]))));
    }

    /// <summary>Root mean square of a vector by weight.</summary>
    protected double Norm(ReadOnlySpan<double> vector)
    {
        double sum = 0;
        for (int i = 0; i < Core; i++)
        {
            double one = vector[i] * Weights[i];
            sum += one * one;
        }

        return Math.Sqrt(sum / Core);
    }

    protected bool IsTooShort(double length) => !(length > 8 * Rounding * Math.Abs(To));

    protected bool AllNumbers(ReadOnlySpan<double> rates)
    {
        for (int i = 0; i < rates.Length; i++)
        {
            if (double.IsFinite(rates[i])) continue;
            BadIndex = i;
            return false;
        }

        return true;
    }

    /// <summary>Length of a first step: Hairer, Norsett and Wanner (1993), Solving Ordinary Differential Equations I, section II.4.</summary>
    protected double FirstLength(ReadOnlySpan<double> rates, Span<double> tryState, Span<double> tryRates, int order, ref SolverStatistics work)
    {
        if (Options.FirstStep > 0) return Options.FirstStep;
        Weigh(State, State, Options.RelativeTolerance, 1);
        double size = Norm(State), speed = Norm(rates);
        double guess = size > 1e-5 && speed > 1e-5 ? 0.01 * size / speed : speed > 1e-5 ? 0.01 / speed : 1e-6 * Math.Max(1, Math.Abs(To));
        guess = Capped(guess);
        for (int tries = 0; tries < 20; tries++, guess /= 16)
        {
            for (int i = 0; i < Count; i++) tryState[i] = State[i] + (guess * rates[i]);
            System.Rates(To + guess, tryState, tryRates);
            work.RateCalls++;
            double sum = 0;
            for (int i = 0; i < Core; i++)
            {
                double one = (tryRates[i] - rates[i]) * Weights[i];
                sum += one * one;
            }

            double bend = Math.Sqrt(sum / Core) / guess;
            if (!double.IsFinite(bend)) continue;
            double most = Math.Max(speed, bend);
            double length = most <= 1e-15 ? Math.Max(1e-6, guess * 1e-3) : Math.Pow(0.01 / most, 1.0 / order);
            return Capped(Math.Min(100 * guess, length));
        }

        return guess;
    }

    protected double Capped(double length) => Options.LongestStep > 0 ? Math.Min(length, Options.LongestStep) : length;
}
