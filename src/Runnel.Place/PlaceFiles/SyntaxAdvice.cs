namespace Runnel.Place.PlaceFiles;

/// <summary>Puts what the TOML parser says into plain words with a remedy.</summary>
internal static class SyntaxAdvice
{
    internal static bool IsAboutDuplicates(string message) => message.Contains("already defined", StringComparison.Ordinal);

    internal static (string What, string Remedy) For(string message, string line)
    {
        if (IsAboutDuplicates(message))
        {
            int open = message.IndexOf('`', StringComparison.Ordinal);
            int close = message.IndexOf('`', open + 1);
            string key = open >= 0 && close > open ? message[(open + 1)..close] : "this key";
            return ($"{PlaceProblem.Quoted(key)} is given twice", "Keep one of the two");
        }

        if (message.Contains("string", StringComparison.OrdinalIgnoreCase) && (message.Contains("newline", StringComparison.Ordinal)
            || message.Contains("End-Of-File", StringComparison.Ordinal)))
        {
            return ("a text that begins with a quote does not end on this line", "Add the closing quote");
        }

        string what = $"this line is not TOML: {PlaceProblem.Quoted(line)}";
        int equals = line.IndexOf('=', StringComparison.Ordinal);
        if (equals > 0 && line[(equals + 1)..].Trim() is { Length: > 0 } value && value[0] is not ('"' or '\'' or '[' or '{'))
        {
            string key = line[..equals].Trim();
            string plain = value.Split('#')[0].Trim();
            return (what, $"Put the value in quotes: {PlaceProblem.Quoted(key)} = \"{PlaceProblem.Quoted(plain)}\"");
        }

        if (equals < 0 && !line.StartsWith('[')) return (what, "Write key = \"value\", or begin the line with # as a comment");
        if (line.Contains('\\', StringComparison.Ordinal)) return (what, "Write \\\\ for a backslash within double quotes");
        if (equals > 0) return (what, "Write key = \"value\", and nothing but a # comment behind it");
        return (what, "Write [section] or [[section]], and key = \"value\" below it");
    }
}
