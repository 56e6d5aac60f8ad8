using Runnel.Science.Figures;

namespace Runnel.Science.Fish;

/// <summary>How a level suits fish.</summary>
public enum FishComfort
{
    /// <summary>No source says anything of this quantity here.</summary>
    NothingKnown,

    /// <summary>Within what every source calls good.</summary>
    Comfort,

    /// <summary>Not within what some source calls good, and no trouble named.</summary>
    OutsideComfort,

    /// <summary>Some source names trouble short of death.</summary>
    Stress,

    /// <summary>Some source has fish die there.</summary>
    Danger,
}

/// <summary>How a level suits a species.</summary>
/// <param name="Comfort">Verdict.</param>
/// <param name="Because">The limits that it rests on, the gravest first; their sources belong beside the verdict.</param>
public sealed record FishVerdict(FishComfort Comfort, IReadOnlyList<FishLimit> Because);

/// <summary>The limits of fish, of plants in their water and of filter bacteria.</summary>
public static class FishLimits
{
    /// <summary>All limits.</summary>
    public static IReadOnlyList<FishLimit> All { get; } = ReferenceData.Read("fish-limits.csv", r => new FishLimit(
        r.Text("species"), r.Optional("scientific_name") ?? "", r.Text("quantity"), r.Text("unit"), r.Optional("as") ?? "", r.Word<FishLimitGrade>("grade"),
        r.Word<FishLimitBound>("bound"), r.Range("value", "value_max"), r.Optional("act") is null ? FishAct.None : r.Word<FishAct>("act"), r.Text("says"),
        r.Optional("note") ?? "", r.Source, r.Provenance));

    /// <summary>Species and groups listed.</summary>
    public static IReadOnlyList<string> Species { get; } = [.. All.Select(l => l.Species).Distinct()];

    /// <summary>Limits of a species on a quantity.</summary>
    /// <param name="species">Common name, its beginning, or scientific name.</param>
    /// <param name="quantity">Quantity, or null for all.</param>
    /// <returns>None where nothing is listed.</returns>
    public static IEnumerable<FishLimit> Of(string species, string? quantity = null) => All.Where(l =>
        (l.Species.StartsWith(species, StringComparison.OrdinalIgnoreCase) || string.Equals(l.ScientificName, species, StringComparison.OrdinalIgnoreCase))
        && (quantity is null || l.Quantity == quantity));

    /// <summary>Limits that speak of trouble at a level, the gravest first.</summary>
    /// <param name="species">Common name, its beginning, or scientific name.</param>
    /// <param name="quantity">Quantity.</param>
    /// <param name="level">Level, in the unit of the limits.</param>
    /// <returns>Limits of grade stress or danger that hold there; where sources differ the stricter ones speak alone, and the caller shows whose they are.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The level is NaN or infinite.</exception>
    public static IReadOnlyList<FishLimit> Trouble(string species, string quantity, double level)
    {
        Require.Finite(level);
        return [.. Of(species, quantity).Where(l => l.Grade is FishLimitGrade.Stress or FishLimitGrade.Danger && l.Speaks(level)).OrderByDescending(l => l.Grade)];
    }

    /// <summary>How a level suits a species by all sources together; where they differ the stricter one counts.</summary>
    /// <param name="species">Common name, its beginning, or scientific name.</param>
    /// <param name="quantity">Quantity.</param>
    /// <param name="level">Level, in the unit of the limits.</param>
    /// <returns>Verdict and the limits that it rests on.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The level is NaN or infinite.</exception>
    public static FishVerdict Judge(string species, string quantity, double level)
    {
        var trouble = Trouble(species, quantity, level);
        if (trouble.Count > 0) return new FishVerdict(trouble[0].Grade == FishLimitGrade.Danger ? FishComfort.Danger : FishComfort.Stress, trouble);
        var comfort = Of(species, quantity).Where(l => l.Grade == FishLimitGrade.Comfort).ToArray();
        var missed = comfort.Where(l => !l.Speaks(level)).ToArray();
        return missed.Length > 0 ? new FishVerdict(FishComfort.OutsideComfort, missed) : new FishVerdict(comfort.Length > 0 ? FishComfort.Comfort : FishComfort.NothingKnown, comfort);
    }
}
