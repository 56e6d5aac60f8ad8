using Runnel.Science.Figures;

namespace Runnel.Science.Drying;

/// <summary>Water in a food.</summary>
/// <param name="Food">Name.</param>
/// <param name="Species">Scientific name, or empty.</param>
/// <param name="IsDried">Whether it is dried already.</param>
/// <param name="WaterFraction">Water over the whole mass (wet basis), 0 to 1.</param>
/// <param name="PlusMinus">Standard deviation between samples, or the rounding, 0 to 1.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record ProduceMoisture(string Food, string Species, bool IsDried, double WaterFraction, double PlusMinus, string Source, string Provenance)
{
    /// <summary>All foods listed.</summary>
    public static IReadOnlyList<ProduceMoisture> All { get; } = ReferenceData.Read("produce-moisture.csv", r => new ProduceMoisture(
        r.Text("food"), r.Optional("species") ?? "", r.Text("state") switch { "dried" => true, "fresh" => false, var other => throw r.Wrong($"state is fresh or dried, not {other}") },
        r.Number("water_g_per_100g") / 100, r.Number("plus_minus_g_per_100g") / 100, r.Source, r.Provenance));

    /// <summary>Foods whose name holds a word; several sources and kinds stand side by side.</summary>
    /// <param name="word">Part of the name.</param>
    /// <returns>None where no name holds it.</returns>
    public static IEnumerable<ProduceMoisture> Named(string word) => All.Where(f => f.Food.Contains(word, StringComparison.OrdinalIgnoreCase));
}

/// <summary>A limit that keeps dried food safe. Local food law and tested recipes come first; meat, fish and low-acid food kept without cold need a licensed trade's advice.</summary>
/// <param name="Subject">What it holds for.</param>
/// <param name="Quantity">What is limited.</param>
/// <param name="Value">The limit.</param>
/// <param name="Unit">Its unit, as in UCUM.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record DryingLimit(string Subject, string Quantity, double Value, string Unit, string Source, string Provenance)
{
    /// <summary>All limits.</summary>
    public static IReadOnlyList<DryingLimit> All { get; } = ReferenceData.Read("drying-limits.csv", r => new DryingLimit(
        r.Text("subject"), r.Text("quantity"), r.Number("value"), r.Text("unit"), r.Source, r.Provenance));
}
