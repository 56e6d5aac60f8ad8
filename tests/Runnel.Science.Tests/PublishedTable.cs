using System.Globalization;
using System.Text;

namespace Runnel.Science.Tests;

/// <summary>A table of check values copied from print, under Published/.</summary>
public sealed class PublishedTable
{
    private readonly Dictionary<string, Func<PublishedCase>> cases = [];

    private PublishedTable(string file)
    {
        var rows = Csv(File.ReadAllText(PathOf(file)));
        string[] header = rows[0];
        foreach (string[] row in rows.Skip(1))
        {
            var cells = header.Zip(row).Where(c => c.Second.Length > 0).ToDictionary(c => c.First, c => c.Second);
            cases.Add(cells["case"], () => cells.ContainsKey("inputs") ? FromPairs(file, cells)
                : header.Contains("tolerance") ? FromSingle(file, cells) : FromColumns(file, cells));
        }
    }

    public static string PathOf(string file) => Path.Combine(AppContext.BaseDirectory, "Published", file);

    public static PublishedTable Open(string file) => new(file);

    /// <summary>Name and source of every row, as the data of a theory.</summary>
    public IEnumerable<TheoryDataRow<string, string>> Rows => cases.Values.Select(make => make()).Select(c => new TheoryDataRow<string, string>(c.Name, c.Source));

    public PublishedCase this[string name] => cases[name]();

    // Columns expected_X beside tolerance_X.
    private static PublishedCase FromColumns(string file, Dictionary<string, string> cells)
    {
        var expected = new Dictionary<string, (string, Tolerance)>();
        foreach (var (column, value) in cells.Where(c => c.Key.StartsWith("expected_", StringComparison.Ordinal)))
        {
            string bare = column["expected_".Length..];
            string within = cells["tolerance_" + bare];
            expected.Add(bare, (value, within == "exact" ? default : new Tolerance(Number(within), 0)));
        }

        return new PublishedCase(file, cells["case"], cells["relation"], cells["source"], cells, expected);
    }

    // Columns expected_X with one tolerance: it belongs to the column that the note names, and others get 1 percent; without such a note the
    // wider of both counts wherever a row expects several values.
    private static PublishedCase FromSingle(string file, Dictionary<string, string> cells)
    {
        var columns = cells.Where(c => c.Key.StartsWith("expected_", StringComparison.Ordinal)).Select(c => (Bare: c.Key["expected_".Length..], c.Value)).ToArray();
        string note = cells.GetValueOrDefault("note", "");
        double absolute = cells.TryGetValue("tolerance", out string? within) && within != "exact" ? Number(within) : 0;
        var named = columns.Where(c => IsNamed(note, c.Bare)).Select(c => c.Bare).ToHashSet();
        var expected = columns.ToDictionary(c => c.Bare, c => (c.Value, columns.Length == 1 || named.Contains(c.Bare) ? new Tolerance(absolute, 0)
            : named.Count > 0 ? new Tolerance(0, 0.01) : new Tolerance(absolute, 0.01)));
        return new PublishedCase(file, cells["case"], cells["relation"], cells["source"], cells, expected);
    }

    private static bool IsNamed(string note, string column)
    {
        foreach (string start in new[] { "tolerance applies to ", "tolerance on " })
        {
            int at = note.IndexOf(start, StringComparison.OrdinalIgnoreCase);
            if (at < 0) continue;
            string word = note[(at + start.Length)..].Split(' ', ';', ',')[0].ToLowerInvariant();
            if (column.StartsWith(word, StringComparison.OrdinalIgnoreCase) || column.Contains("_" + word, StringComparison.OrdinalIgnoreCase)) return true;
        }

        return false;
    }

    // Columns inputs and expected hold key=value pairs; tolerance holds rel=, abs= or both, for all or for a key.
    private static PublishedCase FromPairs(string file, Dictionary<string, string> cells)
    {
        var inputs = Pairs(cells["inputs"]);
        string[] within = cells["tolerance"].Split(';', StringSplitOptions.TrimEntries);
        var expected = Pairs(cells["expected"]).ToDictionary(p => p.Key, p => (p.Value, ToleranceOf(p.Key, within)));
        return new PublishedCase(file, cells["case"], cells["relation"], cells["source"], inputs, expected);
    }

    private static Tolerance ToleranceOf(string key, string[] within)
    {
        // A part may begin with the key, or its first word, that it holds for.
        var own = within.Where(w => !IsBound(w) && key.StartsWith(w.Split(' ')[0], StringComparison.Ordinal)).ToArray();
        double absolute = 0, relative = 0;
        foreach (string bound in (own.Length > 0 ? own : within.Where(w => IsBound(w) || w.StartsWith("others ", StringComparison.Ordinal)))
            .SelectMany(w => w.Split(' ')).Select(w => w.TrimStart('(')))
        {
            if (absolute == 0 && bound.StartsWith("abs=", StringComparison.Ordinal)) absolute = Number(bound[4..].TrimEnd(')'));
            if (relative == 0 && bound.StartsWith("rel=", StringComparison.Ordinal)) relative = Number(bound[4..]);
        }

        return new Tolerance(absolute, relative);
    }

    private static bool IsBound(string part) => part.StartsWith("rel=", StringComparison.Ordinal) || part.StartsWith("abs=", StringComparison.Ordinal);

    private static Dictionary<string, string> Pairs(string text) =>
        text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
            .Select(p => p.Split('=', 2)).ToDictionary(p => p[0], p => p[1]);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    public static List<string[]> Csv(string text)
    {
        var rows = new List<string[]>();
        var cells = new List<string>();
        var cell = new StringBuilder();
        bool quoted = false;
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (quoted)
            {
                if (c != '"') cell.Append(c);
                else if (i + 1 < text.Length && text[i + 1] == '"') cell.Append(text[++i]);
                else quoted = false;
            }
            else if (c == '"') quoted = true;
            else if (c is ',' or '\n')
            {
                cells.Add(cell.ToString().TrimEnd('\r'));
                cell.Clear();
                if (c != '\n') continue;
                rows.Add([.. cells]);
                cells.Clear();
            }
            else cell.Append(c);
        }

        if (cells.Count > 0 || cell.Length > 0) rows.Add([.. cells, cell.ToString()]);
        return rows;
    }
}
