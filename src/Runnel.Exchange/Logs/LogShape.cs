using NodaTime;
using Runnel.Exchange.Csv;

namespace Runnel.Exchange.Logs;

/// <summary>How a log is laid out, as seen from its beginning and without knowing the place.</summary>
/// <param name="Separator">Between fields.</param>
/// <param name="HeaderLine">Line of the headings; 0 where there is none.</param>
/// <param name="Columns">The headings; made up as "column 1" where there is no header.</param>
/// <param name="Time">Column of the time, or of the date where <paramref name="Clock"/> is told.</param>
/// <param name="Clock">Column of the time of day where date and time stand apart, else -1.</param>
/// <param name="Channel">Long form: column of the channel, else -1.</param>
/// <param name="Value">Long form, or a log of one channel: column of the value, else -1.</param>
/// <param name="Unit">Long form: column of the unit, else -1.</param>
/// <param name="Offset">Offset of times without one, where the heading says so.</param>
internal sealed record LogShape(
    char Separator, long HeaderLine, IReadOnlyList<string> Columns, int Time, int Clock, int Channel, int Value, int Unit, Offset? Offset)
{
    private const int MostColumns = 5000;

    public bool IsLong => Channel >= 0;

    /// <exception cref="UnreadableFileException">There is no column of times.</exception>
    public static LogShape Find(CsvText text, string? timeColumn)
    {
        var best = CsvLayout.Find(text, rows => HeaderAt(rows, timeColumn) >= 0);
        if (best.Rows.Count == 0) throw new UnreadableFileException(1, 1, "no line has fields", "Give a header line and readings");
        if (best.Rows[0].Fields.Length > MostColumns)
            throw new UnreadableFileException(best.Rows[0].Line, 1, $"there are more than {MostColumns} columns", "Give a log with one column a channel, or the columns time,channel,value");
        return OfRows(best.Separator, best.Rows, timeColumn);
    }

    private static bool IsTimeHeading(string field, string? timeColumn) =>
        timeColumn is null ? Headings.IsTime(field) : string.Equals(field, timeColumn, StringComparison.OrdinalIgnoreCase);

    /// <summary>The first row with a heading for the time below which times stand; a title such as "Date,2026-02-01" has none.</summary>
    private static int HeaderAt(IReadOnlyList<SampleRow> rows, string? timeColumn)
    {
        int first = -1;
        for (int at = 0; at < rows.Count; at++)
        {
            string[] fields = rows[at].Fields;
            if (fields.Length < 2 || Array.Exists(fields, HoldsTime)) continue;
            for (int column = 0; column < fields.Length; column++)
            {
                if (!IsTimeHeading(fields[column], timeColumn)) continue;
                if (first < 0) first = at;
                if (Understood(rows, at, column, (t, f) => t.Read(f).Kind != TimeKind.None || IsClockAlone(f)) > 0) return at;
            }
        }

        return first;
    }

    private static LogShape OfRows(char separator, IReadOnlyList<SampleRow> rows, string? timeColumn)
    {
        int header = HeaderAt(rows, timeColumn);
        if (header < 0 && timeColumn is not null)
        {
            throw new UnreadableFileException(
                rows[0].Line, 1, $"there is no column \"{timeColumn}\" (columns: {Listed(rows[0].Fields)})", "Name a column that holds the time");
        }

        var timeAt = header >= 0 ? TimeColumns(rows, header, timeColumn) : (-1, -1);
        if (timeAt.Item1 < 0) (header, timeAt) = TimeByContent(rows);
        int width = rows[Math.Max(header, 0)].Fields.Length;
        string[] columns = header >= 0 ? rows[header].Fields : [.. Enumerable.Range(1, width).Select(i => $"column {i}")];
        var (channel, value) = header >= 0 ? LongColumns(columns, timeAt) : LongByContent(rows, timeAt.Item1);
        int unit = channel >= 0 ? Array.FindIndex(columns, c => Headings.Plain(c) is "unit" or "units") : -1;
        var offset = header >= 0 ? Headings.OffsetIn(columns[timeAt.Item2 >= 0 ? timeAt.Item2 : timeAt.Item1]) : null;
        return new LogShape(separator, header >= 0 ? rows[header].Line : 0, columns, timeAt.Item1, timeAt.Item2, channel, value, unit, offset);
    }

    /// <summary>Date and time of day where they stand apart; else the time column that is best understood.</summary>
    private static (int Time, int Clock) TimeColumns(IReadOnlyList<SampleRow> rows, int header, string? timeColumn)
    {
        string[] columns = rows[header].Fields;
        int[] named = [.. Enumerable.Range(0, columns.Length).Where(i => IsTimeHeading(columns[i], timeColumn) || (timeColumn is null && Headings.IsClock(columns[i])))];
        if (named.Length == 0) return (-1, -1);
        int best = named.MaxBy(i => Understood(rows, header, i, (t, f) => t.Read(f).Kind != TimeKind.None));
        foreach (int date in named.Where(i => Headings.IsDate(columns[i])))
        {
            int clock = Array.Find(named, i => i != date && Headings.IsClock(columns[i]) && Understood(rows, header, i, (_, f) => IsClockAlone(f)) > 0);
            if (clock > 0 || (clock == 0 && date != 0 && Headings.IsClock(columns[0]) && Understood(rows, header, 0, (_, f) => IsClockAlone(f)) > 0))
                return (date, clock);
        }

        return (best, -1);
    }

    private static bool HoldsTime(string field) => field.AsSpan().ContainsAny('-', '/', ':') && new TimeText().Read(field).Kind != TimeKind.None;

    internal static bool IsClockAlone(string field) => field.Contains(':') && ClockText.TryRead(field, out _, out _);

    private static int Understood(IReadOnlyList<SampleRow> rows, int header, int column, Func<TimeText, string, bool> understands)
    {
        var times = new TimeText();
        return rows.Skip(header + 1).Count(r => column < r.Fields.Length && understands(times, r.Fields[column]));
    }

    /// <summary>No heading is known: a column whose fields are nearly all times.</summary>
    private static (int Header, (int Time, int Clock) At) TimeByContent(IReadOnlyList<SampleRow> rows)
    {
        int width = rows.Max(r => r.Fields.Length);
        for (int column = 0; column < Math.Min(width, 50); column++)
        {
            int understood = Understood(rows, -1, column, (t, f) => t.Read(f).Kind != TimeKind.None);
            if (understood == 0 || understood * 10 < (rows.Count - 1) * 8) continue;
            int first = rows.TakeWhile(r => column >= r.Fields.Length || new TimeText().Read(r.Fields[column]).Kind == TimeKind.None).Count();
            return (first - 1, (column, -1));
        }

        var row = rows[0];
        string lines = row.Fields.Length == 1 ? "the lines have no separators" : "no column holds times";
        throw new UnreadableFileException(
            row.Line, 1, $"{lines} (found: {Listed(row.Fields)})", "Give a header line with the column time, as in time,channel,value");
    }

    private static (int Channel, int Value) LongColumns(string[] columns, (int Time, int Clock) at)
    {
        int[] free = [.. Enumerable.Range(0, columns.Length).Where(i => i != at.Time && i != at.Clock)];
        int value = Array.Find(free, i => Headings.Plain(columns[i]) is "value" or "reading") is var exact and > 0 ? exact : FirstOrNone(free, i => Headings.IsValue(columns[i]));
        int channel = FirstOrNone(free, i => i != value && Headings.Plain(columns[i]) is "channel");
        if (channel < 0) channel = FirstOrNone(free, i => i != value && Headings.IsChannel(columns[i]));
        return value < 0 ? (-1, -1) : (channel, value);
    }

    private static int FirstOrNone(int[] from, Predicate<int> which) => Array.FindIndex(from, which) is var at and >= 0 ? from[at] : -1;

    /// <summary>Without headings only time, name and value in three columns are understood.</summary>
    private static (int Channel, int Value) LongByContent(IReadOnlyList<SampleRow> rows, int time)
    {
        if (rows.All(r => r.Fields.Length == 3))
        {
            int[] free = [.. Enumerable.Range(0, 3).Where(i => i != time)];
            bool nameFirst = rows.Count(r => char.IsLetter(r.Fields[free[0]].FirstOrDefault())) >= rows.Count(r => char.IsLetter(r.Fields[free[1]].FirstOrDefault()));
            return nameFirst ? (free[0], free[1]) : (free[1], free[0]);
        }

        return (-1, rows.All(r => r.Fields.Length == 2) ? 1 - time : -1);
    }

    internal static string Listed(IEnumerable<string> names)
    {
        var shown = names.Select(n => n.Length > 40 ? n[..37] + "..." : n).Take(9).ToList();
        return shown.Count > 8 ? string.Join(", ", shown.Take(8)) + ", ..." : string.Join(", ", shown);
    }
}
