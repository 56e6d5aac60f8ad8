namespace Runnel.Science.Pipes.Networks;

/// <summary>Why a solver stopped.</summary>
public enum NetworkStop
{
    /// <summary>Flows and heads agree.</summary>
    Solved,

    /// <summary>A demand lies behind shut valves, or asks for more than can reach it: its head fell a kilometre below all levels.</summary>
    DemandNotMet,

    /// <summary>The steps ran out; the values are the best so far.</summary>
    TooManySteps,
}

/// <summary>How a solution came out.</summary>
/// <param name="Stop">Why the solver stopped.</param>
/// <param name="Steps">Linear solves.</param>
/// <param name="HeadErrorM">Greatest difference between the loss of a link at its flow and the heads at its ends, m: below 1e-7, and up to 1e-3 at a valve
/// that hangs between open and shut.</param>
/// <param name="FlowErrorM3PerS">Greatest imbalance of a node, m³/s.</param>
public readonly record struct NetworkSolution(NetworkStop Stop, int Steps, double HeadErrorM, double FlowErrorM3PerS);
