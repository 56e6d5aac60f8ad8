namespace Runnel.Science.Fish;

/// <summary>Oxygen below which fish suffer, and below which they die.</summary>
/// <param name="ColdWater">Held to the limits of cold-water fish.</param>
/// <param name="Known">The species itself is listed; otherwise only its group's limits stand.</param>
/// <param name="StressMgPerL">Below it they suffer by the strictest source, mg/L.</param>
/// <param name="DangerMgPerL">Below it they die by the strictest source, mg/L.</param>
/// <param name="Stress">The limit that gives the first.</param>
/// <param name="Danger">The limit that gives the second.</param>
public sealed record OxygenNeed(bool ColdWater, bool Known, double StressMgPerL, double DangerMgPerL, FishLimit Stress, FishLimit Danger)
{
    private const string Oxygen = "dissolved-oxygen";

    /// <summary>Fish that are best kept below this are cold-water fish, °C (common practice).</summary>
    private const double ColdBelowC = 21;

    /// <summary>What a species needs; where sources differ, the strictest counts.</summary>
    /// <param name="species">Common name, its beginning, or scientific name; an unknown one is held to the stricter group.</param>
    /// <returns>Its need.</returns>
    public static OxygenNeed Of(string species)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(species);
        var own = FishLimits.Of(species).ToList();

        // "Trout" and "tilapia" are said of fish that the list names more closely.
        if (own.Count == 0) own = [.. FishLimits.All.Where(l => l.Species.Contains(species.Trim(), StringComparison.OrdinalIgnoreCase))];
        bool known = own.Count > 0;
        var warmth = own.Where(l => l.Quantity == "water-temperature").Where(l => l is { Grade: FishLimitGrade.Comfort, Value: not null, Bound: FishLimitBound.Within }).ToList();
        bool cold = !known || (warmth.Count > 0 && warmth.Max(l => l.Value!.Value.Greatest) < ColdBelowC);
        var group = FishLimits.Of(cold ? "cold-water fish" : "warm-water fish", Oxygen);
        FishLimit[] limits = [.. own.Where(l => l.Quantity == Oxygen), .. group.Where(l => l.Grade != FishLimitGrade.Comfort)];
        var danger = limits.Where(l => l.Grade == FishLimitGrade.Danger).MaxBy(Bound)!;

        // What a source would have kept is held against what another calls trouble: the higher one is the edge of stress.
        var stress = limits.Where(l => l.Grade is FishLimitGrade.Comfort or FishLimitGrade.Stress).MaxBy(Bound)!;
        return new OxygenNeed(cold, known, Math.Max(Bound(stress), Bound(danger)), Bound(danger), stress, danger);
    }

    /// <summary>Of a range of comfort its least; of a range of trouble its greatest.</summary>
    private static double Bound(FishLimit limit) => limit.Value is not { } v ? 0 : limit.Grade == FishLimitGrade.Comfort ? v.Least : v.Greatest;
}
