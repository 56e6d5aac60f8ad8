using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Web.Now;

/// <summary>A day back and a day ahead, in lanes.</summary>
/// <param name="Now">The line between.</param>
/// <param name="Zone">Civil time of the place.</param>
/// <param name="Lanes">From top to bottom.</param>
/// <param name="Nights">From sunset to sunrise.</param>
internal sealed record DayRibbon(Instant Now, DateTimeZone Zone, IReadOnlyList<RibbonLane> Lanes, IReadOnlyList<Interval> Nights)
{
    public static readonly Duration Half = Duration.FromHours(24);

    public Instant From => Now - Half;

    public Instant To => Now + Half;
}

/// <summary>A lane: a line, or marks.</summary>
/// <param name="Name">What it shows.</param>
/// <param name="Unit">Its unit.</param>
internal abstract record RibbonLane(string Name, string Unit)
{
    /// <summary>What is expected, in words; null: nothing.</summary>
    public string? Expected { get; init; }
}

/// <summary>A measured line, and how it is expected to go on.</summary>
/// <param name="Name">What it shows.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Past">Means of short stretches; a missing one is a gap.</param>
/// <param name="Ahead">By the twin; empty: nothing is foretold.</param>
/// <param name="FromZero">Amounts begin at nought; temperatures do not.</param>
internal sealed record LineLane(
    string Name, string Unit, IReadOnlyList<(Instant Time, double Value)> Past, IReadOnlyList<(Instant Time, double Value)> Ahead, bool FromZero) : RibbonLane(Name, Unit)
{
    /// <summary>Points farther apart are not joined.</summary>
    public Duration Gap { get; init; } = Duration.FromMinutes(45);
}

/// <summary>Pump cycles: ticks as tall as their fill was long.</summary>
internal sealed record CycleLane(string Name, string Unit, IReadOnlyList<CyclePoint> Cycles) : RibbonLane(Name, Unit);

/// <summary>Water let in or out, and where it is expected.</summary>
internal sealed record PulseLane(string Name, string Unit, IReadOnlyList<WaterPulse> Pulses) : RibbonLane(Name, Unit);
