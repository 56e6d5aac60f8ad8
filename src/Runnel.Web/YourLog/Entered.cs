using System.Globalization;

namespace Runnel.Web.YourLog;

/// <summary>Reads what people type into number fields: decimal commas, a unit behind, a half of the globe.</summary>
public static class Entered
{
    /// <summary>The number, or null where the text is none; a unit behind it is allowed if it is the field's own.</summary>
    public static double? Number(string text, string unit)
    {
        string trimmed = text.Trim();
        if (unit.Length > 0 && trimmed.EndsWith(unit, StringComparison.OrdinalIgnoreCase)) trimmed = trimmed[..^unit.Length].TrimEnd();
        // One comma is a decimal comma; more would be thousands, which no field here needs.
        if (trimmed.Count(c => c == ',') == 1 && !trimmed.Contains('.')) trimmed = trimmed.Replace(',', '.');
        trimmed = trimmed.Replace('\u2212', '-');
        return double.TryParse(trimmed, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)
            && double.IsFinite(value) ? value : null;
    }

    /// <summary>Degrees: "34.2 S", "-34.2", "150,6 E"; null where it is none or beyond <paramref name="most"/>.</summary>
    public static double? Angle(string text, char plus, char minus, double most)
    {
        string trimmed = text.Trim().TrimEnd('°');
        if (trimmed.Length == 0) return null;
        char side = char.ToUpperInvariant(trimmed[^1]);
        bool told = side == plus || side == minus;
        if (told) trimmed = trimmed[..^1].TrimEnd(' ', '°');
        if (Number(trimmed, "") is not { } degrees || Math.Abs(degrees) > most || (told && degrees < 0)) return null;
        return told && side == minus ? -degrees : degrees;
    }
}
