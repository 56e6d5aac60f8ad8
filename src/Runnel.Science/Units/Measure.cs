using System.Globalization;

namespace Runnel.Science.Units;

/// <summary>What is wrong with a written quantity.</summary>
public enum MeasureFault
{
    /// <summary>Nothing: it reads well.</summary>
    None,

    /// <summary>It does not begin with a number.</summary>
    NoNumber,

    /// <summary>The number has a comma, where a point parts the decimals.</summary>
    Comma,

    /// <summary>There is a number but no unit.</summary>
    NoUnit,

    /// <summary>What follows the number is no unit that is known.</summary>
    UnknownUnit,
}

/// <summary>A quantity as people write it: a number, a blank, a unit (<c>65 L</c>, <c>2.4 m3/h</c>).</summary>
/// <param name="Value">The number.</param>
/// <param name="Unit">Its unit; null where <paramref name="Fault"/> is not <see cref="MeasureFault.None"/>.</param>
/// <param name="UnitText">The unit as written.</param>
/// <param name="Fault">What is wrong with it.</param>
public readonly record struct Measure(double Value, Unit? Unit, string UnitText, MeasureFault Fault)
{
    /// <summary>Reads a written quantity. Never throws on bad text: see <see cref="Fault"/>.</summary>
    /// <param name="text">e.g. <c>11.5 L/min</c>; the blank may be missing.</param>
    public static Measure Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        string trimmed = text.Trim();
        int end = 0;
        while (end < trimmed.Length && IsPartOfNumber(trimmed, end)) end++;
        string unitText = trimmed[end..].Trim();
        var number = trimmed.AsSpan(0, end);
        if (number.Contains(',')) return new(double.NaN, null, unitText, MeasureFault.Comma);
        if (!double.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) || !double.IsFinite(value))
        {
            return new(double.NaN, null, trimmed, MeasureFault.NoNumber);
        }

        if (unitText.Length == 0) return new(value, null, "", MeasureFault.NoUnit);
        return Unit.TryParse(unitText, out var unit)
            ? new(value, unit, unitText, MeasureFault.None)
            : new(value, null, unitText, MeasureFault.UnknownUnit);
    }

    // An "e" belongs to the number only as an exponent: digits behind it, and a digit or point before it.
    private static bool IsPartOfNumber(string text, int at)
    {
        char c = text[at];
        if (char.IsAsciiDigit(c) || c is '.' or ',') return true;
        if (c is '+' or '-') return at == 0 || text[at - 1] is 'e' or 'E';
        if (c is not ('e' or 'E') || at == 0 || text.AsSpan(0, at).ContainsAny('e', 'E')) return false;
        int next = at + 1;
        if (next < text.Length && text[next] is '+' or '-') next++;
        return next < text.Length && char.IsAsciiDigit(text[next]);
    }
}
