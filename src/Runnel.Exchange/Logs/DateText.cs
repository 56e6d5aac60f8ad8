namespace Runnel.Exchange.Logs;

/// <summary>Dates other than yyyy-mm-dd at the head of a text.</summary>
internal static class DateText
{
    private static readonly string[] Months =
        ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];

    /// <summary>Takes a date apart; <paramref name="taken"/> is its length.</summary>
    public static bool TryRead(ReadOnlySpan<char> text, out long days, out DayMonth order, out int taken)
    {
        days = 0;
        order = DayMonth.Sure;
        int first = ClockText.Leading(text);
        if (first == 0) return TryMonthFirstWord(text, out days, out taken);
        taken = first;
        if (first == 8) return TryCompact(text[..8], out days);
        if (first > 4 || first == text.Length) return false;
        char part = text[first];
        if (first <= 2 && (char.IsAsciiLetter(text[first]) || (part is ' ' or '-' or '.' && first + 1 < text.Length && char.IsAsciiLetter(text[first + 1]))))
            return TryDayThenWord(text, first, out days, out taken);
        if (part is not ('/' or '-' or '.')) return false;
        int second = ClockText.Leading(text[(first + 1)..]);
        int at = first + 1 + second;
        if (second is < 1 or > 2 || at >= text.Length || text[at] != part) return false;
        int third = ClockText.Leading(text[(at + 1)..]);
        if (third is not (1 or 2 or 4)) return false;
        taken = at + 1 + third;
        TimeText.Digits(text[..first], out int a);
        TimeText.Digits(text.Slice(first + 1, second), out int b);
        TimeText.Digits(text.Slice(at + 1, third), out int c);
        if (first == 4)
            return third <= 2 && Take(WrittenTime.DaysOf(a, b, c), out days);
        if (first == 3 || third == 1) return false;
        if (third == 2) c += c < 70 ? 2000 : 1900;

        // With full stops the day always stands first; with strokes and hyphens either way is in use.
        long? dayFirst = WrittenTime.DaysOf(c, b, a);
        if (part == '.') return Take(dayFirst, out days);
        long? monthFirst = WrittenTime.DaysOf(c, a, b);
        order = (dayFirst, monthFirst) switch
        {
            ({ }, { }) => a == b ? DayMonth.Sure : DayMonth.Open,
            ({ }, null) => DayMonth.DayFirst,
            _ => DayMonth.MonthFirst,
        };
        return Take(dayFirst ?? monthFirst, out days);
    }

    private static bool TryCompact(ReadOnlySpan<char> text, out long days)
    {
        TimeText.Digits(text[..4], out int year);
        TimeText.Digits(text[4..6], out int month);
        TimeText.Digits(text[6..], out int day);
        return Take(WrittenTime.DaysOf(year, month, day), out days);
    }

    /// <summary>"1 Feb 2026", "01-Feb-2026", "1. February 2026", "1Feb2026".</summary>
    private static bool TryDayThenWord(ReadOnlySpan<char> text, int first, out long days, out int taken)
    {
        days = 0;
        TimeText.Digits(text[..first], out int day);
        taken = SkipJoin(text, first);
        if (!TryMonth(text, ref taken, out int month)) return false;
        taken = SkipJoin(text, taken);
        return TryYear(text, ref taken, out int year) && Take(WrittenTime.DaysOf(year, month, day), out days);
    }

    /// <summary>"Feb 1, 2026".</summary>
    private static bool TryMonthFirstWord(ReadOnlySpan<char> text, out long days, out int taken)
    {
        days = 0;
        taken = 0;
        if (!TryMonth(text, ref taken, out int month)) return false;
        taken = SkipJoin(text, taken);
        int digits = ClockText.Leading(text[taken..]);
        if (digits is < 1 or > 2) return false;
        TimeText.Digits(text.Slice(taken, digits), out int day);
        taken = SkipJoin(text, taken + digits);
        return TryYear(text, ref taken, out int year) && Take(WrittenTime.DaysOf(year, month, day), out days);
    }

    private static bool TryMonth(ReadOnlySpan<char> text, ref int at, out int month)
    {
        int end = at;
        while (end < text.Length && char.IsAsciiLetter(text[end])) end++;
        month = 0;
        if (end - at < 3) return false;
        for (int i = 0; i < Months.Length; i++)
        {
            if (!Months[i].AsSpan().StartsWith(text[at..end], StringComparison.OrdinalIgnoreCase)) continue;
            month = i + 1;
            at = end;
            return true;
        }

        return false;
    }

    private static bool TryYear(ReadOnlySpan<char> text, ref int at, out int year)
    {
        int digits = ClockText.Leading(text[at..]);
        year = 0;
        if (digits is not (2 or 4)) return false;
        TimeText.Digits(text.Slice(at, digits), out year);
        if (digits == 2) year += year < 70 ? 2000 : 1900;
        at += digits;
        return true;
    }

    private static int SkipJoin(ReadOnlySpan<char> text, int at)
    {
        while (at < text.Length && text[at] is ' ' or '-' or '.' or ',' or '/') at++;
        return at;
    }

    private static bool Take(long? found, out long days)
    {
        days = found ?? 0;
        return found is not null;
    }
}
