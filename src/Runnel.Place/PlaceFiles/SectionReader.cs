using NodaTime;

namespace Runnel.Place.PlaceFiles;

/// <summary>Checks the keys and values of a section against its rule.</summary>
internal static class SectionReader
{
    internal static SectionValues Read(TomlTable table, SectionRule rule, int ordinal, ProblemList problems)
    {
        string id = (table.Find("id")?.Value as TomlScalar)?.Value as string is { Length: > 0 } text ? PlaceProblem.Quoted(text) : $"no. {ordinal}";
        var values = new SectionValues(rule, rule.Repeats ? $"{rule.Name}.{id}" : rule.Name, table.At);
        foreach (var entry in table.Entries)
        {
            values.Written.Add(entry.Key);
            if (rule.Find(entry.Key) is not { } key)
            {
                ReportUnknownKey(values, entry, problems);
                continue;
            }

            if (ReadValue(values, key, entry, problems) is { } value) values.Set(entry, value);
        }

        return values;
    }

    /// <summary>Reports a value that will not do, in the one form all of them share.</summary>
    internal static void Reject(
        SectionValues section, TomlEntry entry, string expected, string remedy, ProblemList problems, string? nearest = null)
    {
        string found = Written(entry.Value);
        problems.Add(
            entry.Value.At, $"{section.Path}.{entry.Key}", found, expected,
            $"{entry.Key} of {section.Title} is {PlaceProblem.Quoted(found)}, where {expected} is expected", remedy, nearest);
    }

    private static void ReportUnknownKey(SectionValues section, TomlEntry entry, ProblemList problems)
    {
        string found = PlaceProblem.Quoted(entry.Key);
        string? nearest = NearestName.To(entry.Key, section.Rule.Keys.Select(k => k.Name).Where(k => !section.Written.Contains(k)))
            ?? NearestName.To(entry.Key, section.Rule.Keys.Select(k => k.Name));
        // A misspelt key is not missing as well.
        if (nearest is not null) section.Written.Add(nearest);
        problems.Add(
            entry.At, $"{section.Path}.{found}", entry.Key, "a key of this section",
            $"{section.Title} has no key {found}", nearest is null ? "Remove it, or write it as a comment" : $"Write {nearest}, or remove it",
            nearest);
    }

    private static object? ReadValue(SectionValues section, KeyRule key, TomlEntry entry, ProblemList problems)
    {
        object? plain = (entry.Value as TomlScalar)?.Value;
        switch (key.Form)
        {
            case Form.Anything:
                return entry.Value;

            case Form.Text when plain is string blank && blank.Trim().Length == 0:
                return null; // as good as not told

            case Form.Text or Form.Reference:
                if (plain is string text && text.Trim().Length > 0) return text.Trim();
                Reject(section, entry, "a text in quotes", $"Write {key.Name} = \"...\"", problems);
                return null;

            case Form.Identifier:
                if (plain is string id && IsKebabCase(id)) return id;
                string? better = plain is string wrong ? Kebab(wrong) : null;
                Reject(
                    section, entry, "an identifier of small letters, digits and hyphens",
                    better is { Length: > 0 } ? $"Write \"{better}\"" : $"Write it as in {key.Example}", problems);
                return null;

            case Form.Choice:
                if (plain is string choice && key.Choices!.Contains(choice)) return choice;
                string? nearest = plain is string near ? NearestName.To(near, key.Choices!) : null;
                string one = key.Choices!.Count > 4 ? "a known name" : $"one of {string.Join(", ", key.Choices)}";
                Reject(
                    section, entry, one, nearest is null ? $"Choose from: {string.Join(", ", key.Choices)}" : $"Write \"{nearest}\"", problems,
                    nearest);
                return null;

            case Form.Number:
                if (plain is double number && double.IsFinite(number)) return number;
                Reject(section, entry, "a bare number", $"Write it without quotes or unit, as in {key.Name} = 0.2", problems);
                return null;

            case Form.Quantity:
                return QuantityReader.Read(section, entry, key, problems);

            case Form.Latitude:
                return AngleReader.Read(section, entry, key, 'N', 'S', 90, problems);

            case Form.Longitude:
                return AngleReader.Read(section, entry, key, 'E', 'W', 180, problems);

            case Form.Months:
                return MonthsReader.Read(section, entry, key, problems);

            case Form.TimeZone:
                return ReadTimeZone(section, entry, plain as string, problems);

            default:
                throw new InvalidOperationException($"no reader for {key.Form}");
        }
    }

    private static DateTimeZone? ReadTimeZone(SectionValues section, TomlEntry entry, string? name, ProblemList problems)
    {
        if (name is not null && DateTimeZoneProviders.Tzdb.GetZoneOrNull(name) is { } zone) return zone;
        string? nearest = name is null ? null : NearestName.To(name, DateTimeZoneProviders.Tzdb.Ids);
        Reject(
            section, entry, "a time zone of the tz database",
            nearest is null ? "Write it as in \"Australia/Sydney\" or \"Europe/Prague\"" : $"Write \"{nearest}\"", problems, nearest);
        return null;
    }

    private static string Written(TomlNode value) => value switch
    {
        TomlScalar { Value: string } text => text.Written,
        TomlScalar scalar => scalar.Written,
        TomlArray => "a list",
        _ => "a table",
    };

    internal static bool IsKebabCase(string text) =>
        text.Length is > 0 and <= 60 && text[0] != '-' && text[^1] != '-' && !text.Contains("--", StringComparison.Ordinal)
        && text.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-');

    internal static string Kebab(string text)
    {
        string dashed = string.Concat(text.Trim().Select(c => char.IsAsciiLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-'));
        return string.Join('-', dashed.Split('-', StringSplitOptions.RemoveEmptyEntries));
    }
}
