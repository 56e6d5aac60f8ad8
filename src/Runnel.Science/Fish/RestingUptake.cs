namespace Runnel.Science.Fish;

/// <summary>Oxygen uptake of unfed fish of any species: by its own model where there is one, else by the thirstiest of its group.</summary>
/// <param name="MgPerKgH">Uptake, mg for each kg and hour.</param>
/// <param name="Model">Model that gave it.</param>
/// <param name="StandsIn">The model is of another species.</param>
public readonly record struct RestingUptake(double MgPerKgH, RespirationModel Model, bool StandsIn)
{
    private static readonly RespirationModel[]
        Warm = [.. Models("tilapia", "bluegill adult", "largemouth bass")], Cold = [.. Models("rainbow trout adult", "rainbow trout juvenile", "brook trout")];

    /// <summary>Trout lighter than this are reckoned as juveniles, g (common practice).</summary>
    private const double JuvenileBelowG = 50;

    /// <summary>Uptake of a species.</summary>
    /// <param name="species">Common name.</param>
    /// <param name="coldWater">A cold-water fish.</param>
    /// <param name="weightG">Weight of one, g.</param>
    /// <param name="waterTempC">Water temperature, °C, 0 to 45.</param>
    /// <returns>Uptake and what it rests on.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input is NaN or out of range.</exception>
    /// <remarks>Near the temperature that kills a species its model falls to nothing; there the greatest uptake below it is kept.</remarks>
    public static RestingUptake Of(string species, bool coldWater, double weightG, double waterTempC)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(species);
        if (Own(species, weightG) is { } own) return new RestingUptake(Uptake(own, weightG, waterTempC), own, false);
        var thirstiest = (coldWater ? Cold : Warm).MaxBy(m => Uptake(m, weightG, waterTempC))!;
        return new RestingUptake(Uptake(thirstiest, weightG, waterTempC), thirstiest, true);
    }

    private static double Uptake(RespirationModel model, double weightG, double waterTempC) =>
        Respiration.StandardMgPerKgH(model, weightG, model.OptimumC > 0 ? Math.Min(waterTempC, model.OptimumC) : waterTempC);

    private static RespirationModel? Own(string species, double weightG)
    {
        bool Is(string word) => species.Contains(word, StringComparison.OrdinalIgnoreCase);
        if (Is("tilapia")) return Respiration.Find("tilapia");
        if (Is("rainbow trout")) return Respiration.Find(weightG < JuvenileBelowG ? "rainbow trout juvenile" : "rainbow trout adult");
        return Respiration.Find(species);
    }

    private static IEnumerable<RespirationModel> Models(params string[] names) => names.Select(n => Respiration.Find(n)!);
}
