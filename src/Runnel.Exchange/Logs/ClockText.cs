namespace Runnel.Exchange.Logs;

/// <summary>The time of day and the offset behind a date.</summary>
internal static class ClockText
{
    /// <summary>"10:00", "10:00:05.25", "10:00:05,25", "9:05 PM", "100005", "24:00".</summary>
    public static bool TryRead(ReadOnlySpan<char> text, out long ofDay, out int taken)
    {
        ofDay = 0;
        taken = 0;
        int digits = Leading(text);
        int hour, minute, second = 0, at;
        if (digits is 4 or 6)
        {
            TimeText.Digits(text[..2], out hour);
            TimeText.Digits(text[2..4], out minute);
            if (digits == 6) TimeText.Digits(text[4..6], out second);
            at = digits;
        }
        else
        {
            if (digits is < 1 or > 2 || text.Length < digits + 3 || text[digits] is not (':' or '.' or 'h')) return false;
            TimeText.Digits(text[..digits], out hour);
            at = digits + 1;
            if (Leading(text[at..]) != 2) return false;
            TimeText.Digits(text.Slice(at, 2), out minute);
            char between = text[digits];
            at += 2;
            if (at < text.Length && text[at] == between && Leading(text[(at + 1)..]) == 2)
            {
                TimeText.Digits(text.Slice(at + 1, 2), out second);
                at += 3;
            }
        }

        long fraction = 0;
        if (at + 1 < text.Length && text[at] is '.' or ',' && char.IsAsciiDigit(text[at + 1]))
        {
            int count = Leading(text[(at + 1)..]);
            long unit = WrittenTime.PerSecond;
            for (int i = 0; i < Math.Min(count, 7); i++)
            {
                unit /= 10;
                fraction += (text[at + 1 + i] - '0') * unit;
            }

            at += 1 + count;
        }

        if (!TakeHalfDay(text, ref at, ref hour)) return false;

        // A leap second, 60, is legal and becomes the next second; 24:00:00 is the next midnight.
        if (minute > 59 || second > 60 || hour > 24 || (hour == 24 && (minute | second) + fraction > 0)) return false;
        ofDay = (hour * WrittenTime.PerHour) + (minute * WrittenTime.PerMinute) + (second * WrittenTime.PerSecond) + fraction;
        taken = at;
        return true;
    }

    /// <summary>"Z", "+10:00", "-0500", "+10", "UTC", "UTC+10:00".</summary>
    public static bool TryReadOffset(ReadOnlySpan<char> text, out long offset)
    {
        offset = 0;
        if (text is "Z" or "z") return true;
        if (text.StartsWith("UTC", StringComparison.OrdinalIgnoreCase) || text.StartsWith("GMT", StringComparison.OrdinalIgnoreCase))
        {
            text = text[3..].TrimStart();
            if (text.IsEmpty) return true;
        }

        bool west = text[0] is '-' or '\u2212';
        if (!west && text[0] != '+') return false;
        text = text[1..];
        int digits = Leading(text);
        int hours, minutes = 0;
        if (digits == 4 && text.Length == 4)
        {
            TimeText.Digits(text[..2], out hours);
            TimeText.Digits(text[2..], out minutes);
        }
        else
        {
            if (digits is < 1 or > 2) return false;
            TimeText.Digits(text[..digits], out hours);
            if (text.Length > digits && (text.Length != digits + 3 || text[digits] != ':' || !TimeText.Digits(text[(digits + 1)..], out minutes)))
                return false;
        }

        if (hours > 23 || minutes > 59) return false;
        offset = ((hours * 60L) + minutes) * WrittenTime.PerMinute;
        if (west) offset = -offset;
        return true;
    }

    /// <summary>AM and PM, also "a.m." and "p.m.".</summary>
    private static bool TakeHalfDay(ReadOnlySpan<char> text, ref int at, ref int hour)
    {
        int start = at;
        while (start < text.Length && text[start] is ' ' or '\u00A0' or '\u202F') start++;
        if (start >= text.Length) return true;
        bool after = text[start] is 'p' or 'P';
        if (!after && text[start] is not ('a' or 'A')) return true;
        int end = start + 1;
        if (end < text.Length && text[end] == '.') end++;
        if (end >= text.Length || text[end] is not ('m' or 'M')) return false;
        end++;
        if (end < text.Length && text[end] == '.') end++;
        if (hour is < 1 or > 12) return false;
        hour = (hour % 12) + (after ? 12 : 0);
        at = end;
        return true;
    }

    internal static int Leading(ReadOnlySpan<char> text)
    {
        int count = 0;
        while (count < text.Length && char.IsAsciiDigit(text[count])) count++;
        return count;
    }
}
