namespace Runnel.Place.PlaceFiles;

/// <summary>Checks what no single section can show: names used twice, names that name nothing.</summary>
internal static class CrossChecks
{
    /// <summary>Where water comes from or goes to outside the loop; nothing in the file needs to declare these.</summary>
    internal static readonly IReadOnlyList<string> Outside =
    [
        "mains", "tap", "rain", "roof", "well", "bore", "spring", "river", "creek", "dam", "pond", "tanker", "waste", "drain", "sewer",
        "soakaway", "garden", "beds", "orchard", "ground", "outside",
    ];

    internal static void Run(PlaceDraft draft, ProblemList problems)
    {
        // A channel may be named like what it is of: readings and things are never mixed up.
        HashSet<string> things = new(draft.Sections.OtherIds.Keys, StringComparer.Ordinal);
        HashSet<string> channels = new(StringComparer.Ordinal);
        foreach (var (vessel, section) in draft.Vessels) CheckUnused(vessel.Id, things, section, problems);
        foreach (var (equipment, section) in draft.Equipment) CheckUnused(equipment.Id, things, section, problems);
        foreach (var (channel, section) in draft.Channels) CheckUnused(channel.Id, channels, section, problems);

        // Sections that could not be read whole may still be named by others.
        foreach (var section in (IEnumerable<SectionValues>)[.. draft.Sections.Vessels, .. draft.Sections.Equipment])
        {
            if (section.Text("id") is { } id) things.Add(id);
        }

        foreach (var (equipment, section) in draft.Equipment)
        {
            CheckNamed(section, "from", equipment.From, [.. things, .. Outside], problems);
            CheckNamed(section, "to", equipment.To, [.. things, .. Outside], problems);
            CheckNamed(section, "of", equipment.Of, things, problems);
            CheckPump(draft, equipment, problems);
            CheckFloatValve(draft, equipment, section, problems);
        }

        foreach (var (channel, section) in draft.Channels)
        {
            CheckNamed(section, "of", channel.Of, things, problems);
            CheckRunning(draft, channel, section, problems);
        }

        CheckDoubledChannels(draft, problems);
    }

    private static void CheckUnused(string id, HashSet<string> used, SectionValues section, ProblemList problems)
    {
        if (used.Add(id)) return;
        SectionReader.Reject(section, section.Entry("id")!, "an id that is not used yet", $"Give each its own, as in \"{id}-2\"", problems);
    }

    private static void CheckNamed(
        SectionValues section, string key, string? id, IReadOnlyCollection<string> known, ProblemList problems)
    {
        if (id is null || known.Contains(id)) return;
        string? nearest = NearestName.To(id, known);
        SectionReader.Reject(
            section, section.Entry(key)!, "the id of something in this file",
            nearest is null ? $"Declare it, or correct the name; there are: {Listed(known)}" : $"Write \"{nearest}\", or declare it", problems,
            nearest);
    }

    private static string Listed(IReadOnlyCollection<string> known)
    {
        const int most = 8;
        if (known.Count == 0) return "none yet";
        string some = string.Join(", ", known.Take(most));
        return known.Count > most ? some + ", ..." : some;
    }

    private static void CheckPump(PlaceDraft draft, Equipment equipment, ProblemList problems)
    {
        if (equipment.Kind != EquipmentKind.Pump) return;
        var vessel = draft.Vessels.FirstOrDefault(v => v.Vessel.Id == equipment.From).Vessel;
        if (vessel is { Kind: VesselKind.Sump, BandL: null })
        {
            problems.Remarks.Add(
                $"[[vessel]] {vessel.Id} has no band: right where the pump always runs; else add band = \"... L\", the water between the "
                + "two switch levels, so that litres can be told from times.");
        }
    }

    private static void CheckFloatValve(PlaceDraft draft, Equipment equipment, SectionValues section, ProblemList problems)
    {
        if (equipment is not { Kind: EquipmentKind.FloatValve, ShutsAtM: { } shutsAtM }) return;
        var vessel = draft.Vessels.FirstOrDefault(v => v.Vessel.Id == (equipment.Of ?? equipment.To)).Vessel;
        if (vessel?.RimM is { } rimM && shutsAtM > rimM)
        {
            SectionReader.Reject(
                section, section.Entry("shuts-at")!, $"a height below the rim of {vessel.Id} ({QuantityReader.Plain(rimM * 1000)} mm)",
                "Correct shuts-at or rim; both count from the vessel's floor", problems);
        }
    }

    private static void CheckRunning(PlaceDraft draft, Channel channel, SectionValues section, ProblemList problems)
    {
        if (channel.Measures != Quantity.Running) return;
        if (channel.Of is null)
        {
            if (section.Written.Contains("of")) return;
            string equipment = Listed([.. draft.Equipment.Select(e => e.Equipment.Id)]);
            problems.AddMissing(
                section.At, $"{section.Path}.of", "the id of a piece of equipment", $"{section.Title} measures running, but not of what",
                $"Add of = \"...\"; there are: {equipment}");
        }
        else if (draft.Vessels.Any(v => v.Vessel.Id == channel.Of))
        {
            SectionReader.Reject(
                section, section.Entry("of")!, "a piece of equipment, since a vessel does not run",
                "Name the equipment, or correct measures", problems);
        }
    }

    private static void CheckDoubledChannels(PlaceDraft draft, ProblemList problems)
    {
        Dictionary<string, string> names = new(StringComparer.Ordinal);
        foreach (var (channel, _) in draft.Channels) names.TryAdd(channel.Id, channel.Id);
        foreach (var (channel, section) in draft.Channels)
        {
            if (channel.Column is not { } column || column == channel.Id || names.TryAdd(column, channel.Id)) continue;
            SectionReader.Reject(
                section, section.Entry("column")!, $"a name in the log that {names[column]} does not have already",
                "Give each channel its own column", problems);
        }

        foreach (var same in draft.Channels.Where(c => c.Channel.Of is not null).GroupBy(c => (c.Channel.Of, c.Channel.Measures, c.Channel.Seen)))
        {
            var (first, _) = same.First();
            foreach (var (channel, section) in same.Skip(1))
            {
                if (channel.Measures == Quantity.Running)
                {
                    SectionReader.Reject(
                        section, section.Entry("of") ?? section.Entry("id")!, $"one channel for the running of {channel.Of}, and there is {first.Id}",
                        "Remove one, or write seen = \"sensed\" on the one that comes from the motor itself", problems);
                }
                else if (channel.Id != first.Id)
                {
                    problems.Remarks.Add(
                        $"[[channel]] {first.Id} and {channel.Id} both measure {Quantities.NameOf(channel.Measures)} of {channel.Of}.");
                }
            }
        }
    }
}
