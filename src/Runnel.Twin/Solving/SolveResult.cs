namespace Runnel.Twin.Solving;

/// <summary>Why a solver stopped.</summary>
public enum StopReason
{
    /// <summary>The time asked for is reached.</summary>
    Reached,

    /// <summary>An event said so.</summary>
    Event,

    /// <summary>Steps ran out.</summary>
    TooManySteps,

    /// <summary>No step is short enough for the tolerance: the rates jump or grow without bound.</summary>
    StepTooShort,

    /// <summary>A rate is no number, however short the step.</summary>
    NotANumber,

    /// <summary>The same event happens over and over within next to no time.</summary>
    Chattering,

    /// <summary>The explicit method was asked for and the equations are stiff.</summary>
    Stiff,
}

/// <summary>Work done since the start.</summary>
public record struct SolverStatistics
{
    /// <summary>Steps taken.</summary>
    public long Steps { get; set; }

    /// <summary>Steps tried and thrown away.</summary>
    public long Rejected { get; set; }

    /// <summary>Calls of the rates, those for the Jacobian included.</summary>
    public long RateCalls { get; set; }

    /// <summary>Jacobians.</summary>
    public long Jacobians { get; set; }

    /// <summary>Matrices split into factors (a real and a complex one count as one).</summary>
    public long Factorings { get; set; }

    /// <summary>Iterations of the implicit equations.</summary>
    public long Iterations { get; set; }

    /// <summary>Calls of the event values.</summary>
    public long EventCalls { get; set; }

    /// <summary>Events that happened.</summary>
    public long Events { get; set; }

    /// <summary>Starts afresh after an event.</summary>
    public long Restarts { get; set; }
}

/// <summary>How a call came out.</summary>
/// <param name="Stop">Why it stopped.</param>
/// <param name="Time">Where.</param>
/// <param name="Index">The event that stopped it or chatters; the equation that is no number; else -1.</param>
/// <param name="IsStiff">Whether the implicit method is at work, or should be.</param>
/// <param name="Statistics">Work since the start.</param>
public readonly record struct SolveResult(StopReason Stop, double Time, int Index, bool IsStiff, SolverStatistics Statistics);
