using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>How a unit stands beside or behind a value in a log.</summary>
internal static class LogUnits
{
    /// <summary>The unit as written; "1" for what has none, as in UCUM.</summary>
    public static string Written(Quantity quantity) => Quantities.UnitOf(quantity) is { Length: > 0 } unit ? unit : "1";

    /// <summary>Whether <paramref name="written"/> is another spelling of <paramref name="unit"/>.</summary>
    public static bool IsSame(ReadOnlySpan<char> written, string unit) =>
        written.Equals(unit, StringComparison.OrdinalIgnoreCase) || unit switch
        {
            "degC" => written is "°C" or "ºC" or "C" or "°" or "℃" or "° C" or "c" or "deg C" or "degree C" or "celsius" or "Celsius",
            "W/m2" => written is "W/m²" or "W/m^2" or "w/m²" or "W/sqm",
            "uS/cm" => written is "µS/cm" or "μS/cm",
            "L" => written.Equals("litres", StringComparison.OrdinalIgnoreCase) || written.Equals("liters", StringComparison.OrdinalIgnoreCase) ||
                written.Equals("litre", StringComparison.OrdinalIgnoreCase) || written.Equals("liter", StringComparison.OrdinalIgnoreCase),
            "L/min" => written is "l/m" or "lpm" or "LPM" or "L/m",
            "%" => written is "%RH" or "%rh" or "% RH" or "percent" or "pct",
            _ => false,
        };
}
