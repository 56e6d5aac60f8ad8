using NodaTime;

namespace Runnel.Place.Findings;

/// <summary>What the charts of a diagnosis are drawn from. Lists are in time order.</summary>
public sealed record Evidence
{
    /// <summary>Every pump cycle: a fill and the run that ended it.</summary>
    public required IReadOnlyList<CyclePoint> Cycles { get; init; }

    /// <summary>Run time this loop shows in health over its fill time, as learnt; shortest fill first. Empty where not learnt.</summary>
    public required IReadOnlyList<BandPoint> RunOverFill { get; init; }

    /// <summary>Litres short of full, hour by hour.</summary>
    public required IReadOnlyList<TimeBand> LitresShort { get; init; }

    /// <summary>How far the run departs from the learnt curve at its fill, percent, half-day by half-day.</summary>
    public required IReadOnlyList<TimeBand> RunDeparturePercent { get; init; }

    /// <summary>Sump level by the hour where it is measured, mm; else empty.</summary>
    public required IReadOnlyList<TimeBand> LevelMm { get; init; }

    /// <summary>Top-ups and bleeds as logged.</summary>
    public required IReadOnlyList<WaterPulse> Pulses { get; init; }

    /// <summary>Times in which there are no readings.</summary>
    public required IReadOnlyList<Interval> Gaps { get; init; }
}

/// <summary>One pump cycle.</summary>
/// <param name="Start">When the fill began.</param>
/// <param name="FillS">From pump off to pump on, s.</param>
/// <param name="RunS">From pump on to pump off, s.</param>
/// <param name="Disturbed">A top-up, bleed, work or a gap touched it: not used for learning.</param>
public readonly record struct CyclePoint(Instant Start, double FillS, double RunS, bool Disturbed);

/// <summary>A curve with its 90 % band over <paramref name="X"/>.</summary>
public readonly record struct BandPoint(double X, double Value, double Low, double High);

/// <summary>A value with its 90 % band at a time.</summary>
public readonly record struct TimeBand(Instant Time, double Value, double Low, double High);

/// <summary>Water let in (positive) or out (negative) through a logged valve.</summary>
public readonly record struct WaterPulse(Instant Start, Duration Length, double Litres, string Of);
