using System.Globalization;
using System.Text;

namespace Runnel.Science.Figures;

/// <summary>A row of a table of reference data; whatever is wrong with it is said with file and line.</summary>
internal sealed class ReferenceRow(string file, int line, Dictionary<string, string> cells)
{
    public string Source => Text("source");

    public string Provenance => Text("provenance");

    public string Text(string column) => Optional(column) ?? throw Wrong($"{column} is empty or missing");

    public string? Optional(string column) => cells.TryGetValue(column, out string? text) && text.Length > 0 ? text : null;

    public double Number(string column) => NumberOrNull(column) ?? throw Wrong($"{column} is empty or missing");

    public double? NumberOrNull(string column) => Optional(column) is not { } text ? null
        : double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value) ? value : throw Wrong($"{column} is no number: {text}");

    /// <summary>A range of two columns, <c>X_min</c> and <c>X_max</c> or with a unit behind; null where both are empty.</summary>
    public FigureRange? Range(string least, string greatest)
    {
        if (NumberOrNull(least) is not double low) return NumberOrNull(greatest) is null ? null : throw Wrong($"{least} is empty beside {greatest}");
        double high = NumberOrNull(greatest) ?? low;
        return high >= low ? new FigureRange(low, high) : throw Wrong($"{greatest} is below {least}");
    }

    /// <summary>A word of an enumeration, kebab-case in the table.</summary>
    public TEnum Word<TEnum>(string column)
        where TEnum : struct, Enum =>
        Enum.TryParse(Text(column).Replace("-", "", StringComparison.Ordinal), true, out TEnum value) ? value : throw Wrong($"{column} is no known word: {Text(column)}");

    public InvalidDataException Wrong(string why) => new(string.Create(CultureInfo.InvariantCulture, $"{file}:{line}: {why}"));

    /// <summary>Rows of a CSV text after RFC 4180; a cell may hold commas, breaks and doubled quotes between quotes.</summary>
    public static IEnumerable<ReferenceRow> Parse(string file, string text)
    {
        string[]? header = null;
        foreach (var (line, fields) in Lines(text))
        {
            if (header is null)
            {
                header = fields;
                continue;
            }

            if (fields.Length != header.Length) throw new InvalidDataException(string.Create(CultureInfo.InvariantCulture, $"{file}:{line}: {fields.Length} cells under {header.Length} columns"));
            yield return new ReferenceRow(file, line, header.Zip(fields).ToDictionary(c => c.First, c => c.Second));
        }
    }

    /// <summary>Records of a CSV text, each with the line that it begins on.</summary>
    public static IEnumerable<(int Line, string[] Fields)> Lines(string text)
    {
        var fields = new List<string>();
        var cell = new StringBuilder();
        bool quoted = false;
        int line = 1, start = 1;
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (c == '\n') line++;
            if (quoted)
            {
                if (c != '"') cell.Append(c);
                else if (i + 1 < text.Length && text[i + 1] == '"') cell.Append(text[++i]);
                else quoted = false;
            }
            else if (c == '"') quoted = true;
            else if (c == ',') Next();
            else if (c == '\n')
            {
                Next();
                yield return (start, [.. fields]);
                fields.Clear();
                start = line;
            }
            else if (c != '\r') cell.Append(c);
        }

        if (fields.Count == 0 && cell.Length == 0) yield break;
        Next();
        yield return (start, [.. fields]);

        void Next()
        {
            fields.Add(cell.ToString());
            cell.Clear();
        }
    }
}
