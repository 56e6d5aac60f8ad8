using System.Diagnostics.CodeAnalysis;
using Runnel.Place;
using Runnel.Science.Units;

namespace Runnel.Exchange.Logs;

/// <summary>Units as they stand behind a value, in a column of their own or in a heading. Keeps what it has looked up; not for several threads.</summary>
internal sealed class LogUnits
{
    /// <summary>What loggers print that is no spelling of UCUM or the trade; all in lower case.</summary>
    private static readonly Dictionary<string, string> Spellings = new(StringComparer.Ordinal)
    {
        ["c"] = "degC",
        ["°"] = "degC",
        ["℃"] = "degC",
        ["ºc"] = "degC",
        ["deg c"] = "degC",
        ["celsius"] = "degC",
        ["f"] = "degF",
        ["ºf"] = "degF",
        ["deg f"] = "degF",
        ["fahrenheit"] = "degF",
        ["%rh"] = "%",
        ["% rh"] = "%",
        ["percent"] = "%",
        ["pct"] = "%",
        ["km/hr"] = "km/h",
        ["kmh"] = "km/h",
        ["kph"] = "km/h",
        ["kt"] = "kn",
        ["kts"] = "kn",
        ["knots"] = "kn",
        ["mb"] = "mbar",
        ["inch"] = "in",
        ["inches"] = "in",
        ["lpm"] = "L/min",
        ["l/m"] = "L/min",
        ["lph"] = "L/h",
        ["w/m^2"] = "W/m2",
        ["w/sqm"] = "W/m2",
        ["watt"] = "W",
        ["watts"] = "W",
        ["litre"] = "L",
        ["litres"] = "L",
        ["liter"] = "L",
        ["liters"] = "L",
        ["ltr"] = "L",
        ["us/cm"] = "uS/cm",
        ["volts"] = "V",
        ["amps"] = "A",
    };

    private readonly Dictionary<(Quantity, string), (double Scale, double Offset)?> _known = [];

    /// <summary>The unit as written; "1" for what has none, as in UCUM.</summary>
    public static string Written(Quantity quantity) => Quantities.UnitOf(quantity) is { Length: > 0 } unit ? unit : "1";

    /// <summary>Scale and offset that carry a value in the written unit to the quantity's; null where the unit is none or of another kind.</summary>
    public (double Scale, double Offset)? To(Quantity quantity, string written)
    {
        if (_known.TryGetValue((quantity, written), out var known)) return known;
        var found = Find(quantity, written);
        if (_known.Count < 10_000) _known[(quantity, written)] = found;
        return found;
    }

    /// <summary>A value with its unit behind it, as "21.5 °C" or "1.2 kW", in the quantity's unit.</summary>
    public bool TryMeasure(Quantity quantity, ReadOnlySpan<char> text, bool commaSeparates, out double value)
    {
        value = 0;
        if (!ValueText.SplitUnit(text, out var number, out var unit) || To(quantity, unit.ToString()) is not var (scale, offset)) return false;
        if (!ValueText.TryNumber(number, commaSeparates, out value)) return false;
        value = (value * scale) + offset;
        return double.IsFinite(value);
    }

    [SuppressMessage("Globalization", "CA1308", Justification = "the table is in lower case, as people write units")]
    private static (double Scale, double Offset)? Find(Quantity quantity, string written)
    {
        string own = Written(quantity);
        if (written == own) return (1, 0);
        string spelled = Spellings.GetValueOrDefault(written.ToLowerInvariant(), written);
        if (own == "1" || !Unit.TryParse(own, out var to)) return null;
        if (!Unit.TryParse(spelled, out var from) && !Unit.TryParse(SameLetters(spelled, own), out from)) return null;
        return from.Dimension == to.Dimension ? from.LinearTo(to) : null;
    }

    /// <summary>"w" for W, "MM" for mm: another case of the quantity's own unit means that unit.</summary>
    private static string SameLetters(string written, string own) => string.Equals(written, own, StringComparison.OrdinalIgnoreCase) ? own : written;
}
