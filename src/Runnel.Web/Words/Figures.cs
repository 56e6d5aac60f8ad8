using System.Globalization;
using Runnel.Place.Findings;

namespace Runnel.Web.Words;

/// <summary>Numbers as people read them: a narrow space between thousands, a true minus sign, no more digits than are known.</summary>
public static class Figures
{
    /// <summary>U+202F, which does not break across lines.</summary>
    public const char NarrowSpace = '\u202F';

    private static readonly NumberFormatInfo Format = new()
    {
        NumberGroupSeparator = NarrowSpace.ToString(),
        NegativeSign = "\u2212",
        NumberDecimalSeparator = ".",
    };

    /// <summary>The number with that many decimals, never "minus nought".</summary>
    public static string Number(double value, int decimals = 0)
    {
        double rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        if (rounded == 0) rounded = 0; // -0 would print its sign
        // Four digits stand together, as in most print; from five on they are parted.
        string pattern = (Math.Abs(rounded) >= 10_000 ? "N" : "F") + decimals.ToString(CultureInfo.InvariantCulture);
        return rounded.ToString(pattern, Format);
    }

    /// <summary>Decimals that show about three digits of a number of this size.</summary>
    public static int DecimalsFor(double size) => Math.Abs(size) switch
    {
        < 0.1 => 3,
        < 1 => 2,
        < 20 => 1,
        _ => 0,
    };

    /// <summary>Three digits or so, as an estimate with a band deserves: 13 943 becomes 13 900.</summary>
    public static string Rounded(double value, double size)
    {
        if (Math.Abs(size) < 1000) return Number(value, DecimalsFor(size));
        double step = Math.Pow(10, Math.Floor(Math.Log10(Math.Abs(size))) - 2);
        return Number(Math.Round(value / step) * step);
    }

    /// <summary>Three digits or so, with the unit.</summary>
    public static string WithUnit(double value, string unit) => $"{Number(value, DecimalsFor(value))} {UnitInWords(unit)}".TrimEnd();

    /// <summary>"6 to 22", to the digits of its middle.</summary>
    public static string Range(double low, double high, int decimals) => $"{Number(low, decimals)} to {Number(high, decimals)}";

    /// <summary>Unit signs as printed: degC becomes °C, m2 becomes m².</summary>
    public static string UnitInWords(string unit) => unit switch
    {
        "degC" => "°C",
        "m2" => "m²",
        "m3" => "m³",
        "W/m2" => "W/m²",
        "uS/cm" => "µS/cm",
        "L/day" => "L a day",
        "1" => "",
        _ => unit,
    };
}
