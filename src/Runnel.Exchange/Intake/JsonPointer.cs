using System.Globalization;
using System.Text.Json;

namespace Runnel.Exchange.Intake;

/// <summary>JSON Pointer (RFC 6901).</summary>
public static class JsonPointer
{
    /// <summary>What the pointer points at; null where there is nothing.</summary>
    public static JsonElement? Find(JsonElement root, string path)
    {
        if (path.Length == 0) return root;
        if (path[0] != '/') return null;
        var at = root;
        foreach (string token in path[1..].Split('/'))
        {
            // The order matters: ~01 is ~1, not /.
            string name = token.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);
            if (at.ValueKind == JsonValueKind.Object && at.TryGetProperty(name, out var member)) at = member;
            else if (at.ValueKind == JsonValueKind.Array && Index(name) is { } index && index < at.GetArrayLength()) at = at[index];
            else return null;
        }

        return at;
    }

    private static int? Index(string token) =>
        token.Length is > 0 and < 10 && token.All(char.IsAsciiDigit) && (token.Length == 1 || token[0] != '0')
            ? int.Parse(token, CultureInfo.InvariantCulture)
            : null;
}
