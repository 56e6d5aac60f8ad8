using Runnel.Live.Demo;

namespace Runnel.Web.Now;

/// <summary>Breaks and mends things in an invented place; real places have none.</summary>
/// <param name="List">What can be tried, and what stands.</param>
/// <param name="BreakAsync">Breaks something now.</param>
/// <param name="MendAsync">Mends it.</param>
public sealed record FaultBench(Func<IReadOnlyList<DemoFault>> List, Func<string, CancellationToken, Task> BreakAsync, Func<string, CancellationToken, Task> MendAsync)
{
    /// <summary>Seconds of the place to one on the wall, now; null: not to be set.</summary>
    public Func<double>? Pace { get; init; }

    /// <summary>Sets that.</summary>
    public Action<double>? SetPace { get; init; }

    public static FaultBench Of(DemoPlace demo) => new(
        () => demo.Faults, demo.InjectAsync, (name, cancel) => demo.MendAsync(name, cancel))
    {
        Pace = () => demo.Pace,
        SetPace = pace => demo.Pace = pace,
    };
}
