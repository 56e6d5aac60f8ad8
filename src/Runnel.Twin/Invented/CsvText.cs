using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Runnel.Twin.Invented;

/// <summary>Writes an invented log and its daybook as CSV text.</summary>
public static class CsvText
{
    private static readonly OffsetDateTimePattern Stamp = OffsetDateTimePattern.Rfc3339;

    /// <summary>The log in long form, <c>time,channel,value</c>, in the order in which the logger wrote it.</summary>
    public static void WriteLog(InventedLog log, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(to);
        to.Write("time,channel,value\r\n");
        foreach (var row in log.Rows)
        {
            to.Write(Time(row.Time, log.Place.Zone));
            to.Write(',');
            to.Write(log.Place.Channels[row.Channel].Id);
            to.Write(',');
            to.Write(row.Value.ToString("R", CultureInfo.InvariantCulture));
            to.Write("\r\n");
        }
    }

    /// <summary>The daybook, <c>time,entry,of,amount,unit,by,note</c>.</summary>
    public static void WriteDaybook(InventedLog log, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(to);
        to.Write("time,entry,of,amount,unit,by,note\r\n");
        foreach (var e in log.Daybook)
        {
            string litres = e.Litres is { } l ? l.ToString("R", CultureInfo.InvariantCulture) : "";
            to.Write($"{Time(e.Time, log.Place.Zone)},{e.Entry},{e.Of},{litres},{(litres.Length > 0 ? "L" : "")},{e.By},{e.Note}\r\n");
        }
    }

    private static string Time(Instant time, DateTimeZone zone) => Stamp.Format(time.InZone(zone).ToOffsetDateTime());
}
