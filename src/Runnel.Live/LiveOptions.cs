using NodaTime;

namespace Runnel.Live;

/// <summary>How the running place keeps time.</summary>
public sealed record LiveOptions
{
    /// <summary>Events wait this long before they are read, so that those of several sources fall into the order of their times.
    /// A moment is asked anew each time: in the demo it grows with the pace.</summary>
    public Func<Duration> Settling { get; init; } = () => Duration.FromSeconds(2);

    /// <summary>Readings later than the present by more than this come from a clock that is wrong, and are refused.</summary>
    public Duration MostAhead { get; init; } = Duration.FromMinutes(5);

    /// <summary>Time on the wall between two views: more often, nobody could read them.</summary>
    public TimeSpan BetweenViews { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Time on the wall between two readings of the whole log: late entries come in swarms.</summary>
    public TimeSpan BetweenReadings { get; init; } = TimeSpan.FromSeconds(10);
}
