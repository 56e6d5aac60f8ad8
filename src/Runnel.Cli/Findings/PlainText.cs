using System.Text;

namespace Runnel.Cli.Findings;

/// <summary>Text of a fixed width that reads well without colour: headings, wrapped sentences, tables.</summary>
public sealed class PlainText(int width)
{
    private readonly StringBuilder _text = new();

    /// <summary>One blank line; never two.</summary>
    public PlainText Blank()
    {
        if (_text.Length > 1 && !(_text[^1] == '\n' && _text[^2] == '\n')) _text.Append('\n');
        return this;
    }

    public PlainText Heading(string words) => Blank().Line(words).Line(new string('-', words.Length));

    public PlainText Line(string words)
    {
        _text.Append(words.TrimEnd()).Append('\n');
        return this;
    }

    /// <summary>Breaks at blanks; a word longer than the line stands alone. Later lines hang under the first one's text.</summary>
    public PlainText Sentence(string words, string indent = "", string? firstIndent = null)
    {
        var line = new StringBuilder(firstIndent ?? indent);
        int bare = line.Length;
        foreach (string word in words.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > bare && line.Length + 1 + word.Length > width)
            {
                Line(line.ToString());
                line.Clear().Append(indent);
                bare = indent.Length;
            }

            if (line.Length > bare) line.Append(' ');
            line.Append(word);
        }

        return Line(line.ToString());
    }

    /// <summary>Columns as wide as their longest cell; the first to the left, figures to the right.</summary>
    public PlainText Table(IReadOnlyList<string> header, IReadOnlyList<IReadOnlyList<string>> rows)
    {
        int[] widths = [.. Enumerable.Range(0, header.Count).Select(i => rows.Select(r => r[i].Length).Append(header[i].Length).Max())];
        foreach (var row in rows.Prepend(header))
        {
            Line(string.Join("  ", row.Select((cell, i) => i == 0 ? cell.PadRight(widths[i]) : cell.PadLeft(widths[i]))));
        }

        return this;
    }

    public override string ToString() => _text.ToString();
}
