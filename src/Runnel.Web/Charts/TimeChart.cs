using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Web.Charts;

/// <summary>A chart over time: what is drawn, not how.</summary>
public sealed record TimeChart
{
    /// <summary>Short name in addresses and element ids.</summary>
    public required string Id { get; init; }
    public required string Title { get; init; }

    /// <summary>What the drawing shows, in words, for those who cannot see it.</summary>
    public required string Description { get; init; }

    /// <summary>Name of the value axis, with its unit.</summary>
    public required string ValueName { get; init; }
    public required Interval Whole { get; init; }
    public required DateTimeZone Zone { get; init; }
    public required IReadOnlyList<TimeLayer> Layers { get; init; }

    /// <summary>What is drawn instead where a short stretch is shown and there is more to see; null: the same.</summary>
    public CloseView? Close { get; init; }

    /// <summary>Stretches without readings.</summary>
    public IReadOnlyList<Interval> Gaps { get; init; } = [];
    public IReadOnlyList<TimeEvent> Events { get; init; } = [];

    /// <summary>Water let in and out, drawn as marks in a lane of their own.</summary>
    public IReadOnlyList<PulseLane> Lanes { get; init; } = [];

    /// <summary>Amounts show their zero.</summary>
    public bool ZeroShown { get; init; } = true;

    /// <summary>Larger values lower down: for what is missing from a full loop.</summary>
    public bool Downward { get; init; }

    /// <summary>Words at the zero line, or null.</summary>
    public string? ZeroName { get; init; }

    /// <summary>The same numbers, one step away.</summary>
    public required ChartTable Table { get; init; }
}

/// <summary>A chart seen from close by, for stretches of up to <see cref="Longest"/>.</summary>
public sealed record CloseView(string ValueName, IReadOnlyList<TimeLayer> Layers)
{
    public static readonly Duration Longest = Duration.FromDays(4);
}

/// <summary>Something drawn in the frame of a time chart.</summary>
/// <param name="Name">Written at its end where a chart has more than one; empty: not named.</param>
/// <param name="Style">Style class.</param>
public abstract record TimeLayer(string Name, string Style);

/// <summary>A line with its 90 % band, broken where points lie further apart than <paramref name="Longest"/>.</summary>
public sealed record BandLine(string Name, string Style, IReadOnlyList<TimeBand> Points, Duration Longest) : TimeLayer(Name, Style);

/// <summary>Marks with whiskers for their 90 % band; those from <paramref name="MarkedFrom"/> on are filled.</summary>
public sealed record BandMarks(string Name, string Style, IReadOnlyList<TimeBand> Points, Instant? MarkedFrom) : TimeLayer(Name, Style);

/// <summary>A dot for each value, as many as there are.</summary>
public sealed record Dots(string Name, string Style, IReadOnlyList<TimeBand> Points) : TimeLayer(Name, Style);

/// <summary>One bar a civil day, from one value to another (so that bars can be stacked).</summary>
public sealed record DayBars(string Name, string Style, IReadOnlyList<DayBar> Bars) : TimeLayer(Name, Style);

/// <summary>A civil day's bar.</summary>
public readonly record struct DayBar(LocalDate Date, double From, double To);

/// <summary>A moment worth a leader and two or three words.</summary>
public sealed record TimeEvent(Instant Time, string Words);

/// <summary>Marks of water let in (positive litres) or out under the plot.</summary>
public sealed record PulseLane(string Name, string Style, IReadOnlyList<WaterPulse> Pulses);

/// <summary>A table of the numbers behind a chart, already in words.</summary>
public sealed record ChartTable(IReadOnlyList<string> Columns, IReadOnlyList<IReadOnlyList<string>> Rows);
