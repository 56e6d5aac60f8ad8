namespace Runnel.Exchange.Daybook;

/// <summary>Units in which people write down water. Litres in each are exact by definition (US gallon 231 cubic inches, imperial gallon 4.54609 L).</summary>
internal static class WaterUnits
{
    private static readonly Dictionary<string, double> LitresIn = new(StringComparer.OrdinalIgnoreCase)
    {
        ["l"] = 1,
        ["ltr"] = 1,
        ["lt"] = 1,
        ["litre"] = 1,
        ["litres"] = 1,
        ["liter"] = 1,
        ["liters"] = 1,
        ["ml"] = 0.001,
        ["millilitres"] = 0.001,
        ["milliliters"] = 0.001,
        ["cl"] = 0.01,
        ["dl"] = 0.1,
        ["hl"] = 100,
        ["m3"] = 1000,
        ["m³"] = 1000,
        ["m^3"] = 1000,
        ["cbm"] = 1000,
        ["kl"] = 1000,
        ["gal"] = 3.785411784,
        ["gallon"] = 3.785411784,
        ["gallons"] = 3.785411784,
        ["us gal"] = 3.785411784,
        ["gal us"] = 3.785411784,
        ["imp gal"] = 4.54609,
        ["gal imp"] = 4.54609,
        ["uk gal"] = 4.54609,
        ["gal uk"] = 4.54609,
    };

    /// <summary>Litres in one of the unit, or null where it is no unit of water.</summary>
    public static double? Find(string unit) => LitresIn.TryGetValue(unit.Trim().TrimEnd('.'), out double litres) ? litres : null;

    /// <summary>A gallon without more is taken as the US one; that is worth a remark.</summary>
    public static bool IsPlainGallon(string unit) => unit.Trim().TrimEnd('.').ToUpperInvariant() is "GAL" or "GALLON" or "GALLONS";
}
