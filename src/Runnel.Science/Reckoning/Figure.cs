using System.Globalization;

namespace Runnel.Science.Reckoning;

/// <summary>Numbers as people read them in a sentence.</summary>
public static class Figure
{
    /// <summary>A number in full, as it is written in files.</summary>
    /// <param name="value">Number.</param>
    public static string Of(double value) =>
        double.IsPositiveInfinity(value) ? "any" : double.IsNegativeInfinity(value) ? "any" : value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>A number to three significant digits, without exponent where it can be helped.</summary>
    /// <param name="value">Number.</param>
    public static string Brief(double value)
    {
        if (!double.IsFinite(value)) return "none";
        double size = Math.Abs(value);
        if (size is >= 1e7 or (> 0 and < 1e-4)) return value.ToString("0.00E0", CultureInfo.InvariantCulture);
        if (size >= 1000) return Math.Round(value).ToString("# ### ##0", CultureInfo.InvariantCulture).Trim().Replace("- ", "-", StringComparison.Ordinal);
        int decimals = size == 0 ? 0 : Math.Clamp(2 - (int)Math.Floor(Math.Log10(size)), 0, 8);
        return value.ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);
    }

    /// <summary>A figure with its unit behind it, in the trade's spelling.</summary>
    /// <param name="figure">Number or range as text.</param>
    /// <param name="unit">Unit.</param>
    public static string WithUnit(string figure, string unit) => unit is "1" or "" ? figure : unit == "°" ? figure + unit : $"{figure} {unit}";

    /// <summary>A figure with its unit as it stands in sentences and on pages: °C, m², %.</summary>
    /// <param name="value">Number.</param>
    /// <param name="unit">Unit.</param>
    public static string Say(double value, string unit) => double.IsFinite(value) ? WithUnit(Brief(value), Pretty(unit)) : "none";

    /// <summary>A unit as it stands in sentences.</summary>
    /// <param name="unit">Unit as in scripts.</param>
    public static string Pretty(string unit) => unit switch
    {
        "1" => "",
        "degC" => "°C",
        "degF" => "°F",
        "deg" => "°",
        _ => unit.Replace("gal_us", "US gal", StringComparison.Ordinal).Replace("gal_br", "imperial gal", StringComparison.Ordinal)
            .Replace("mm[Hg]", "mmHg", StringComparison.Ordinal).Replace("ug/", "µg/", StringComparison.Ordinal).Replace("ft2", "ft²", StringComparison.Ordinal)
            .Replace("m2", "m²", StringComparison.Ordinal).Replace("m3", "m³", StringComparison.Ordinal)
            .Replace("as NH3", "as NH₃", StringComparison.Ordinal).Replace("as NH4", "as NH₄", StringComparison.Ordinal)
            .Replace("as NO2", "as NO₂", StringComparison.Ordinal).Replace("as NO3", "as NO₃", StringComparison.Ordinal).Replace("CO2", "CO₂", StringComparison.Ordinal).Replace("CaCO3", "CaCO₃", StringComparison.Ordinal),
    };
}
