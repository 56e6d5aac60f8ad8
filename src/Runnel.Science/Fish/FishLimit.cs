using Runnel.Science.Figures;

namespace Runnel.Science.Fish;

/// <summary>What a limit parts.</summary>
public enum FishLimitGrade
{
    /// <summary>Where the fish do well.</summary>
    Comfort,

    /// <summary>Where they suffer: growth, feeding, gills, disease.</summary>
    Stress,

    /// <summary>Where they die.</summary>
    Danger,

    /// <summary>To know, no limit: feeds, law, spawning.</summary>
    Fact,
}

/// <summary>On which side of its value a limit speaks: for comfort where it is good, for stress and danger where the trouble is.</summary>
public enum FishLimitBound
{
    /// <summary>Below the value.</summary>
    Below,

    /// <summary>At the value or below.</summary>
    AtOrBelow,

    /// <summary>Above the value.</summary>
    Above,

    /// <summary>At the value or above.</summary>
    AtOrAbove,

    /// <summary>Above the greatest value; the least is where it is best.</summary>
    AboveGreatest,

    /// <summary>From the least to the greatest value.</summary>
    Within,

    /// <summary>Below the least or above the greatest value.</summary>
    Outside,

    /// <summary>Near the value.</summary>
    About,

    /// <summary>Words only.</summary>
    Text,
}

/// <summary>What a limit asks of the keeper.</summary>
public enum FishAct
{
    /// <summary>Nothing in particular.</summary>
    None,

    /// <summary>Feed less.</summary>
    CutFeed,

    /// <summary>Feed nothing.</summary>
    StopFeeding,

    /// <summary>Neither net nor move the fish.</summary>
    DoNotHandle,

    /// <summary>More air, and fresh water.</summary>
    RaiseAeration,

    /// <summary>Fish are dying or about to.</summary>
    Alarm,
}

/// <summary>A limit of a species. Sources that differ stand side by side; the keeping of fish is also a matter of local law.</summary>
/// <param name="Species">Common name, or a group such as warm-water fish.</param>
/// <param name="ScientificName">Scientific name, or empty.</param>
/// <param name="Quantity">What is limited: <c>water-temperature</c>, <c>dissolved-oxygen</c>, <c>ph</c>, <c>tan</c>, <c>nitrite</c>, ...</param>
/// <param name="Unit">Unit, as in UCUM.</param>
/// <param name="As">What a mass counts: <c>N</c>, <c>NH3</c>, <c>NO2</c>, or empty.</param>
/// <param name="Grade">What the limit parts.</param>
/// <param name="Bound">On which side it speaks.</param>
/// <param name="Value">Value, or both ends; null for words only.</param>
/// <param name="Act">What it asks of the keeper.</param>
/// <param name="Says">The source's own meaning of the limit.</param>
/// <param name="Note">What else to know, or empty.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record FishLimit(
    string Species, string ScientificName, string Quantity, string Unit, string As, FishLimitGrade Grade, FishLimitBound Bound, FigureRange? Value, FishAct Act,
    string Says, string Note, string Source, string Provenance)
{
    /// <summary>Whether the limit speaks at a level: for comfort that it is good there, for stress and danger that it is bad.</summary>
    /// <param name="level">Level, in the unit of the limit.</param>
    /// <returns>True when it does; false for NaN, facts and words.</returns>
    public bool Speaks(double level) => Grade != FishLimitGrade.Fact && Value is { } v && Bound switch
    {
        FishLimitBound.Below => level < v.Least,
        FishLimitBound.AtOrBelow => level <= v.Least,
        FishLimitBound.Above => level > v.Greatest,
        FishLimitBound.AtOrAbove => level >= v.Least,
        FishLimitBound.AboveGreatest => level > v.Greatest,
        FishLimitBound.Within => v.Holds(level),
        FishLimitBound.Outside => level < v.Least || level > v.Greatest,
        _ => false,
    };
}
