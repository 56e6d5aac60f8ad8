namespace Runnel.Place.PlaceFiles;

/// <summary>Looks ahead at how deep brackets stand in one another, passing over comments and strings.</summary>
internal static class BracketDepth
{
    /// <summary>Position of the first bracket that stands deeper than that, or null.</summary>
    internal static int? FirstDeeperThan(string text, int deepest)
    {
        int depth = 0;
        for (int i = 0; i < text.Length; i++)
        {
            switch (text[i])
            {
                case '#':
                    while (i + 1 < text.Length && text[i + 1] != '\n') i++;
                    break;
                case '"' or '\'':
                    i = EndOfString(text, i);
                    break;
                case '[' or '{':
                    if (++depth > deepest) return i;
                    break;
                case ']' or '}':
                    depth = Math.Max(0, depth - 1);
                    break;
            }
        }

        return null;
    }

    /// <summary>Position of the closing quote, or of the last character where none comes.</summary>
    private static int EndOfString(string text, int start)
    {
        char quote = text[start];
        bool threefold = start + 2 < text.Length && text[start + 1] == quote && text[start + 2] == quote;
        int i = start + (threefold ? 3 : 1);
        while (i < text.Length)
        {
            if (text[i] == '\\' && quote == '"') i++;
            else if (text[i] == quote && (!threefold || (i + 2 < text.Length && text[i + 1] == quote && text[i + 2] == quote)))
            {
                if (!threefold) return i;
                i += 2;
                // One or two quotes may stand right before the closing three.
                while (i + 1 < text.Length && text[i + 1] == quote) i++;
                return i;
            }

            i++;
        }

        return text.Length - 1;
    }
}
