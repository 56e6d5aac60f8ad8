namespace Runnel.Place;

/// <summary>The spelling and the unit of each quantity, as place files and logs use them.</summary>
public static class Quantities
{
    private static readonly (Quantity Quantity, string Name, string Unit)[] All =
    [
        (Quantity.Running, "running", ""),
        (Quantity.Power, "power", "W"),
        (Quantity.Current, "current", "A"),
        (Quantity.Level, "level", "mm"),
        (Quantity.Flow, "flow", "L/min"),
        (Quantity.Volume, "volume", "L"),
        (Quantity.VolumeTotal, "volume-total", "L"),
        (Quantity.Pressure, "pressure", "kPa"),
        (Quantity.WaterTemperature, "water-temperature", "degC"),
        (Quantity.AirTemperature, "air-temperature", "degC"),
        (Quantity.RelativeHumidity, "relative-humidity", "%"),
        (Quantity.SolarIrradiance, "solar-irradiance", "W/m2"),
        (Quantity.WindSpeed, "wind-speed", "m/s"),
        (Quantity.Rain, "rain", "mm"),
        (Quantity.RainTotal, "rain-total", "mm"),
        (Quantity.AirPressure, "air-pressure", "kPa"),
        (Quantity.DissolvedOxygen, "dissolved-oxygen", "mg/L"),
        (Quantity.OxygenSaturation, "oxygen-saturation", "%"),
        (Quantity.Ph, "ph", ""),
        (Quantity.Conductivity, "conductivity", "uS/cm"),
        (Quantity.Tan, "tan", "mg/L"),
        (Quantity.Nitrite, "nitrite", "mg/L"),
        (Quantity.Nitrate, "nitrate", "mg/L"),
        (Quantity.SoilMoisture, "soil-moisture", "%"),
        (Quantity.BatteryCharge, "battery-charge", "%"),
        (Quantity.BatteryVoltage, "battery-voltage", "V"),
        (Quantity.Weight, "weight", "g"),
        (Quantity.Count, "count", ""),
    ];

    /// <summary>Every name, in the order of the contract.</summary>
    public static IEnumerable<string> Names => All.Select(q => q.Name);

    /// <summary>The name of a quantity in place files and logs.</summary>
    public static string NameOf(Quantity quantity) => All[(int)quantity].Name;

    /// <summary>The unit of a quantity's readings; empty for switches, counts and pH.</summary>
    public static string UnitOf(Quantity quantity) => All[(int)quantity].Unit;

    /// <summary>The quantity of that name, or null.</summary>
    public static Quantity? Find(string name)
    {
        foreach (var q in All)
        {
            if (q.Name == name) return q.Quantity;
        }

        return null;
    }
}
