using Runnel.Exchange.Csv;
using Runnel.Exchange.Logs;

namespace Runnel.Exchange.Survey;

/// <summary>Looks at a log without a place file: its form, its channels, and what each probably measures.</summary>
public static class LogSurveyor
{
    private const long MostRows = 3_000_000;
    private const int PreviewRows = 12;
    private const int MostChannels = 500;

    /// <exception cref="UnreadableFileException">The log is empty, no table, or has no column of times.</exception>
    public static LogSurvey Look(Stream stream, IProgress<long>? progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(stream);
        long start = stream.CanSeek ? stream.Position : 0;
        var text = CsvText.Open(stream, progress, cancel);
        var shape = LogShape.Find(text, null);
        var preview = CsvLayout.Sample(text, shape.Separator).Where(r => r.Line > shape.HeaderLine).Take(PreviewRows);
        var (rows, whole) = Rows(text, shape, monthFirst: false, cancel);
        // Only a whole look tells the order of day and month; where it was the other one, everything that rests on times is counted anew.
        if (rows.SaysMonthFirst && stream.CanSeek)
        {
            stream.Position = start;
            (rows, whole) = Rows(CsvText.Open(stream, null, cancel), shape, monthFirst: true, cancel);
        }

        if (rows.TimesUnderstood == 0)
            throw new UnreadableFileException(Math.Max(1, shape.HeaderLine), 1, "no row has a time that can be understood", "Check the time column");
        double days = rows.Days;
        var channels = ChannelGuesses.Make([.. rows.Channels.Select(c => (c.Name, c.Unit, c.Statistics(days)))]);
        return new LogSurvey
        {
            Separator = shape.Separator switch { ';' => "semicolon", '\t' => "tab", '|' => "vertical bar", _ => "comma" },
            Form = shape.IsLong ? LogForm.LongForm : LogForm.WideForm,
            TimeColumn = shape.Clock >= 0 ? $"{shape.Columns[shape.Time]} + {shape.Columns[shape.Clock]}" : shape.Columns[shape.Time],
            TimesHaveOffset = rows.AllMoments,
            TimeForm = rows.TimeForm(),
            FirstTime = rows.FirstTime,
            LastTime = rows.LastTime,
            Days = days,
            Rows = rows.Count,
            IsWhole = whole,
            Channels = channels,
            Columns = shape.Columns,
            Preview = [.. preview.Select(r => (IReadOnlyList<string>)r.Fields)],
            Remarks = Remarks(shape, rows, whole),
        };
    }

    private static (SurveyRows Rows, bool Whole) Rows(CsvText text, LogShape shape, bool monthFirst, CancellationToken cancel)
    {
        var rows = new SurveyRows(shape, MostChannels, monthFirst);
        var source = new CsvRows(text, shape.Separator);
        while (source.Next())
        {
            if (source.Line <= shape.HeaderLine) continue;
            if ((source.Line & 0xFFF) == 0) cancel.ThrowIfCancellationRequested();
            if (rows.Count >= MostRows) return (rows, false);
            rows.Take(source);
        }

        return (rows, true);
    }

    private static List<string> Remarks(LogShape shape, SurveyRows rows, bool whole)
    {
        var remarks = new List<string>();
        if (shape.HeaderLine == 0) remarks.Add("The log has no header line; its columns were taken by what they hold.");
        if (!whole) remarks.Add(FormattableString.Invariant($"Only the first {MostRows:#,0} rows were looked at."));
        if (rows.TimesNotUnderstood > 0)
            remarks.Add(FormattableString.Invariant($"{rows.TimesNotUnderstood:#,0} rows have a time that was not understood (first in line {rows.FirstBadLine})."));
        if (rows.DayMonthOpen)
            remarks.Add("Day and month could stand either way round in every date looked at; the whole log decides when it is read.");
        if (rows.TooManyChannels) remarks.Add($"There are more than {MostChannels} names; the rest was passed over.");
        return remarks;
    }
}
