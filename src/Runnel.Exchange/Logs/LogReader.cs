using NodaTime;
using Runnel.Exchange.Csv;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>Reads a log of any place, in the long form (time, channel, value) or the wide form (time and one column a channel).</summary>
public static class LogReader
{
    /// <summary>Reads all of <paramref name="stream"/>. What cannot be taken is counted with its reason; only a log that cannot be read at all is an error.</summary>
    /// <param name="stream">The log; read once, from where it stands to its end.</param>
    /// <param name="place">Names the channels, their scales and ranges, and the zone of times without an offset.</param>
    /// <param name="options">How to read it.</param>
    /// <param name="progress">Told the bytes read so far, now and then.</param>
    /// <param name="cancel">Stops the reading.</param>
    /// <exception cref="UnreadableFileException">The log is empty, no table, has no time column, or none of its rows could be taken.</exception>
    public static ReadingLog Read(
        Stream stream, PlaceDescription place, LogReadOptions options, IProgress<long>? progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(stream);
        long? length = LengthOf(stream);
        var text = CsvText.Open(stream, progress, cancel);
        var shape = LogShape.Find(text, options.TimeColumn);
        var channels = new LogChannels(place, options.Names);
        var tally = new SkipTally();
        var remarks = new List<string>();
        var rows = new LogRows(shape, channels, tally, options, remarks);
        rows.ReadAll(new CsvRows(text, shape.Separator), () => length is { } bytes ? (double)text.BytesRead / bytes : null, cancel);
        if (rows.Readings.Count == 0) throw NothingRead(shape, tally);
        progress?.Report(text.BytesRead);
        var log = ReadingOrder.Settle(rows.Readings, rows.HeaderAgain, place, options, tally, remarks, cancel);
        return log.Readings.Count > 0 ? log : throw NothingRead(shape, tally);
    }

    /// <summary>Bytes from where the stream stands to its end, where it knows.</summary>
    private static long? LengthOf(Stream stream) => stream.CanSeek && stream.Length > stream.Position ? stream.Length - stream.Position : null;

    private static UnreadableFileException NothingRead(LogShape shape, SkipTally tally)
    {
        var first = tally.ToList();
        if (first.Count == 0)
            return new(Math.Max(1, shape.HeaderLine), 1, "there is a header but no readings below it", "Give a log with at least one row of readings");
        string reasons = string.Join("; ", first.Take(3).Select(s => $"line {s.FirstLine}: {s.Reason}"));
        return new(first[0].FirstLine, 1, $"no row could be read ({reasons})", "Check the columns, the form of the times and the names of the channels");
    }
}
