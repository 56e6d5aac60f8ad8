using System.Globalization;

namespace Runnel.Science.Reckoning;

/// <summary>Times as RFC 3339 writes them: always with an offset.</summary>
internal static class Rfc3339
{
    private static readonly string[] Forms =
    [
        "yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", "yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd' 'HH:mm:ssK", "yyyy-MM-dd' 'HH:mmK",
    ];

    /// <summary>A moment with its offset; null where the text is none.</summary>
    public static DateTimeOffset? Read(string text)
    {
        string upper = text.ToUpperInvariant();
        bool hasOffset = upper.EndsWith('Z') || upper.Length > 6 && upper[^6] is '+' or '-' && upper[^3] == ':';
        return hasOffset && DateTimeOffset.TryParseExact(upper, Forms, CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) ? time : null;
    }

    /// <summary>A local date and hour, which may lie before or after that day, with its offset, to the second.</summary>
    public static string Of(DateTimeOffset day, double hours)
    {
        var midnight = new DateTimeOffset(day.Year, day.Month, day.Day, 0, 0, 0, day.Offset);
        return Of(midnight.AddSeconds(Math.Round(hours * 3600)));
    }

    /// <summary>A moment with its offset, to the second.</summary>
    public static string Of(DateTimeOffset time) => time.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);
}
