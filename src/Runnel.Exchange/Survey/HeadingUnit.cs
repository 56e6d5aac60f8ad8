using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Exchange.Survey;

/// <summary>The unit that a heading names in brackets or at its end, and how it turns into Runnel's.</summary>
internal static class HeadingUnit
{
    private static readonly (string[] Written, Quantity[] For, double Scale, double Offset)[] Others =
    [
        (["°F", "ºF", "F", "degF"], [Quantity.AirTemperature, Quantity.WaterTemperature], 1 / 1.8, -32 / 1.8),
        (["K"], [Quantity.AirTemperature, Quantity.WaterTemperature], 1, -273.15),
        (["hPa", "mbar", "mb"], [Quantity.AirPressure], 0.1, 0),
        (["Pa"], [Quantity.AirPressure, Quantity.Pressure], 0.001, 0),
        (["bar"], [Quantity.Pressure], 100, 0),
        (["psi"], [Quantity.Pressure], 6.894757, 0),
        (["km/h", "kmh", "kph"], [Quantity.WindSpeed], 1 / 3.6, 0),
        (["mph"], [Quantity.WindSpeed], 0.44704, 0),
        (["kn", "kt", "knots"], [Quantity.WindSpeed], 1852.0 / 3600, 0),
        (["kW"], [Quantity.Power], 1000, 0),
        (["kW/m2", "kW/m²"], [Quantity.SolarIrradiance], 1000, 0),
        (["mA"], [Quantity.Current], 0.001, 0),
        (["cm"], [Quantity.Level], 10, 0),
        (["m"], [Quantity.Level], 1000, 0),
        (["in", "inch", "inches"], [Quantity.Rain, Quantity.RainTotal, Quantity.Level], 25.4, 0),
        (["L/h", "l/h"], [Quantity.Flow], 1.0 / 60, 0),
        (["m3/h", "m³/h"], [Quantity.Flow], 1000.0 / 60, 0),
        (["m3", "m³"], [Quantity.Volume, Quantity.VolumeTotal], 1000, 0),
        (["mS/cm"], [Quantity.Conductivity], 1000, 0),
        (["kg"], [Quantity.Weight], 1000, 0),
    ];

    private static readonly Quantity[] All = Enum.GetValues<Quantity>();

    /// <summary>Whether the heading names its unit beyond doubt.</summary>
    public static bool InBrackets(string heading) => heading.AsSpan().ContainsAny('(', '[');

    /// <summary>What stands in brackets, else the last word behind a blank or underscore; empty where there is nothing.</summary>
    public static string In(string heading)
    {
        int open = heading.LastIndexOfAny(['(', '[']);
        if (open >= 0) return heading[(open + 1)..].TrimEnd(')', ']', ' ').Trim();
        int gap = heading.TrimEnd().LastIndexOfAny([' ', '_']);
        return gap > 0 ? heading.TrimEnd()[(gap + 1)..] : "";
    }

    /// <summary>Scale and offset to the unit of the quantity, or null where the unit says nothing about it.</summary>
    public static (double Scale, double Offset)? To(Quantity quantity, string unit)
    {
        if (unit.Length == 0) return null;
        if (Quantities.UnitOf(quantity) is { Length: > 0 } own && LogUnits.IsSame(unit, own)) return (1, 0);
        foreach (var (written, quantities, scale, offset) in Others)
        {
            if (quantities.Contains(quantity) && written.Contains(unit)) return (scale, offset);
        }

        return null;
    }

    /// <summary>The only quantities that a unit leaves open; empty where it is none or means many things.</summary>
    public static IReadOnlyList<Quantity> Of(string unit) => unit.Length == 0 || unit is "%" ? [] : [.. All.Where(q => To(q, unit) is not null)];
}
