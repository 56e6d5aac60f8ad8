namespace Runnel.Exchange.Logs;

/// <summary>Understands times as loggers, spreadsheets and people write them. Keeps the last date, since rows mostly share it.</summary>
internal sealed class TimeText
{
    private const int CachedLength = 10;
    private readonly char[] _lastDate = new char[CachedLength];
    private long _lastDays;
    private bool _countsFrom1970;

    /// <summary>Takes a written time apart; <see cref="TimeKind.None"/> where it is not understood.</summary>
    public WrittenTime Read(ReadOnlySpan<char> text)
    {
        text = text.Trim();
        if (text.Length >= CachedLength && text[4] == '-' && text[7] == '-' && ReadIsoDate(text[..CachedLength]) is { } days)
            return Finish(days, text[CachedLength..], DayMonth.Sure);
        if (text.IsEmpty) return default;
        return char.IsAsciiDigit(text[0]) || text[0] is '+' or '-' or '.' ? ReadOther(text) : ReadWithWeekday(text);
    }

    private long? ReadIsoDate(ReadOnlySpan<char> date)
    {
        if (date.SequenceEqual(_lastDate)) return _lastDays;
        if (!Digits(date[..4], out int year) || !Digits(date[5..7], out int month) || !Digits(date[8..], out int day)) return null;
        if (WrittenTime.DaysOf(year, month, day) is not { } days) return null;
        date.CopyTo(_lastDate);
        _lastDays = days;
        return days;
    }

    private WrittenTime ReadOther(ReadOnlySpan<char> text)
    {
        if (NumberTime.TryRead(text, _countsFrom1970, out var counted, out bool from1970))
        {
            _countsFrom1970 |= from1970;
            return counted;
        }

        return DateText.TryRead(text, out long days, out var order, out int taken) ? Finish(days, text[taken..], order) : default;
    }

    /// <summary>"Sun, 01 Feb 2026 10:00:00 +1100" and "Feb 1, 2026 10:00 AM".</summary>
    private static WrittenTime ReadWithWeekday(ReadOnlySpan<char> text)
    {
        if (DateText.TryRead(text, out long days, out var order, out int taken)) return Finish(days, text[taken..], order);
        int gap = text.IndexOfAny(' ', ',');
        if (gap < 2 || gap > 9 || !IsWeekday(text[..gap])) return default;
        text = text[gap..].TrimStart(" ,");
        return DateText.TryRead(text, out days, out order, out taken) ? Finish(days, text[taken..], order) : default;
    }

    private static bool IsWeekday(ReadOnlySpan<char> word)
    {
        if (word.Length < 2) return false;
        foreach (string day in (ReadOnlySpan<string>)["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"])
        {
            if (day.AsSpan().StartsWith(word, StringComparison.OrdinalIgnoreCase)) return true;
        }

        return false;
    }

    private static WrittenTime Finish(long days, ReadOnlySpan<char> rest, DayMonth order)
    {
        long ticks = days * WrittenTime.PerDay;
        if (rest.IsEmpty) return new(TimeKind.Local, ticks, order);
        if (rest[0] is 'T' or 't' or ' ' or ',' or '_' or '\t' or '\u00A0' or '\u202F') rest = rest[1..].TrimStart();
        if (rest.IsEmpty) return new(TimeKind.Local, ticks, order);
        if (!ClockText.TryRead(rest, out long ofDay, out int taken)) return default;
        ticks += ofDay;
        rest = rest[taken..].TrimStart();
        if (rest.IsEmpty) return new(TimeKind.Local, ticks, order);
        return ClockText.TryReadOffset(rest, out long offset) ? new(TimeKind.Moment, ticks - offset, order) : default;
    }

    /// <summary>Plain digits only, as a number.</summary>
    internal static bool Digits(ReadOnlySpan<char> text, out int value)
    {
        value = 0;
        if (text.IsEmpty || text.Length > 9) return false;
        foreach (char c in text)
        {
            int digit = c - '0';
            if ((uint)digit > 9) return false;
            value = (value * 10) + digit;
        }

        return true;
    }
}
