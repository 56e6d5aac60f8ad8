namespace Runnel.Twin.Solving;

/// <summary>Which way an event's value must pass zero.</summary>
public enum EventDirection
{
    /// <summary>Both ways.</summary>
    Either,

    /// <summary>From below zero to above.</summary>
    Rising,

    /// <summary>From above zero to below.</summary>
    Falling,
}

/// <summary>What is to be done after events happened.</summary>
public enum EventOutcome
{
    /// <summary>Nothing changed: go on.</summary>
    Continue,

    /// <summary>The state, or the law it follows, changed: begin afresh from here.</summary>
    Changed,

    /// <summary>End here.</summary>
    Stop,
}

/// <summary>Ordinary differential equations y' = f(t, y), with events: values whose passing through zero is found and told.</summary>
/// <param name="count">Number of equations.</param>
/// <param name="eventCount">Number of events.</param>
/// <param name="band">Shape of the Jacobian; null: full.</param>
/// <param name="sums">How many of the last equations only sum up: no rate depends on their states. They cost next to nothing, and their error is not
/// looked at.</param>
public abstract class OdeSystem(int count, int eventCount = 0, Band? band = null, int sums = 0)
{
    /// <summary>Number of equations.</summary>
    public int Count { get; } = count > 0 ? count : throw new ArgumentOutOfRangeException(nameof(count), count, "there must be one equation or more");

    /// <summary>Number of equations that only sum up: the last ones.</summary>
    public int Sums { get; } = sums >= 0 && sums < count ? sums : throw new ArgumentOutOfRangeException(nameof(sums), sums, "must leave one equation or more");

    /// <summary>Number of events.</summary>
    public int EventCount { get; } = eventCount;

    /// <summary>Where the Jacobian may hold entries; null: anywhere.</summary>
    public Band? Band { get; } = band;

    /// <summary>Writes f(t, y). A rate that is no number makes the step smaller, so that a state outside of the law's range may be refused so.</summary>
    /// <param name="time">t.</param>
    /// <param name="state">y.</param>
    /// <param name="rates">One value for each equation.</param>
    public abstract void Rates(double time, ReadOnlySpan<double> state, Span<double> rates);

    /// <summary>Writes df/dy into a matrix of zeros.</summary>
    /// <param name="time">t.</param>
    /// <param name="state">y.</param>
    /// <param name="jacobian">Entries by row (equation) and column (state); sums have rows and no columns.</param>
    /// <returns>False where it is to be found from differences of <see cref="Rates"/>.</returns>
    public virtual bool Jacobian(double time, ReadOnlySpan<double> state, SquareMatrix jacobian) => false;

    /// <summary>Writes the values whose zeros are the events. They must not jump but where <see cref="Happened"/> changes something.</summary>
    /// <param name="time">t.</param>
    /// <param name="state">y, without the sums.</param>
    /// <param name="values">One value for each event.</param>
    public virtual void EventValues(double time, ReadOnlySpan<double> state, Span<double> values)
    {
    }

    /// <summary>Which way counts for an event.</summary>
    /// <param name="index">Number of the event.</param>
    /// <returns>Direction.</returns>
    public virtual EventDirection DirectionOf(int index) => EventDirection.Either;

    /// <summary>Events happened, all at the same time.</summary>
    /// <param name="time">When.</param>
    /// <param name="state">The state then; to be changed only when <see cref="EventOutcome.Changed"/> or <see cref="EventOutcome.Stop"/> is returned.</param>
    /// <param name="events">Their numbers, rising.</param>
    /// <returns>What is to be done.</returns>
    public virtual EventOutcome Happened(double time, Span<double> state, ReadOnlySpan<int> events) => EventOutcome.Continue;
}

/// <summary>Shape of a matrix with entries near its diagonal only.</summary>
/// <param name="Lower">Diagonals below the main one.</param>
/// <param name="Upper">Diagonals above it.</param>
public readonly record struct Band(int Lower, int Upper);
