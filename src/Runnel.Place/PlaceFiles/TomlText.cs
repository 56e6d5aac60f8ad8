using Tomlyn.Parsing;

namespace Runnel.Place.PlaceFiles;

/// <summary>Text to TOML tree, with syntax problems told in plain words.</summary>
internal static class TomlText
{
    private const int LongestFile = 2_000_000;

    // The parser calls itself for each bracket within a bracket; this keeps a hostile file from exhausting the stack.
    private const int DeepestNesting = 50;

    /// <summary>The tree, or null where there is nothing to go on with.</summary>
    internal static TomlTable? Parse(string text, ProblemList problems)
    {
        if (text.StartsWith('\ufeff')) text = text[1..];
        if (text.Length > LongestFile)
        {
            problems.AddBrokenText(new(1, 1), $"this file has {text.Length:N0} characters, more than any place file", "Give the place file, not the log");
            return null;
        }

        if (FindBinary(text) is { } binary)
        {
            problems.AddBrokenText(binary, "this is not a text file", "Give a place file: plain text in UTF-8, such as place.toml");
            return null;
        }

        if (BracketDepth.FirstDeeperThan(text, DeepestNesting) is { } deep)
        {
            problems.AddBrokenText(deep, $"brackets stand more than {DeepestNesting} deep in one another", "Close each bracket that was opened");
            return null;
        }

        var document = SyntaxParser.Parse(text, "place");
        var lastLine = new TextPlace(1 + text.Count(c => c == '\n'), 1);
        int lineBefore = -2;
        foreach (var message in document.Diagnostics.OrderBy(d => d.Span.Start.Line))
        {
            var at = new TextPlace(Math.Max(1, message.Span.Start.Line + 1), Math.Max(1, message.Span.Start.Column + 1));
            if (at.Line > lastLine.Line) at = lastLine;
            // One open quote makes every later line an error: show where it began.
            bool follows = at.Line <= lineBefore + 1;
            lineBefore = at.Line;
            var (what, remedy) = SyntaxAdvice.For(message.Message, LineOf(text, at.Line));
            if (!follows || SyntaxAdvice.IsAboutDuplicates(message.Message)) problems.AddBrokenText(at, what, remedy);
        }

        return TomlTree.Of(document);
    }

    private static TextPlace? FindBinary(string text)
    {
        int line = 1;
        int lineStart = 0;
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n')
            {
                line++;
                lineStart = i + 1;
            }
            else if (text[i] is '\0' or '\ufffd')
            {
                return new(line, i - lineStart + 1);
            }
        }

        return null;
    }

    private static string LineOf(string text, int line)
    {
        int start = 0;
        for (int i = 1; i < line; i++)
        {
            int next = text.IndexOf('\n', start);
            if (next < 0) return "";
            start = next + 1;
        }

        int end = text.IndexOf('\n', start);
        return (end < 0 ? text[start..] : text[start..end]).Trim();
    }
}
