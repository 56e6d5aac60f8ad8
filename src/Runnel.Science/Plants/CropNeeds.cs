using Runnel.Science.Figures;

namespace Runnel.Science.Plants;

/// <summary>What a crop in a loop of fish water wants. Several sources on one crop stand side by side.</summary>
/// <param name="Crop">Name.</param>
/// <param name="Ph">pH of the water.</param>
/// <param name="PlantsPerM2">Plants, 1/m².</param>
/// <param name="SpacingCm">Between plants, cm.</param>
/// <param name="GerminationDays">From seed, days.</param>
/// <param name="GerminationTempC">For germination, °C.</param>
/// <param name="GrowthDays">From transplanting to harvest, days.</param>
/// <param name="TempC">Air temperatures it stands, °C.</param>
/// <param name="OptimalTempC">Air temperatures it likes, °C.</param>
/// <param name="Note">What else to know, or empty.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record CropNeeds(
    string Crop, FigureRange? Ph, FigureRange? PlantsPerM2, FigureRange? SpacingCm, FigureRange? GerminationDays, FigureRange? GerminationTempC, FigureRange? GrowthDays,
    FigureRange? TempC, FigureRange? OptimalTempC, string Note, string Source, string Provenance)
{
    /// <summary>All crops listed.</summary>
    public static IReadOnlyList<CropNeeds> All { get; } = ReferenceData.Read("crop-needs.csv", r => new CropNeeds(
        r.Text("crop"), r.Range("ph_min", "ph_max"), r.Range("plants_per_m2_min", "plants_per_m2_max"), r.Range("spacing_cm_min", "spacing_cm_max"),
        r.Range("germination_days_min", "germination_days_max"), r.Range("germination_temp_c_min", "germination_temp_c_max"),
        r.Range("growth_days_min", "growth_days_max"), r.Range("temp_c_min", "temp_c_max"), r.Range("optimal_temp_c_min", "optimal_temp_c_max"),
        r.Optional("note") ?? "", r.Source, r.Provenance));

    /// <summary>A crop, one for each source.</summary>
    /// <param name="crop">Name or its beginning: lettuce finds lettuce (FAO) too.</param>
    /// <returns>None where it is not listed.</returns>
    public static IEnumerable<CropNeeds> Of(string crop) => All.Where(c => c.Crop.StartsWith(crop, StringComparison.OrdinalIgnoreCase));
}

/// <summary>What leaves look like when an element is short. Old leaves show it first where the plant can move the element, new ones where it cannot.</summary>
/// <param name="Element">Symbol of the element.</param>
/// <param name="OldLeaves">Whether old leaves show it first.</param>
/// <param name="Sign">What is seen.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record DeficiencySign(string Element, bool OldLeaves, string Sign, string Source, string Provenance)
{
    /// <summary>All signs.</summary>
    public static IReadOnlyList<DeficiencySign> All { get; } = ReferenceData.Read("deficiency-signs.csv", r => new DeficiencySign(
        r.Text("element"), r.Text("leaf_age") switch { "old" => true, "new" => false, var other => throw r.Wrong($"leaf_age is old or new, not {other}") },
        r.Text("sign"), r.Source, r.Provenance));
}
