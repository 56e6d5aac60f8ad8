namespace Runnel.Exchange.Csv;

/// <summary>A row of the sample.</summary>
/// <param name="Line">Its line in the file.</param>
/// <param name="Fields">Its fields, trimmed.</param>
internal sealed record SampleRow(long Line, string[] Fields);

/// <summary>How a CSV parts its fields, as seen from its beginning.</summary>
/// <param name="Separator">Between fields.</param>
/// <param name="IsTold">Whether a line "sep=;" of its own stands before everything, as spreadsheets write it.</param>
/// <param name="Rows">Rows of the beginning, parted so; without those of no fields.</param>
internal sealed record CsvLayout(char Separator, bool IsTold, IReadOnlyList<SampleRow> Rows)
{
    private const string Separators = ",;\t|";
    private const int SampleRows = 60;

    /// <summary>Looks at the beginning with each separator, unless the file tells its own.</summary>
    /// <param name="text">The file.</param>
    /// <param name="hasKnownHeading">Whether the rows, parted so, have a heading that is looked for: this weighs most, then rows of one width, then the width.</param>
    public static CsvLayout Find(CsvText text, Func<IReadOnlyList<SampleRow>, bool> hasKnownHeading)
    {
        char told = Told(text.Head.Span);
        var best = new CsvLayout(',', false, []);
        int most = -1;
        foreach (char separator in told == 0 ? Separators : told.ToString())
        {
            var rows = Sample(text, separator);
            int rank = Rank(rows, hasKnownHeading);
            if (rank > most) (most, best) = (rank, new CsvLayout(separator, told != 0, rows));
        }

        return best;
    }

    /// <summary>Rows of the beginning.</summary>
    public static List<SampleRow> Sample(CsvText text, char separator)
    {
        var head = text.Head;
        if (!text.HeadIsAll)
        {
            int lastBreak = head.Span.LastIndexOfAny('\n', '\r');
            if (lastBreak > 0) head = head[..(lastBreak + 1)];
        }

        var source = new CsvRows(head, separator);
        var rows = new List<SampleRow>();
        while (rows.Count < SampleRows && source.Next())
        {
            if (source.Fault != CsvFault.None) continue;
            var fields = new string[source.Count];
            for (int i = 0; i < fields.Length; i++) fields[i] = source[i].Trim().ToString();
            if (fields.Any(f => f.Length > 0)) rows.Add(new SampleRow(source.Line, fields));
        }

        return rows;
    }

    private static char Told(ReadOnlySpan<char> head)
    {
        head = head.TrimStart('"');
        return head.Length > 4 && head.StartsWith("sep=", StringComparison.OrdinalIgnoreCase) && Separators.Contains(head[4]) ? head[4] : '\0';
    }

    private static int Rank(List<SampleRow> rows, Func<IReadOnlyList<SampleRow>, bool> hasKnownHeading)
    {
        if (rows.Count == 0) return 0;
        var widths = rows.CountBy(r => r.Fields.Length).Where(w => w.Key > 1).OrderByDescending(w => w.Value).ThenByDescending(w => w.Key);
        var (width, same) = widths.FirstOrDefault();
        int header = hasKnownHeading(rows) ? 1 : 0;
        return (header * 1_000_000) + (same * 1000 / rows.Count * 900) + Math.Min(width, 899);
    }
}
