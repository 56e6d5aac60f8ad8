namespace Runnel.Place.PlaceFiles;

/// <summary>Makes a vessel of its section: works out footprint and band where they are told by their parts.</summary>
internal static class VesselReader
{
    internal static Vessel Read(SectionValues section, ProblemList problems)
    {
        double? footprintM2 = section.Number("footprint") ?? FootprintFromSides(section);
        double? lowM = section.Number("switch-low");
        double? highM = section.Number("switch-high");
        if (lowM >= highM)
        {
            SectionReader.Reject(
                section, section.Entry("switch-high")!, $"a height above switch-low ({QuantityReader.Plain(lowM.Value * 1000)} mm)",
                "Correct one of the two heights; both count from the vessel's floor", problems);
        }

        double? workedOutL = footprintM2 * (highM - lowM) * 1000;
        double? bandL = section.Number("band") ?? (workedOutL > 0 ? workedOutL : null);
        if (section.Number("band") is { } told && workedOutL > 0 && Math.Abs(told - workedOutL.Value) > 0.1 * told)
        {
            problems.Remarks.Add(
                $"{section.Title}: the band is told as {QuantityReader.Plain(told)} L, while footprint and switch heights give "
                + $"{QuantityReader.Plain(workedOutL.Value)} L; the told band is used.");
        }

        return new(
            section.Text("id")!, KebabNames<VesselKind>.Find(section.Text("kind")!)!.Value, bandL, footprintM2, lowM, highM,
            section.Number("rim"), ReadOutlet(section, problems));
    }

    private static double? FootprintFromSides(SectionValues section)
    {
        if (section.Number("diameter") is { } diameterM and > 0) return Math.PI / 4 * diameterM * diameterM;
        double? areaM2 = section.Number("length") * section.Number("width");
        return areaM2 > 0 ? areaM2 : null;
    }

    /// <summary>Either the name of the kind, or a table with <c>kind</c> and what later commands read.</summary>
    private static OutletKind? ReadOutlet(SectionValues section, ProblemList problems)
    {
        if (section.Entry("outlet") is not { } entry) return null;
        var value = entry.Value is TomlTable table ? table.Find("kind")?.Value : entry.Value;
        if (value is null) return null;
        string? name = (value as TomlScalar)?.Value as string;
        if (name is not null && KebabNames<OutletKind>.Find(name) is { } kind) return kind;
        var kinds = KebabNames<OutletKind>.All;
        string? nearest = name is null ? null : NearestName.To(name, kinds);
        SectionReader.Reject(
            section, entry with { Value = value }, "a kind of outlet",
            nearest is null ? $"Choose from: {string.Join(", ", kinds)}" : $"Write \"{nearest}\"", problems, nearest);
        return null;
    }
}
