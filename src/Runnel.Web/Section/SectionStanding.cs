using Runnel.Place.Findings;

namespace Runnel.Web.Section;

/// <summary>How a water level is known.</summary>
public enum LevelFrom
{
    /// <summary>A sensor reads it.</summary>
    Read,

    /// <summary>Reckoned, from the pump's cycles or from the height at which the vessel empties.</summary>
    Reckoned,

    /// <summary>Nobody knows.</summary>
    Unknown,
}

/// <summary>The water of a vessel.</summary>
/// <param name="LevelM">Above its floor, m; null: not known.</param>
/// <param name="From">How that is known.</param>
/// <param name="IsStale">The reading is old.</param>
public sealed record WaterStanding(double? LevelM, LevelFrom From, bool IsStale = false);

/// <summary>A line of words at a part of the drawing.</summary>
/// <param name="Text">The words.</param>
/// <param name="IsFigure">A figure that counts: set larger.</param>
public readonly record struct PartLine(string Text, bool IsFigure = false);

/// <summary>The part that is in trouble.</summary>
/// <param name="Urgency">How soon it wants a person.</param>
/// <param name="PartIds">Vessels or equipment; several where it cannot be told which.</param>
/// <param name="Words">What is the matter, in a few words.</param>
public sealed record TroubleMark(Urgency Urgency, IReadOnlyList<string> PartIds, string Words);

/// <summary>What a drawing shows at one moment; everything may be left out, and is then shown as not known.</summary>
public sealed record SectionStanding
{
    /// <summary>By vessel.</summary>
    public IReadOnlyDictionary<string, WaterStanding> Water { get; init; } = new Dictionary<string, WaterStanding>();

    /// <summary>By equipment: whether it runs or stands open. Left out: not known.</summary>
    public IReadOnlyDictionary<string, bool> Running { get; init; } = new Dictionary<string, bool>();

    /// <summary>By vessel or equipment: figures that stand beside its name.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<PartLine>> Words { get; init; } = new Dictionary<string, IReadOnlyList<PartLine>>();

    /// <summary>Water comes back by gravity; null: not known.</summary>
    public bool? ReturnsFlow { get; init; }

    /// <summary>Flow by which the pace of the motion is set, L/min; null: not known.</summary>
    public double? FlowLPerMin { get; init; }

    public TroubleMark? Trouble { get; init; }

    public static readonly SectionStanding NothingKnown = new();
}
