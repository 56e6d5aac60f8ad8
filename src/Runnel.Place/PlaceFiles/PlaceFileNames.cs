namespace Runnel.Place.PlaceFiles;

/// <summary>The names that a place file may hold: for guides, and for whoever helps to write one.</summary>
public static class PlaceFileNames
{
    /// <summary>Names of all sections, in the order of the guide.</summary>
    public static IReadOnlyList<string> Sections { get; } = [.. SectionRules.All.Select(s => s.Name)];

    /// <summary>Keys of a section; none where its contents are left for later commands, or it is unknown.</summary>
    public static IReadOnlyList<string> KeysOf(string section) => [.. SectionRules.Find(section)?.Keys.Select(k => k.Name) ?? []];

    /// <summary>Name of a kind of vessel.</summary>
    public static string NameOf(VesselKind kind) => KebabNames<VesselKind>.Of(kind);

    /// <summary>Name of a kind of equipment.</summary>
    public static string NameOf(EquipmentKind kind) => KebabNames<EquipmentKind>.Of(kind);

    /// <summary>Any text as an identifier: small letters, digits and hyphens; empty where nothing is left.</summary>
    public static string Kebab(string text) => SectionReader.Kebab(text);

    /// <summary>The known name that comes nearest to what was written, or null where none is near.</summary>
    public static string? Nearest(string written, IEnumerable<string> known) => NearestName.To(written, known);
}
