using System.Globalization;

namespace Runnel.Exchange.Logs;

/// <summary>
/// Times written as one number: seconds, milliseconds, microseconds or nanoseconds since 1970, or a spreadsheet's days since the end of 1899.
/// The magnitude tells which: a spreadsheet's days of 1954 to 2119 lie between 20,000 and 80,500, seconds of 1973 to 2286 have nine or
/// ten digits, and so on by thousands.
/// </summary>
internal static class NumberTime
{
    private const double DaysToUnixEpoch = 25569; // 1970-01-01 in a spreadsheet's count of days

    /// <param name="text">What was written.</param>
    /// <param name="knownToCountFrom1970">Whether this column's earlier rows did: then small numbers are a clock that was never set.</param>
    /// <param name="time">The time.</param>
    /// <param name="from1970">Whether this one surely counts from 1970.</param>
    public static bool TryRead(ReadOnlySpan<char> text, bool knownToCountFrom1970, out WrittenTime time, out bool from1970)
    {
        time = default;
        from1970 = false;
        int whole = ClockText.Leading(text);
        if (whole == 0) return false;
        bool point = whole < text.Length && text[whole] is '.' or ',';
        if (whole < text.Length && (!point || ClockText.Leading(text[(whole + 1)..]) != text.Length - whole - 1)) return false;

        // Eight digits are a date, yyyymmdd, never a count; fourteen are yyyymmddhhmmss.
        if (whole == text.Length && whole is 8 or 12 or 14 && TryDigitsOnly(text, ref time)) return true;
        if (!long.TryParse(text[..whole], NumberStyles.None, CultureInfo.InvariantCulture, out long units)) return false;
        double fraction = 0;
        if (point && whole + 1 < text.Length)
        {
            Span<char> part = stackalloc char[Math.Min(text.Length - whole, 18)];
            text.Slice(whole, part.Length).CopyTo(part);
            part[0] = '.';
            fraction = double.Parse(part, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
        }

        long? ticks = units switch
        {
            >= 100_000_000 and < 100_000_000_000 => (units * WrittenTime.PerSecond) + (long)Math.Round(fraction * 1e6) * 10,
            >= 100_000_000_000 and < 100_000_000_000_000 => (units * WrittenTime.PerMs) + (long)Math.Round(fraction * 1e3) * 10,
            >= 100_000_000_000_000 and < 100_000_000_000_000_000 => units * 10,
            >= 100_000_000_000_000_000 => units / 100,
            < 100_000_000 when knownToCountFrom1970 => units * WrittenTime.PerSecond,
            _ => null,
        };
        if (ticks is { } counted)
        {
            from1970 = true;
            time = new(TimeKind.Moment, counted);
            return true;
        }

        if (units is < 20_000 or > 80_500) return false;

        // Rounded to the millisecond: sheets print days with too few digits for more.
        double ms = ((units - DaysToUnixEpoch) * 86_400_000) + Math.Round(fraction * 86_400_000);
        time = new(TimeKind.Local, (long)ms * WrittenTime.PerMs);
        return true;
    }

    private static bool TryDigitsOnly(ReadOnlySpan<char> text, ref WrittenTime time)
    {
        if (!DateText.TryRead(text[..8], out long days, out _, out _)) return false;
        if (days is < -7305 or > 54787) return false; // 1950 to 2119: other digits are a count
        long ofDay = 0;
        if (text.Length > 8 && (!TwoDigits(text[8..], out int hour) || !TwoDigits(text[10..], out int minute) || hour > 23 || minute > 59 ||
            !Seconds(text, out int second) || !Set(out ofDay, hour, minute, second)))
        {
            return false;
        }

        time = new(TimeKind.Local, (days * WrittenTime.PerDay) + ofDay);
        return true;
    }

    private static bool Seconds(ReadOnlySpan<char> text, out int second)
    {
        second = 0;
        return text.Length < 14 || (TwoDigits(text[12..], out second) && second < 60);
    }

    private static bool TwoDigits(ReadOnlySpan<char> text, out int value) => TimeText.Digits(text[..2], out value);

    private static bool Set(out long ofDay, int hour, int minute, int second)
    {
        ofDay = (((hour * 60L) + minute) * 60 + second) * WrittenTime.PerSecond;
        return true;
    }
}
