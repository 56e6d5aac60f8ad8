namespace Runnel.Twin.Solving;

/// <summary>How steps are taken.</summary>
public enum SteppingMethod
{
    /// <summary>Explicit while that does, and implicit from where the equations are found stiff.</summary>
    Automatic,

    /// <summary>Explicit Runge-Kutta, order 5.</summary>
    Explicit,

    /// <summary>Implicit Runge-Kutta, order 5, L-stable.</summary>
    Stiff,
}

/// <summary>What a solver is asked for.</summary>
public sealed record SolverOptions
{
    /// <summary>Method.</summary>
    public SteppingMethod Method { get; init; } = SteppingMethod.Automatic;

    /// <summary>Error a step may make, as a share of the value.</summary>
    public double RelativeTolerance { get; init; } = 1e-6;

    /// <summary>Error a step may make besides, in the unit of the state; also the size below which a value does not matter.</summary>
    public double AbsoluteTolerance { get; init; } = 1e-9;

    /// <summary>As <see cref="AbsoluteTolerance"/>, one for each equation; null: the same for all.</summary>
    public IReadOnlyList<double>? AbsoluteTolerances { get; init; }

    /// <summary>First step; 0: chosen.</summary>
    public double FirstStep { get; init; }

    /// <summary>Longest step; 0: no limit.</summary>
    public double LongestStep { get; init; }

    /// <summary>All steps of this length, whatever their error: to measure a method's order. 0: steps by error.</summary>
    public double FixedStep { get; init; }

    /// <summary>Steps after which one call gives up.</summary>
    public int MostSteps { get; init; } = 1_000_000;

    /// <summary>With <see cref="SteppingMethod.Explicit"/>: stop where the equations are found stiff, rather than crawl.</summary>
    public bool StopWhenStiff { get; init; } = true;

    /// <summary>Places within a step at which events are looked for, besides its ends, so that a short visit across zero is not missed.</summary>
    public int EventLooks { get; init; } = 4;

    /// <summary>Events of one kind in a row, each within <see cref="ChatterGap"/> of the one before, that count as chattering.</summary>
    public int ChatterCount { get; init; } = 40;

    /// <summary>Time below which one event follows the other too closely; 0: a ten-millionth of the span asked for.</summary>
    public double ChatterGap { get; init; }

    internal void Check(int count)
    {
        CheckRelative(RelativeTolerance, nameof(RelativeTolerance));
        if (AbsoluteTolerances is { } each)
        {
            if (each.Count != count) throw new ArgumentException($"there are {each.Count} absolute tolerances for {count} equations", nameof(count));
            foreach (double one in each) CheckPositive(one, nameof(AbsoluteTolerances));
        }

        CheckPositive(AbsoluteTolerance, nameof(AbsoluteTolerance));
        CheckNotNegative(FirstStep, nameof(FirstStep));
        CheckNotNegative(LongestStep, nameof(LongestStep));
        CheckNotNegative(FixedStep, nameof(FixedStep));
        CheckNotNegative(ChatterGap, nameof(ChatterGap));
        ArgumentOutOfRangeException.ThrowIfLessThan(MostSteps, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(EventLooks, 0);
        ArgumentOutOfRangeException.ThrowIfLessThan(ChatterCount, 2);
    }

    private static void CheckRelative(double value, string name)
    {
        if (!(value is >= 1e-14 and <= 0.1)) throw new ArgumentOutOfRangeException(name, value, "must be from 1e-14 to 0.1");
    }

    private static void CheckPositive(double value, string name)
    {
        if (!(value > 0 && double.IsFinite(value))) throw new ArgumentOutOfRangeException(name, value, "must be above 0 and finite");
    }

    private static void CheckNotNegative(double value, string name)
    {
        if (!(value >= 0 && double.IsFinite(value))) throw new ArgumentOutOfRangeException(name, value, "must be 0 or more and finite");
    }
}
