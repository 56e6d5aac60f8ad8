using NodaTime;

namespace Runnel.Exchange.Logs;

/// <summary>What people and loggers call the columns of a log.</summary>
internal static class Headings
{
    private static readonly HashSet<string> TimeNames =
    [
        "time", "timestamp", "time stamp", "datetime", "date time", "date/time", "date and time", "date & time", "date", "day", "when", "local time",
        "localtime", "utc", "utc time", "time utc", "timestamp utc", "datetime utc", "gmt", "unix", "unix time", "unixtime", "epoch", "epoch time", "epoch ms",
        "ts", "t", "at", "recorded", "recorded at", "logged", "logged at", "created", "created at", "measured at", "reading time", "sample time", "log time",
        "event time", "start", "zeit", "zeitpunkt", "zeitstempel", "datum", "datum/zeit", "datum/uhrzeit", "datum uhrzeit", "datum und uhrzeit", "heure",
        "horodatage", "date heure", "date/heure", "fecha", "fecha y hora", "fecha/hora", "fecha hora", "tijd", "datum tijd", "tijdstip", "data", "data ora", "data/ora", "tid",
    ];

    private static readonly HashSet<string> ClockNames =
        ["time", "clock", "hour", "time of day", "local time", "uhrzeit", "zeit", "heure", "hora", "ora", "tijd", "tid", "utc", "time utc", "utc time"];

    private static readonly HashSet<string> DateNames = ["date", "day", "datum", "fecha", "data", "local date", "date utc", "utc date"];

    private static readonly HashSet<string> ChannelNames =
    [
        "channel", "name", "sensor", "tag", "point", "series", "signal", "device", "id", "source", "variable", "metric", "parameter", "quantity", "what",
        "measurement", "measures", "topic", "channel id", "sensor id", "channel name", "sensor name", "tag name", "label", "key", "kanal", "messstelle", "canal", "kanaal", "capteur",
    ];

    private static readonly HashSet<string> ValueNames =
    [
        "value", "reading", "val", "state", "status", "data", "number", "result", "measurement", "measured", "amount", "wert", "messwert", "zustand",
        "valeur", "valor", "valore", "waarde", "raw", "raw value", "v", "y",
    ];

    public static bool IsTime(string heading) => TimeNames.Contains(Plain(heading));

    public static bool IsClock(string heading) => ClockNames.Contains(Plain(heading));

    public static bool IsDate(string heading) => DateNames.Contains(Plain(heading));

    public static bool IsChannel(string heading) => ChannelNames.Contains(Plain(heading));

    public static bool IsValue(string heading) => ValueNames.Contains(Plain(heading));

    /// <summary>The offset of a heading such as "time (UTC)" or "time [UTC+10:00]", or null.</summary>
    public static Offset? OffsetIn(string heading)
    {
        int open = heading.IndexOfAny(['(', '[']);
        var inside = open < 0 ? [] : heading.AsSpan(open + 1).TrimEnd(")] ").Trim();
        if (inside.IsEmpty)
        {
            string plain = Plain(heading);
            bool named = plain is "utc" or "gmt" || plain.EndsWith(" utc", StringComparison.Ordinal) || plain.StartsWith("utc ", StringComparison.Ordinal);
            return named ? Offset.Zero : null;
        }

        bool says = inside.StartsWith("UTC", StringComparison.OrdinalIgnoreCase) || inside.StartsWith("GMT", StringComparison.OrdinalIgnoreCase);
        return says && ClockText.TryReadOffset(inside, out long ticks) && Math.Abs(ticks) <= 18 * WrittenTime.PerHour ? Offset.FromTicks(ticks) : null;
    }

    /// <summary>What stands in brackets in a heading, or nothing.</summary>
    public static string UnitInBrackets(string heading)
    {
        int open = heading.LastIndexOfAny(['(', '[']);
        return open < 0 ? "" : heading[(open + 1)..].TrimEnd(')', ']', ' ').Trim();
    }

    /// <summary>Lower case, blanks for underscores and hyphens, without what stands in brackets.</summary>
    public static string Plain(string heading)
    {
        int bracket = heading.IndexOfAny(['(', '[']);
        var span = (bracket > 0 ? heading.AsSpan(0, bracket) : heading).Trim().Trim('\uFEFF').Trim();
        Span<char> plain = span.Length <= 128 ? stackalloc char[span.Length] : new char[span.Length];
        int length = 0;
        foreach (char c in span)
        {
            bool blank = c is ' ' or '_' or '-' or '.' or '\u00A0';
            if (blank && (length == 0 || plain[length - 1] == ' ')) continue;
            plain[length++] = blank ? ' ' : char.ToLowerInvariant(c);
        }

        return plain[..length].TrimEnd().ToString();
    }
}
