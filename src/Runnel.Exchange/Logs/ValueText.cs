using System.Globalization;

namespace Runnel.Exchange.Logs;

/// <summary>Whether a written value could be used.</summary>
internal enum ValueKind { Number, Empty, Unavailable, NotUnderstood }

/// <summary>Understands values as loggers and spreadsheets write them.</summary>
internal static class ValueText
{
    private static readonly string[] On =
        ["on", "true", "yes", "open", "opened", "running", "run", "started", "start", "active", "high", "ein", "an", "ja", "offen", "oui", "marche"];

    private static readonly string[] Off =
        ["off", "false", "no", "closed", "close", "stopped", "stop", "idle", "inactive", "low", "standby", "aus", "nein", "zu", "non"];

    private static readonly string[] Nothing =
    [
        "unavailable", "unknown", "nan", "null", "none", "n/a", "na", "nil", "-", "--", "---", "?", "error", "err", "fault", "offline", "missing",
        "invalid", "inf", "+inf", "-inf", "infinity", "-infinity", "no data", "nodata", "not available", "#n/a", "#value!", "#ref!", "#div/0!",
        "#num!", "undefined", "disconnected", "timeout", "-nan", "1.#qnan", "-1.#ind",
    ];

    /// <param name="text">What was written.</param>
    /// <param name="forSwitch">Words for on and off count as 1 and 0.</param>
    /// <param name="commaSeparates">The file's separator is a comma, so that one inside a number groups thousands where it can.</param>
    /// <param name="value">The number, finite.</param>
    public static ValueKind Read(ReadOnlySpan<char> text, bool forSwitch, bool commaSeparates, out double value)
    {
        text = text.Trim();
        value = 0;
        if (text.IsEmpty) return ValueKind.Empty;
        if (text.Length == 1 && (uint)(text[0] - '0') <= 9)
        {
            value = text[0] - '0';
            return ValueKind.Number;
        }

        if (TryNumber(text, commaSeparates, out value)) return ValueKind.Number;
        if (forSwitch && TrySwitch(text, out value)) return ValueKind.Number;
        return IsIn(Nothing, text) ? ValueKind.Unavailable : ValueKind.NotUnderstood;
    }

    /// <summary>A word for on or off.</summary>
    public static bool TrySwitch(ReadOnlySpan<char> text, out double value)
    {
        value = IsIn(On, text) ? 1 : 0;
        return value == 1 || IsIn(Off, text);
    }

    /// <summary>A finite number with a decimal point or comma, with or without grouped thousands.</summary>
    public static bool TryNumber(ReadOnlySpan<char> text, bool commaSeparates, out double value)
    {
        value = 0;
        if (!(char.IsAsciiDigit(text[0]) || text[0] is '-' or '+' or '.' or ',' or '\u2212')) return false;
        const NumberStyles Plain = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        if (double.TryParse(text, Plain, CultureInfo.InvariantCulture, out value) && double.IsFinite(value)) return true;
        value = 0;
        if (text.Length > 40) return false;
        Span<char> plain = stackalloc char[text.Length];
        int length = 0;
        int lastComma = text.LastIndexOf(','), lastPoint = text.LastIndexOf('.');
        bool commaIsDecimal = lastComma > lastPoint && text.Count(',') == 1 && !(commaSeparates && lastPoint < 0 && GroupsThousands(text, lastComma));
        bool pointIsDecimal = !commaIsDecimal && lastPoint > lastComma && text.Count('.') == 1;
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (c is ',' or '.')
            {
                bool isDecimal = c == ',' ? commaIsDecimal : pointIsDecimal;
                if (isDecimal) plain[length++] = '.';
                else if (!IsGroupMark(text, i)) return false;
            }
            else if (c is ' ' or '\'' or '\u00A0' or '\u202F')
            {
                if (!IsGroupMark(text, i)) return false;
            }
            else
            {
                plain[length++] = c == '\u2212' ? '-' : c;
            }
        }

        return double.TryParse(plain[..length], Plain, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
    }

    private static bool GroupsThousands(ReadOnlySpan<char> text, int comma) =>
        IsGroupMark(text, comma) && comma + 4 == text.Length && comma <= 4;

    /// <summary>A mark between a digit and exactly three digits.</summary>
    private static bool IsGroupMark(ReadOnlySpan<char> text, int at) =>
        at > 0 && char.IsAsciiDigit(text[at - 1]) && ClockText.Leading(text[(at + 1)..]) == 3;

    /// <summary>Parts "21.5 °C" into number and unit; false where there is no number in front or nothing behind it.</summary>
    public static bool SplitUnit(ReadOnlySpan<char> text, out ReadOnlySpan<char> number, out ReadOnlySpan<char> unit)
    {
        text = text.Trim();
        int end = 0;
        while (end < text.Length && (char.IsAsciiDigit(text[end]) || text[end] is '.' or ',' || (end == 0 && text[end] is '-' or '+' or '\u2212'))) end++;
        number = text[..end];
        unit = text[end..].TrimStart();
        return !unit.IsEmpty && unit.Length <= 20 && number.ContainsAnyInRange('0', '9') && !char.IsAsciiDigit(unit[0]);
    }

    private static bool IsIn(string[] words, ReadOnlySpan<char> text)
    {
        foreach (string word in words)
        {
            if (text.Equals(word, StringComparison.OrdinalIgnoreCase)) return true;
        }

        return false;
    }
}
