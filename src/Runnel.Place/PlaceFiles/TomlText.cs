using Tomlyn.Parsing;
using Tomlyn.Syntax;

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
        var lines = new TextLines(text);
        if (FindBinary(text) is { } binary)
        {
            problems.AddBrokenText(lines.PlaceOf(binary), "this is not a text file", "Give a place file: plain text in UTF-8, such as place.toml");
            return null;
        }

        if (FirstLineOfLog(lines) is { } log)
        {
            problems.AddBrokenText(new(log, 1), "this looks like a log, not like a place file", "Give the place file here, and the log by itself");
            return null;
        }

        if (text.Length > LongestFile)
        {
            problems.AddBrokenText(new(1, 1), $"this file has {text.Length} characters, more than any place file", "Give the place file here");
            return null;
        }

        if (BracketDepth.FirstDeeperThan(text, DeepestNesting) is { } deep)
        {
            problems.AddBrokenText(
                lines.PlaceOf(deep), $"brackets stand more than {DeepestNesting} deep in one another", "Close each bracket that was opened");
            return null;
        }

        if (ParseSyntax(text) is not { } document)
        {
            problems.AddBrokenText(lines.Inside(new(int.MaxValue, int.MaxValue)), "the file ends within a text in quotes", "Add the closing quotes");
            return null;
        }

        int lineBefore = -2;
        foreach (var message in document.Diagnostics.OrderBy(d => d.Span.Start.Line))
        {
            var at = lines.Inside(new(message.Span.Start.Line + 1, message.Span.Start.Column + 1));
            // One open quote makes every later line an error: show where it began.
            bool follows = at.Line <= lineBefore + 1;
            lineBefore = at.Line;
            if (follows && !SyntaxAdvice.IsAboutDuplicates(message.Message)) continue;
            var (what, remedy) = SyntaxAdvice.For(message.Message, lines[at.Line].Trim().ToString());
            problems.AddBrokenText(at, what, remedy);
        }

        return TomlTree.Of(document);
    }

    private static DocumentSyntax? ParseSyntax(string text)
    {
        try
        {
            return SyntaxParser.Parse(text, "place");
        }
        catch (ArgumentOutOfRangeException)
        {
            // Tomlyn 2.10.2 lists what is wrong instead of throwing, except where a backslash within quotes is the file's last character.
            return null;
        }
    }

    /// <summary>What decoding leaves of bytes that are no text.</summary>
    private static int? FindBinary(string text)
    {
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] is '\0' or '\ufffd') return i;
            if (!char.IsSurrogate(text[i])) continue;
            if (i + 1 == text.Length || !char.IsSurrogatePair(text[i], text[i + 1])) return i;
            i++;
        }

        return null;
    }

    /// <summary>A heading of columns where the first section should be.</summary>
    private static int? FirstLineOfLog(TextLines lines)
    {
        for (int line = 1; line <= 20; line++)
        {
            var text = lines[line].Trim();
            if (text.IsEmpty || text[0] == '#') continue;
            return text.ContainsAny(',', ';', '\t') && !text.ContainsAny('=', '[') ? line : null;
        }

        return null;
    }
}
