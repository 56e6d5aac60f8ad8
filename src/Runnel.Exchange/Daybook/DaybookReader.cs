using NodaTime;
using Runnel.Exchange.Csv;
using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Exchange.Daybook;

/// <summary>Reads a daybook: <c>time,entry,of,amount,unit,by,note</c>, in any order of columns, with the same tolerance as a log.</summary>
public static class DaybookReader
{
    /// <summary>Reads all of <paramref name="stream"/>.</summary>
    /// <exception cref="UnreadableFileException">The file is empty, no table, or lacks the columns time and entry.</exception>
    public static DaybookFile Read(Stream stream, PlaceDescription place, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(place);
        var text = CsvText.Open(stream, null, cancel);
        var shape = LogShape.Find(text, null);
        var rows = new DaybookRows(DaybookColumns.Bind(shape), place);
        var source = new CsvRows(text, shape.Separator);
        while (source.Next())
        {
            cancel.ThrowIfCancellationRequested();
            if (source.Line > shape.HeaderLine) rows.Take(source);
        }

        return Settle(rows, place);
    }

    private static DaybookFile Settle(DaybookRows rows, PlaceDescription place)
    {
        var remarks = rows.Remarks();
        var times = rows.Times;
        DayMonthOrder.Settle(times, place.Zone, rows.Tally, remarks);
        var order = FileOrder.Of(times, 1);
        WallClock.Settle(times, order, place.Zone, 1, remarks);
        var entries = new List<DaybookEntry>();
        for (int k = 0; k < order.Count; k++)
        {
            int i = order.At(k);
            if (times.Form(i).Kind != TimeKind.None)
                entries.Add(rows.Entries[i] with { Time = Instant.FromUnixTimeTicks(times.Ticks(i)) });
        }

        return new DaybookFile([.. entries.OrderBy(e => e.Time)], rows.Tally.ToList(), remarks);
    }
}
