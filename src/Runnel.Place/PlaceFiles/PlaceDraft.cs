using NodaTime;

namespace Runnel.Place.PlaceFiles;

/// <summary>A place as far as its file could be read, beside the sections it came from.</summary>
internal sealed class PlaceDraft(PlaceSections sections)
{
    internal PlaceSections Sections { get; } = sections;

    internal Climate? Climate { get; private set; }

    internal List<(Vessel Vessel, SectionValues Section)> Vessels { get; } = [];

    internal List<(Equipment Equipment, SectionValues Section)> Equipment { get; } = [];

    internal List<(Channel Channel, SectionValues Section)> Channels { get; } = [];

    internal static PlaceDraft Of(PlaceSections sections, ProblemList problems)
    {
        var draft = new PlaceDraft(sections) { Climate = ClimateReader.Read(sections.Climate, problems) };
        foreach (var section in sections.Vessels)
        {
            if (HasBoth(section, "id", "kind", problems)) draft.Vessels.Add((VesselReader.Read(section, problems), section));
        }

        foreach (var section in sections.Equipment)
        {
            if (HasBoth(section, "id", "kind", problems)) draft.Equipment.Add((ReadEquipment(section), section));
        }

        foreach (var section in sections.Channels)
        {
            if (HasBoth(section, "id", "measures", problems)) draft.Channels.Add((ChannelReader.Read(section, problems), section));
        }

        return draft;
    }

    /// <summary>The finished place; what was not told and not needed is left open (NaN for the site, UTC for the zone).</summary>
    internal PlaceDescription ToPlace() => new(
        Sections.Place?.Text("name") ?? "unnamed place",
        Sections.Place?.Number("latitude") ?? double.NaN,
        Sections.Place?.Number("longitude") ?? double.NaN,
        Sections.Place?.Number("altitude") ?? double.NaN,
        Sections.Place?.Value<DateTimeZone>("time-zone") ?? DateTimeZone.Utc,
        new(Sections.Loop?.Number("open-water"), Sections.Loop?.Number("canopy"), Sections.Loop?.Number("rain-catch")),
        [.. Vessels.Select(v => v.Vessel)],
        [.. Equipment.Select(e => e.Equipment)],
        [.. Channels.Select(c => c.Channel)])
    {
        Climate = Climate,
    };

    private static Equipment ReadEquipment(SectionValues section) => new(
        section.Text("id")!,
        KebabNames<EquipmentKind>.Find(section.Text("kind")!)!.Value,
        section.Text("from"),
        section.Text("to"),
        section.Text("of"),
        section.Number("rate"),
        section.Number("rated-power") ?? section.Number("power"),
        section.Number("shuts-at"));

    private static bool HasBoth(SectionValues section, string first, string second, ProblemList problems)
    {
        foreach (string key in (string[])[first, second])
        {
            if (section.Written.Contains(key)) continue;
            string example = section.Rule.Find(key) switch
            {
                { Choices: { } choices } => $"Add {key} = \"...\": one of {string.Join(", ", choices)}",
                _ => $"Add {key} = \"...\": a short name of small letters, digits and hyphens",
            };
            problems.AddMissing(section.At, $"{section.Path}.{key}", "", $"{section.Title} has no {key}", example);
        }

        return section.Text(first) is not null && section.Text(second) is not null;
    }
}
