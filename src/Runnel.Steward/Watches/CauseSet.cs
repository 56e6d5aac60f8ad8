using Runnel.Place.Findings;

namespace Runnel.Steward.Watches;

/// <summary>Turns weights into ranked causes.</summary>
internal static class CauseSet
{
    /// <summary>Causes with their weights as shares of one, likeliest first; a weight of nothing leaves the cause out.</summary>
    public static IReadOnlyList<Cause> Of(params ReadOnlySpan<(string Name, double Weight)> weights)
    {
        double sum = 0;
        foreach (var (_, weight) in weights) sum += Math.Max(0, weight);
        var causes = new List<Cause>();
        foreach (var (name, weight) in weights)
        {
            // Rounded down, so that the shares never add up to more than one.
            if (weight > 0) causes.Add(new Cause(name, Math.Max(0.01, Math.Floor(100 * weight / sum) / 100)));
        }

        return [.. causes.OrderByDescending(c => c.Probability)];
    }

    /// <summary>One cause, and how sure it is.</summary>
    public static IReadOnlyList<Cause> Only(string name, double probability) => [new Cause(name, probability)];
}
