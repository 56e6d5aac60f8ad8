namespace Runnel.Place.PlaceFiles;

/// <summary>The values of one section that were good, with their places.</summary>
internal sealed class SectionValues(SectionRule rule, string path, TextPlace at)
{
    private readonly Dictionary<string, (object Value, TomlEntry Entry)> _values = new(StringComparer.Ordinal);

    internal SectionRule Rule { get; } = rule;

    /// <summary>e.g. <c>vessel.sump</c>.</summary>
    internal string Path { get; } = path;

    internal TextPlace At { get; } = at;

    /// <summary>The section's header for people, e.g. <c>[[vessel]] sump</c>.</summary>
    internal string Title => Rule.Repeats ? $"[[{Rule.Name}]] {Path[(Rule.Name.Length + 1)..]}" : $"[{Rule.Name}]";

    /// <summary>Keys that were written, good or not.</summary>
    internal HashSet<string> Written { get; } = new(StringComparer.Ordinal);

    internal void Set(TomlEntry entry, object value) => _values[entry.Key] = (value, entry);

    internal double? Number(string key) => _values.TryGetValue(key, out var v) && v.Value is double number ? number : null;

    internal string? Text(string key) => _values.TryGetValue(key, out var v) ? v.Value as string : null;

    internal T? Value<T>(string key)
        where T : class => _values.TryGetValue(key, out var v) ? v.Value as T : null;

    internal TomlEntry? Entry(string key) => _values.TryGetValue(key, out var v) ? v.Entry : null;

    /// <summary>Where the key stands, else the section's header.</summary>
    internal TextPlace PlaceOf(string key) => Entry(key)?.Value.At ?? At;
}
