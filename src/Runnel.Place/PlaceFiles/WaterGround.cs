using Runnel.Science.Units;

namespace Runnel.Place.PlaceFiles;

/// <summary>What outlets, pumps and valves ask of the vessels round about: whether a target exists, and how high its floor stands.</summary>
internal sealed class WaterGround(PlaceDraft draft, ProblemList problems)
{
    private readonly HashSet<string> _vesselIds = [.. draft.Vessels.Select(v => v.Vessel.Id)];

    public bool Has(string vessel) => _vesselIds.Contains(vessel);

    public void CheckTarget(SectionValues section, string key, string to, string self)
    {
        if ((_vesselIds.Contains(to) && to != self) || CrossChecks.Outside.Contains(to)) return;
        var entry = section.Entry(key) ?? section.Entry("id")!;
        string? nearest = NearestName.To(to, [.. _vesselIds, .. CrossChecks.Outside]);
        problems.Add(
            entry.At, $"{section.Path}.{key}", to, "the id of another vessel, or a word for the world outside",
            $"{key} of {section.Title} leads to {PlaceProblem.Quoted(to)}, which is no other vessel of this file",
            nearest is null ? "Declare it, or correct the name" : $"Write \"{nearest}\", or declare it", nearest);
    }

    public double? FloorOf(string vessel)
    {
        var section = draft.Vessels.FirstOrDefault(v => v.Vessel.Id == vessel).Section;
        return section is null ? null : Floor(section);
    }

    /// <summary>The floor of the vessel of that section, or null where it is not told.</summary>
    public double? Floor(SectionValues section) => Length(section, "floor-height") ?? Length(section, "floor");

    /// <summary>Where a pipe ends that tells its height over the floor of the vessel it ends in; null where it does not.</summary>
    public double? EndOf(SectionValues pipe, string to) => pipe.Number("end-height") is { } above ? FloorOf(to) + above : null;

    public double? Length(SectionValues section, string key) => Quantity(section, key, "m");

    public double? Quantity(SectionValues section, string key, string unit) =>
        section.Entry(key) is { } entry ? QuantityReader.Read(section, entry, Unit.Of(unit), unit == "m" ? "\"355 mm\"" : unit == "s" ? "\"5 min\"" : "\"2.5 m2\"", problems) : null;
}
