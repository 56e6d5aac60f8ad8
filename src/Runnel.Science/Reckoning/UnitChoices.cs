using Runnel.Science.Units;
using Runnel.Science.Water;

namespace Runnel.Science.Reckoning;

/// <summary>A unit in which an input may be given: value in the input's own unit = value given x scale + offset.</summary>
/// <param name="Symbol">The unit, as in scripts.</param>
/// <param name="Scale">Factor.</param>
/// <param name="Offset">Added after it: temperatures only.</param>
public sealed record UnitChoice(string Symbol, double Scale, double Offset = 0);

/// <summary>The usual units of the trade beside the one a relation reckons in. All factors come from <see cref="Unit"/> and <see cref="Conversions"/>.</summary>
public static class UnitChoices
{
    // Of each kind of quantity, the units that kits, shops and suppliers use.
    private static readonly string[][] OneKind =
    [
        ["degC", "degF"],
        ["L", "m3", "gal_us", "gal_br"],
        ["L/min", "L/h", "L/s", "m3/h", "m3/s", "gal_us/min", "gal_br/min"],
        ["m", "cm", "mm", "ft", "in"],
        ["m2", "cm2", "ft2"],
        ["g", "kg", "oz", "lb"],
        ["mg/L", "ug/L", "g/L"],
        ["g/d", "kg/d", "lb/d"],
        ["kPa", "Pa", "hPa", "bar", "psi", "mm[Hg]"],
        ["m/s", "km/h", "mph", "kn"],
        ["mm/d", "in/d"],
        ["mm/h", "in/h"],
        ["MJ/m2", "kWh/m2"],
        ["MJ/(m2 d)", "kWh/(m2 d)"],
        ["kg/m3", "g/L"],
        ["W", "kW"],
        ["s", "min", "h", "d"],
        ["kg/s", "kg/h"],
        ["dS/m", "uS/cm", "mS/cm"],
    ];

    private static readonly UnitChoice[] AsCaCO3 =
    [
        new("mg/L as CaCO3", 1),
        new("dKH or dGH", Conversions.MgCaCO3PerGermanDegree),
        new("meq/L", Conversions.MgCaCO3PerMeq),
        new("French degrees", Conversions.MgCaCO3PerFrenchDegree),
        new("Clark degrees", Conversions.MgCaCO3PerClarkDegree),
    ];

    /// <summary>The units in which an input may be given, its own first.</summary>
    /// <param name="input">The input.</param>
    public static IReadOnlyList<UnitChoice> Of(Input input)
    {
        ArgumentNullException.ThrowIfNull(input);
        if (input.Kind is not InputKind.Number) return [];
        if (input.Unit == "mg/L as CaCO3") return AsCaCO3;
        if (input.Unit == "mg/L as N") return AsNitrogen(input.Name);
        if (!Unit.TryParse(input.Unit, out var own)) return [];
        string[] kind = OneKind.FirstOrDefault(k => k.Contains(input.Unit)) ?? [];
        return [new(input.Unit, 1), .. kind.Where(u => u != input.Unit).Select(u => Between(u, own))];
    }

    /// <summary>A value with a unit carried to the unit of an input.</summary>
    /// <param name="value">Value.</param>
    /// <param name="unit">Its unit.</param>
    /// <param name="own">Unit of the input.</param>
    /// <returns>The value, or null where they measure different things.</returns>
    internal static double? Convert(double value, Unit unit, string own) =>
        Unit.TryParse(own, out var to) && to.Dimension == unit.Dimension ? unit.To(to, value) : null;

    private static UnitChoice Between(string symbol, Unit own)
    {
        var (scale, offset) = Unit.Of(symbol).LinearTo(own);
        return new UnitChoice(symbol, scale, offset);
    }

    // Kits print the ion as often as its nitrogen.
    private static UnitChoice[] AsNitrogen(string name) => name switch
    {
        _ when name.StartsWith("tan", StringComparison.Ordinal) => [new("mg/L as N", 1), new("mg/L as NH4", 1 / NitrogenForms.MassPerN(NitrogenForm.Ammonium)), new("mg/L as NH3", 1 / NitrogenForms.MassPerN(NitrogenForm.Ammonia))],
        _ when name.StartsWith("no2", StringComparison.Ordinal) => [new("mg/L as N", 1), new("mg/L as NO2", 1 / NitrogenForms.MassPerN(NitrogenForm.Nitrite))],
        _ when name.StartsWith("no3", StringComparison.Ordinal) => [new("mg/L as N", 1), new("mg/L as NO3", 1 / NitrogenForms.MassPerN(NitrogenForm.Nitrate))],
        _ => [new("mg/L as N", 1)],
    };
}
