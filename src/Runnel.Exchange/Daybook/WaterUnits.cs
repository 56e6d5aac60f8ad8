using Runnel.Science.Units;

namespace Runnel.Exchange.Daybook;

/// <summary>Units in which people write down water.</summary>
internal static class WaterUnits
{
    /// <summary>Words for units; all in lower case. A plain gallon is left out, as in the place file: it is two different volumes.</summary>
    private static readonly Dictionary<string, string> Words = new(StringComparer.OrdinalIgnoreCase)
    {
        ["ltr"] = "L",
        ["lt"] = "L",
        ["litre"] = "L",
        ["litres"] = "L",
        ["liter"] = "L",
        ["liters"] = "L",
        ["ml"] = "mL", // nobody drains megalitres
        ["millilitres"] = "mL",
        ["milliliters"] = "mL",
        ["m3"] = "m3",
        ["m^3"] = "m3",
        ["cbm"] = "m3",
        ["cubic metres"] = "m3",
        ["cubic meters"] = "m3",
        ["us gal"] = "gal_us",
        ["gal us"] = "gal_us",
        ["us gallon"] = "gal_us",
        ["us gallons"] = "gal_us",
        ["gal-us"] = "gal_us",
        ["imp gal"] = "gal_br",
        ["gal imp"] = "gal_br",
        ["imperial gallon"] = "gal_br",
        ["imperial gallons"] = "gal_br",
        ["gal-uk"] = "gal_br",
        ["uk gal"] = "gal_br",
        ["gal uk"] = "gal_br",
    };

    private static readonly Unit Litre = Unit.Of("L");

    /// <summary>Litres in one of the unit, or null where it is no unit of water.</summary>
    public static double? Find(string unit)
    {
        string plain = unit.Trim().TrimEnd('.');
        bool known = Unit.TryParse(Words.GetValueOrDefault(plain, plain), out var found);
        return known && found!.Dimension == Litre.Dimension ? found.LinearTo(Litre).Scale : null;
    }

    /// <summary>A gallon without more.</summary>
    public static bool IsPlainGallon(string unit) => unit.Trim().TrimEnd('.').ToUpperInvariant() is "GAL" or "GALLON" or "GALLONS";
}
