using System.Collections.Frozen;
using System.Text;

namespace Runnel.Place.PlaceFiles;

/// <summary>The names of an enumeration as files spell them: <c>FishTank</c> is <c>fish-tank</c>.</summary>
/// <typeparam name="T">The enumeration.</typeparam>
internal static class KebabNames<T>
    where T : struct, Enum
{
    private static readonly FrozenDictionary<T, string> Names = Enum.GetValues<T>().ToFrozenDictionary(v => v, v => Kebab(v.ToString()));
    private static readonly FrozenDictionary<string, T> Values = Names.ToFrozenDictionary(n => n.Value, n => n.Key, StringComparer.Ordinal);

    /// <summary>Every name, in the order of the enumeration.</summary>
    public static IReadOnlyList<string> All { get; } = [.. Enum.GetValues<T>().Select(v => Names[v])];

    /// <summary>The name of a value.</summary>
    public static string Of(T value) => Names[value];

    /// <summary>The value of that name, or null.</summary>
    public static T? Find(string name) => Values.TryGetValue(name, out var value) ? value : null;

    private static string Kebab(string pascal)
    {
        var text = new StringBuilder();
        foreach (char c in pascal)
        {
            if (char.IsAsciiLetterUpper(c) && text.Length > 0) text.Append('-');
            text.Append(char.ToLowerInvariant(c));
        }

        return text.ToString();
    }
}
