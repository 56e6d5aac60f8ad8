using System.Globalization;
using Tomlyn.Syntax;

namespace Runnel.Place.PlaceFiles;

/// <summary>Where something stands in a text; both count from 1.</summary>
internal readonly record struct TextPlace(int Line, int Column);

/// <summary>A value of a TOML document with its place.</summary>
internal abstract record TomlNode(TextPlace At);

/// <summary>A table, in whichever of TOML's ways it was written. Entries are in file order.</summary>
internal sealed record TomlTable(TextPlace At) : TomlNode(At)
{
    private readonly Dictionary<string, TomlEntry> _byKey = new(StringComparer.Ordinal);

    internal List<TomlEntry> Entries { get; } = [];

    internal TomlEntry? Find(string key) => _byKey.GetValueOrDefault(key);

    // A key given twice is reported by the parser; the first one counts.
    internal void Add(TomlEntry entry)
    {
        if (_byKey.TryAdd(entry.Key, entry)) Entries.Add(entry);
    }
}

/// <summary>One key and its value.</summary>
internal sealed record TomlEntry(string Key, TextPlace At, TomlNode Value);

/// <summary>An array, whether of values or of tables.</summary>
internal sealed record TomlArray(TextPlace At, List<TomlNode> Items) : TomlNode(At);

/// <summary>A single value: string, double, bool, or a date or time as its text.</summary>
/// <param name="At">Where it begins.</param>
/// <param name="Value">A <see cref="string"/>, <see cref="double"/> or <see cref="bool"/>; null for a date or time.</param>
/// <param name="Written">As it stands in the file.</param>
internal sealed record TomlScalar(TextPlace At, object? Value, string Written) : TomlNode(At);

/// <summary>Makes one plain tree out of the parser's syntax: dotted keys, sub-tables and inline tables all end up the same.</summary>
internal static class TomlTree
{
    internal static TomlTable Of(DocumentSyntax document)
    {
        var root = new TomlTable(new(1, 1));
        foreach (var keyValue in document.KeyValues) AddKeyValue(root, keyValue);
        foreach (var table in document.Tables)
        {
            if (table.Name is null || KeyParts(table.Name) is not { Count: > 0 } path) continue;
            if (Enter(root, path, PlaceOf(table), table is TableArraySyntax) is not { } target) continue;
            foreach (var keyValue in table.Items) AddKeyValue(target, keyValue);
        }

        return root;
    }

    internal static TextPlace PlaceOf(SyntaxNodeBase node) => new(node.Span.Start.Line + 1, node.Span.Start.Column + 1);

    /// <summary>The table at the end of a path, made where it is missing; null where a plain value stands in the way.</summary>
    private static TomlTable? Enter(TomlTable root, List<string> path, TextPlace at, bool append)
    {
        var here = root;
        for (int i = 0; i < path.Count; i++)
        {
            bool appendHere = append && i == path.Count - 1;
            var entry = here.Find(path[i]);
            if (entry is null)
            {
                var made = new TomlTable(at);
                here.Add(new(path[i], at, appendHere ? new TomlArray(at, [made]) : made));
                here = made;
                continue;
            }

            switch (entry.Value)
            {
                case TomlTable table when !appendHere:
                    here = table;
                    break;
                case TomlArray array when appendHere:
                    var next = new TomlTable(at);
                    array.Items.Add(next);
                    here = next;
                    break;
                case TomlArray { Items: [.., TomlTable last] }:
                    here = last; // [vessel.wall] belongs to the [[vessel]] above it
                    break;
                default:
                    return null;
            }
        }

        return here;
    }

    private static void AddKeyValue(TomlTable table, KeyValueSyntax keyValue)
    {
        if (keyValue.Key is null || keyValue.Value is null) return;
        var path = KeyParts(keyValue.Key);
        if (path.Count == 0) return;
        var at = PlaceOf(keyValue.Key);
        if (Enter(table, path[..^1], at, append: false) is not { } target) return;
        if (NodeOf(keyValue.Value) is { } value) target.Add(new(path[^1], at, value));
    }

    private static List<string> KeyParts(KeySyntax key)
    {
        List<string> parts = [];
        AddPart(parts, key.Key);
        foreach (var dotted in key.DotKeys) AddPart(parts, dotted.Key);
        return parts;
    }

    private static void AddPart(List<string> parts, SyntaxNode? part)
    {
        if (part is BareKeySyntax bare && bare.Key?.Text is { } text) parts.Add(text);
        else if (part is StringValueSyntax quoted && quoted.Value is { } plain) parts.Add(plain);
    }

    private static TomlNode? NodeOf(ValueSyntax value)
    {
        var at = PlaceOf(value);
        switch (value)
        {
            case StringValueSyntax text:
                return new TomlScalar(at, text.Value ?? "", text.Token?.Text ?? "");
            case IntegerValueSyntax whole:
                return new TomlScalar(at, (double)whole.Value, Written(whole.Token, whole.Value));
            case FloatValueSyntax real:
                return new TomlScalar(at, real.Value, Written(real.Token, real.Value));
            case BooleanValueSyntax flag:
                return new TomlScalar(at, flag.Value, flag.Value ? "true" : "false");
            case DateTimeValueSyntax date:
                return new TomlScalar(at, null, date.Token?.Text ?? "a date");
            case ArraySyntax array:
                return new TomlArray(at, [.. array.Items.Select(i => i.Value is null ? null : NodeOf(i.Value)).OfType<TomlNode>()]);
            case InlineTableSyntax inline:
                var table = new TomlTable(at);
                foreach (var item in inline.Items)
                {
                    if (item.KeyValue is not null) AddKeyValue(table, item.KeyValue);
                }

                return table;
            default:
                return null;
        }
    }

    private static string Written(SyntaxToken? token, double value) => token?.Text ?? value.ToString(CultureInfo.InvariantCulture);
}
