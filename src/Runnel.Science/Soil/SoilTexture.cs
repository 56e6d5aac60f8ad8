using Runnel.Science.Figures;

namespace Runnel.Science.Soil;

/// <summary>Water held by a soil of a texture.</summary>
/// <param name="Texture">Name of the texture.</param>
/// <param name="FieldCapacity">Water at field capacity, m³/m³.</param>
/// <param name="WiltingPoint">Water at wilting point, m³/m³.</param>
/// <param name="Available">Difference of the two, m³/m³.</param>
/// <param name="ReadilyEvaporableMm">Readily evaporable water of the top 10 cm, mm.</param>
/// <param name="TotalEvaporableMm">Total evaporable water of the top 10 cm, mm.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">How it was come by, see <see cref="ReferenceData"/>.</param>
public sealed record SoilTexture(
    string Texture, FigureRange FieldCapacity, FigureRange WiltingPoint, FigureRange Available, FigureRange ReadilyEvaporableMm, FigureRange TotalEvaporableMm,
    string Source, string Provenance)
{
    /// <summary>All textures listed (FAO-56 table 19).</summary>
    public static IReadOnlyList<SoilTexture> All { get; } = ReferenceData.Read("soil-textures.csv", r => new SoilTexture(
        r.Text("texture"), Range(r, "fc", "_m3_m3"), Range(r, "wp", "_m3_m3"), Range(r, "available", "_m3_m3"), Range(r, "rew", "_mm"), Range(r, "tew", "_mm"), r.Source, r.Provenance));

    /// <summary>A texture.</summary>
    /// <param name="texture">Name, as in <see cref="All"/>.</param>
    /// <returns>Its figures, or null where it is not listed.</returns>
    public static SoilTexture? Find(string texture) => All.FirstOrDefault(t => string.Equals(t.Texture, texture, StringComparison.OrdinalIgnoreCase));

    private static FigureRange Range(ReferenceRow row, string what, string unit) =>
        row.Range($"{what}_min{unit}", $"{what}_max{unit}") ?? throw row.Wrong($"{what} is missing");
}
