using Runnel.Science.Figures;

namespace Runnel.Science.Fish;

/// <summary>Something that biofilter bacteria live on.</summary>
/// <param name="Medium">Name.</param>
/// <param name="SpecificSurfaceM2PerM3">Surface of a heap of it, m²/m³; null where this row does not give it.</param>
/// <param name="VoidFraction">Room between the pieces over the whole, 0 to 1; null where this row does not give it.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record FilterMedium(string Medium, double? SpecificSurfaceM2PerM3, FigureRange? VoidFraction, string Source, string Provenance)
{
    /// <summary>All media, one row a figure.</summary>
    public static IReadOnlyList<FilterMedium> All { get; } = ReferenceData.Read("filter-media.csv", r => new FilterMedium(
        r.Text("medium"), r.NumberOrNull("specific_surface_m2_per_m3"), r.Range("void_min", "void_max"), r.Source, r.Provenance));

    /// <summary>Rows on a medium.</summary>
    /// <param name="medium">Name, as in <see cref="All"/>.</param>
    /// <returns>None where it is not listed.</returns>
    public static IEnumerable<FilterMedium> Of(string medium) => All.Where(m => string.Equals(m.Medium, medium, StringComparison.OrdinalIgnoreCase));
}
