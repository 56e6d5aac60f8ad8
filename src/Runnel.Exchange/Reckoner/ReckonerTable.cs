using System.Buffers;
using System.Globalization;
using Runnel.Exchange.Csv;
using Runnel.Science.Reckoning;

namespace Runnel.Exchange.Reckoner;

/// <summary>How a table was reckoned.</summary>
/// <param name="Rows">Rows written.</param>
/// <param name="Refused">Of them, rows whose inputs were refused.</param>
/// <param name="FirstRefused">Line of the first refused row; 0 where there is none.</param>
/// <param name="FirstReason">Why it was refused.</param>
public sealed record TableReckoned(long Rows, long Refused, long FirstRefused, string FirstReason);

/// <summary>
/// Reckons a whole CSV row by row: columns named as inputs are read, every column is passed through, results are appended, and a row that is
/// refused says why in the last column, <c>error</c>. One row is held at a time, so a table may be of any length.
/// </summary>
public static class ReckonerTable
{
    private static readonly SearchValues<char> OfNumbers = SearchValues.Create("0123456789,+-eE ");

    /// <summary>Reads, reckons, writes.</summary>
    /// <param name="relation">The relation.</param>
    /// <param name="forAll">Inputs that hold for every row.</param>
    /// <param name="input">The CSV.</param>
    /// <param name="output">Where the CSV goes.</param>
    /// <param name="cancel">Stops between rows.</param>
    /// <exception cref="UnreadableFileException">The file is no table with inputs of this relation.</exception>
    public static TableReckoned Run(
        Relation relation, IReadOnlyCollection<KeyValuePair<string, string>> forAll, Stream input, TextWriter output, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(relation);
        ArgumentNullException.ThrowIfNull(forAll);
        ArgumentNullException.ThrowIfNull(output);
        var text = CsvText.Open(input, null, cancel);
        // A heading that names an input tells the separator; without one, rows of one width do.
        var layout = CsvLayout.Find(text, sample => sample.Take(2).Any(r => Array.Exists(r.Fields, f => relation.Find(f) is not null)));
        char separator = layout.Separator;
        var rows = new CsvRows(text, separator);
        if (!rows.Next() || (layout.IsTold && !rows.Next())) throw NoHeader(relation);
        string[] header = Fields(rows);
        var inputs = Columns(relation, header, rows.Line, forAll);
        string[] names = [.. relation.Outputs.Select(o => o.Name)];
        CsvLine.Write(output, separator, [.. header, .. names, "error"]);

        long count = 0, refused = 0, first = 0;
        string reason = "";
        var given = new List<KeyValuePair<string, string>>();
        while (rows.Next())
        {
            cancel.ThrowIfCancellationRequested();
            count++;
            string[] cells = Fields(rows);
            given.Clear();
            given.AddRange(forAll);
            bool decimalComma = false;
            foreach (var (column, name) in inputs)
            {
                if (column >= cells.Length) continue;
                string cell = cells[column];
                if (separator != ',' && IsDecimalComma(cell))
                {
                    decimalComma = true;
                    cell = cell.Replace(',', '.');
                }

                given.Add(KeyValuePair.Create(name, cell));
            }

            string? fault = FaultOf(rows, cells, header);
            var reckoned = fault is null ? relation.Solve(given) : null;
            string error = fault ?? string.Join(" ", reckoned!.Problems.Select(p => p.Line));
            if (error.Length > 0 && refused++ == 0) (first, reason) = (rows.Line, error);
            var results = names.Select((_, i) => reckoned?.Answer is { } answer ? Cell(answer.Values[i], decimalComma) : "");
            string[] padded = cells.Length < header.Length ? [.. cells, .. Enumerable.Repeat("", header.Length - cells.Length)] : cells;
            CsvLine.Write(output, separator, [.. padded.Take(header.Length), .. results, error]);
        }

        return new TableReckoned(count, refused, first, reason);
    }

    private static string? FaultOf(CsvRows row, string[] cells, string[] header) => row.Fault switch
    {
        CsvFault.UnclosedQuote => "a quote is opened and never closed.",
        CsvFault.TextAfterQuote => "text follows a closing quote.",
        CsvFault.TooLong => "the row is longer than a table's row can be.",
        _ => cells.Length > header.Length ? $"the row has {cells.Length} fields and the header {header.Length}." : null,
    };

    private static string[] Fields(CsvRows rows)
    {
        var fields = new string[rows.Count];
        for (int i = 0; i < fields.Length; i++) fields[i] = rows[i].ToString();
        return fields;
    }

    private static List<(int Column, string Name)> Columns(
        Relation relation, string[] header, long line, IReadOnlyCollection<KeyValuePair<string, string>> forAll)
    {
        // Where a column names an input itself, one that says the same in another unit is passed through as any other.
        bool IsAnotherUnit(string name, Input input) => header.Any(h => relation.Find(h) == input && !InOtherUnit(input, h)) && InOtherUnit(input, name);
        var columns = new List<(int Column, string Name)>();
        for (int i = 0; i < header.Length; i++)
        {
            if (relation.Find(header[i]) is not { } input || IsAnotherUnit(header[i], input)) continue;
            // An input may have a second name: both columns may stand there, as long as a row fills only one.
            if (columns.Any(c => relation.Find(c.Name) == input && string.Equals(header[c.Column], header[i], StringComparison.OrdinalIgnoreCase)))
                throw new UnreadableFileException(line, 1, $"two columns are named {input.Name}", $"Keep one column {input.Name}, {input.Range}");
            if (forAll.Any(f => relation.Find(f.Key)?.Name == input.Name))
                throw new UnreadableFileException(line, 1, $"{input.Name} is a column and was also given for all rows", "Give it in one place");
            columns.Add((i, header[i]));
        }

        return columns.Count > 0 || forAll.Count > 0 ? columns : throw NoHeader(relation, line);
    }

    private static bool InOtherUnit(Input input, string name) => input.InOtherUnits.Any(o => string.Equals(o.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));

    private static UnreadableFileException NoHeader(Relation relation, long line = 1) => new(
        line, 1, $"no column is an input of {relation.Name}", $"Name columns {string.Join(", ", relation.Inputs.Select(i => i.Name))}");

    private static bool IsDecimalComma(string cell)
    {
        int comma = cell.IndexOf(',', StringComparison.Ordinal);
        return comma > 0 && cell.LastIndexOf(',') == comma && cell.AsSpan().IndexOfAnyExcept(OfNumbers) < 0;
    }

    private static string Cell(Value value, bool decimalComma)
    {
        if (value.IsNone) return "";
        if (value.Text is { } text) return text;
        string number = value.Number.ToString("G15", CultureInfo.InvariantCulture);
        return decimalComma ? number.Replace('.', ',') : number;
    }
}
