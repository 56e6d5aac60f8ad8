namespace Runnel.Science.Reckoning;

/// <summary>All relations that people can reckon with, by subject.</summary>
public static class Catalogue
{
    private static readonly (Subject Subject, Relation[] Relations)[] Sections =
    [
        (new("water-tests", "What do my water tests say?"), [.. WaterTests.All, FishFigures.Comfort, FishFigures.TemperatureDecision]),
        (new("dosing", "What do I add, and how much?"), Dosing.All),
        (new("air-for-fish", "How long can they go without air?"), AirForFish.All),
        (new("aerating", "What does my air pump give?"), Aerating.All),
        (new("ph-and-hardness", "Why does my pH do that?"), [.. WaterChemistry.All, .. UnitSums.All]),
        (new("feed-and-growth", "How much do I feed, and how do they grow?"), FeedAndGrowth.All),
        (new("filter", "Is my filter big enough?"), [.. FilterAndStart.All, .. FilterStarts.All]),
        (new("plants-and-fish", "How many fish for how many plants?"), PlantsAndFish.All),
        (new("watering", "How long do I water?"), [.. Watering.All, .. BareSoil.All]),
        (new("pipes", "How does the water run?"), [.. PipeSums.All, .. FittingsAndFouling.All, .. NetworkSums.All]),
        (new("pumps", "What will my pump do?"), PumpSums.All),
        (new("sump", "What does the sump tell me?"), SumpSums.All),
        (new("gravity", "What runs over, through and down by itself?"), [.. ByGravity.All, .. DrainSums.All, .. EmptyingSums.All]),
        (new("settling", "Where do the solids go?"), SettlingSums.All),
        (new("rain", "How much rain can I catch?"), Rain.All),
        (new("weather", "How much do sun and wind take?"), Weather.All),
        (new("small-waters", "How much evaporates here?"), OtherEvaporation.All),
        (new("drying", "When is it dry, and will it keep?"), [.. DryingFood.All, .. DryingCurves.All]),
        (new("power", "Have I power enough?"), [.. PowerForIt.All, .. CellsAndLosses.All]),
        (new("air-and-sun", "What do air and sun do?"), AirAndSun.All),
        (new("sun-and-panels", "How much sun falls on my panels?"), SunAndPanels.All),
        (new("steps", "How is evapotranspiration worked out, step by step?"), [.. AirBySteps.All, .. RadiationBySteps.All]),
        (new("readings", "What do my readings say?"), [.. ReadingSums.All, .. ChartSums.All, .. CurveSums.All]),
        (new("books", "What do the books say?"), Books.All),
    ];

    private static readonly Dictionary<string, Relation> ByName;

    static Catalogue()
    {
        var other = TableName.All.ToLookup(t => t.Of);
        All = [.. Sections.SelectMany(s => s.Relations.Select(r => r with { Subject = s.Subject, AlsoCalled = [.. other[r.Name].Select(t => t.Name)] }))];
        ByName = All.ToDictionary(r => r.Name, StringComparer.OrdinalIgnoreCase);
        foreach (var name in TableName.All) ByName.Add(name.Name, name.Made(ByName[name.Of]));
    }

    /// <summary>All relations, subject by subject.</summary>
    public static IReadOnlyList<Relation> All { get; }

    /// <summary>The subjects, in the order in which people meet them.</summary>
    public static IEnumerable<Subject> Subjects => Sections.Select(s => s.Subject);

    /// <summary>The relation of a name; underscores and hyphens are one.</summary>
    /// <param name="name">Name, or the name of a kind of row in a published table (<see cref="Relation.AlsoCalled"/>).</param>
    /// <returns>The relation, or null.</returns>
    public static Relation? Find(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return ByName.GetValueOrDefault(name.Trim().Replace('_', '-'));
    }
}
