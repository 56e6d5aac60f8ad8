namespace Runnel.Place.PlaceFiles;

/// <summary>The sections of one file, each checked key by key.</summary>
internal sealed class PlaceSections
{
    internal SectionValues? Place { get; private set; }

    internal SectionValues? Climate { get; private set; }

    internal SectionValues? Loop { get; private set; }

    internal List<SectionValues> Vessels { get; } = [];

    internal List<SectionValues> Equipment { get; } = [];

    internal List<SectionValues> Channels { get; } = [];

    /// <summary>Sections that are read only where something needs them, by name.</summary>
    internal Dictionary<string, List<TomlTable>> Open { get; } = new(StringComparer.Ordinal);

    internal SectionValues? Broker { get; private set; }

    internal List<SectionValues> Clients { get; } = [];

    internal List<SectionValues> Sources { get; } = [];

    /// <summary>Identifiers declared in sections that are kept for later commands, and in which.</summary>
    internal Dictionary<string, string> OtherIds { get; } = new(StringComparer.Ordinal);

    internal static PlaceSections Read(TomlTable root, ProblemList problems)
    {
        var sections = new PlaceSections();
        foreach (var entry in root.Entries)
        {
            if (SectionRules.Find(entry.Key) is { } rule) sections.ReadSection(rule, entry, problems);
            else ReportUnknown(entry, problems);
        }

        return sections;
    }

    private void ReadSection(SectionRule rule, TomlEntry entry, ProblemList problems)
    {
        List<TomlTable> tables = entry.Value switch
        {
            TomlTable table => [table],
            TomlArray array => [.. array.Items.OfType<TomlTable>()],
            _ => [],
        };
        if (rule.IsOpen)
        {
            Open[rule.Name] = tables;
            foreach (var table in tables) NoteId(rule, table);
            return;
        }

        string brackets = rule.Repeats ? $"[[{rule.Name}]]" : $"[{rule.Name}]";
        bool asMeant = rule.Repeats ? entry.Value is TomlArray array2 && tables.Count == array2.Items.Count : entry.Value is TomlTable;
        if (!asMeant)
        {
            string remedy = rule.Repeats ? $"Begin each with {brackets} and give it an id" : $"Write {brackets} once";
            problems.Add(entry.At, rule.Name, "", brackets, $"{rule.Name} is not written as {brackets}", remedy);
            if (rule.Repeats || tables.Count == 0) return;
        }

        for (int i = 0; i < tables.Count; i++)
        {
            var values = SectionReader.Read(tables[i], rule, i + 1, problems);
            if (rule == SectionRules.Place) Place ??= values;
            else if (rule == SectionRules.Climate) Climate ??= values;
            else if (rule == SectionRules.Loop) Loop ??= values;
            else if (rule == SectionRules.Vessel) Vessels.Add(values);
            else if (rule == SectionRules.Equipment) Equipment.Add(values);
            else if (rule == SectionRules.Broker) Broker ??= values;
            else if (rule == SectionRules.Client) Clients.Add(values);
            else if (rule == SectionRules.Source) Sources.Add(values);
            else Channels.Add(values);
        }
    }

    private void NoteId(SectionRule rule, TomlTable table)
    {
        if ((table.Find("id")?.Value as TomlScalar)?.Value is string id) OtherIds.TryAdd(id, rule.Name);
    }

    private static void ReportUnknown(TomlEntry entry, ProblemList problems)
    {
        string found = PlaceProblem.Quoted(entry.Key);
        if (entry.Value is TomlScalar)
        {
            var home = SectionRules.Read.FirstOrDefault(s => s.Find(entry.Key) is not null);
            problems.Add(
                entry.At, found, entry.Key, "a section", $"the key {found} stands before the first section",
                home is null ? "Move it into its section" : $"Move it below [{home.Name}]");
            return;
        }

        string? nearest = NearestName.To(entry.Key, SectionRules.All.Select(s => s.Name));
        string brackets = nearest is not null && SectionRules.Find(nearest)!.Repeats ? $"[[{nearest}]]" : $"[{nearest}]";
        problems.Add(
            entry.At, found, entry.Key, "a section of the place file", $"there is no section called {found}",
            nearest is null ? "Remove it, or write it as a comment" : $"Write {brackets}, or remove it", nearest);
    }
}
