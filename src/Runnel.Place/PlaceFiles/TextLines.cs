namespace Runnel.Place.PlaceFiles;

/// <summary>A text by its lines, so that problems always stand inside it.</summary>
internal sealed class TextLines(string text)
{
    private readonly int[] _starts = StartsOf(text);

    /// <summary>The line without its end; empty outside of the text.</summary>
    internal ReadOnlySpan<char> this[int line]
    {
        get
        {
            if (line < 1 || line > _starts.Length) return [];
            int end = line < _starts.Length ? _starts[line] - 1 : text.Length;
            return text.AsSpan(_starts[line - 1], end - _starts[line - 1]).TrimEnd('\r');
        }
    }

    /// <summary>The nearest place that is inside the text; right behind the end of a line still is.</summary>
    internal TextPlace Inside(TextPlace at)
    {
        int line = Math.Clamp(at.Line, 1, _starts.Length);
        return new(line, Math.Clamp(at.Column, 1, this[line].Length + 1));
    }

    internal TextPlace PlaceOf(int offset)
    {
        int found = Array.BinarySearch(_starts, offset);
        int line = found >= 0 ? found + 1 : ~found;
        return new(line, offset - _starts[line - 1] + 1);
    }

    private static int[] StartsOf(string text)
    {
        List<int> starts = [0];
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n') starts.Add(i + 1);
        }

        return [.. starts];
    }
}
