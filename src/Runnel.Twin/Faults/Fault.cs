using NodaTime;

namespace Runnel.Twin.Faults;

/// <summary>Something that goes wrong, or that people do, at a place: what, where, how fast.</summary>
/// <param name="Name">One of <see cref="FaultCatalogue"/>.</param>
/// <param name="Of">Id of the vessel, equipment or channel; null: whatever it fits, all of them or the first.</param>
/// <param name="Rate">How much or how fast, in the unit of the catalogue, per cent as a share from 0 to 1; null: as the catalogue says.</param>
public sealed record Fault(string Name, string? Of = null, double? Rate = null)
{
    /// <summary>Leak: height of the hole above the vessel's floor, m; null: at the floor.</summary>
    public double? HeightM { get; init; }

    /// <summary>Hours of the place's day in which it is there; null: all day.</summary>
    public DailyHours? Hours { get; init; }
}

/// <summary>A stretch of every day, which may go over midnight.</summary>
/// <param name="From">Beginning.</param>
/// <param name="To">End.</param>
public readonly record struct DailyHours(LocalTime From, LocalTime To)
{
    /// <summary>Whether a time of the day lies within.</summary>
    /// <param name="time">Time of the day.</param>
    public bool Holds(LocalTime time) => From <= To ? time >= From && time < To : time >= From || time < To;
}

/// <summary>A fault with the time at which it begins.</summary>
/// <param name="Fault">What goes wrong.</param>
/// <param name="AtS">When, s from the beginning.</param>
public sealed record PlannedFault(Fault Fault, double AtS);
