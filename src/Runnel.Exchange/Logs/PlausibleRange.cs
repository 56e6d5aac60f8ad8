using System.Globalization;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>
/// Which values of a channel are taken. The place file's own range comes first; else only what cannot be is left out, so that a stuck or
/// jumping sensor still shows. The limits are common practice: wide of anything a garden sees, short of the marks that broken probes leave
/// (-127 or 85 degrees from a one-wire thermometer, -9999 from a weather station).
/// </summary>
internal readonly record struct PlausibleRange(double Least, double Greatest, double ClipBelow, double ClipAbove, string? Hint)
{
    private static readonly PlausibleRange Any = new(double.MinValue, double.MaxValue, double.MinValue, double.MaxValue, null);

    public static PlausibleRange Of(Channel channel)
    {
        var usual = channel.Measures switch
        {
            Quantity.Running => Between(0, 1e6, "A switch gives 1 or 0"),
            Quantity.RelativeHumidity => new(-2, 110, 0, 100, "Relative humidity is given in percent"),
            Quantity.SolarIrradiance => new(-50, 2000, 0, double.MaxValue, "Irradiance is given in W/m2"),
            Quantity.AirTemperature => Between(-70, 70, "Is it in degrees Fahrenheit? Then give scale = 0.5556 and offset = -17.78"),
            Quantity.WaterTemperature => Between(-10, 84.9, "Is it in degrees Fahrenheit? Then give scale = 0.5556 and offset = -17.78"),
            Quantity.WindSpeed => Between(0, 120, "Wind is given in m/s"),
            Quantity.Rain => Between(0, 500, "Rain is given in mm since the last row; a running count is rain-total"),
            Quantity.AirPressure => Between(30, 115, "Air pressure is given in kPa; for hPa give scale = 0.1"),
            Quantity.Ph => Between(0, 14, null),
            Quantity.DissolvedOxygen => Between(-0.5, 60, null),
            Quantity.OxygenSaturation => Between(-5, 500, null),
            Quantity.BatteryCharge => new(-1, 101, 0, 100, "Charge is given in percent"),
            Quantity.Volume => Between(0, double.MaxValue, "Volume is litres since the last row; a running count is volume-total"),
            Quantity.Conductivity or Quantity.Tan or Quantity.Nitrite or Quantity.Nitrate or Quantity.Count => Between(0, double.MaxValue, null),
            _ => Any,
        };
        if (channel.Least is null && channel.Greatest is null) return usual;
        double least = channel.Least ?? usual.Least, greatest = channel.Greatest ?? usual.Greatest;
        return new(least, greatest, Math.Max(usual.ClipBelow, least), Math.Min(usual.ClipAbove, greatest), null);
    }

    private static PlausibleRange Between(double least, double greatest, string? hint) =>
        new(least, greatest, double.MinValue, double.MaxValue, hint);

    public bool Holds(double value) => value >= Least && value <= Greatest;

    public double Clip(double value) => value < ClipBelow ? ClipBelow : value > ClipAbove ? ClipAbove : value;

    /// <summary>The reason for people: which channel, which value, which range.</summary>
    public string Reason(Channel channel, double first)
    {
        string unit = Quantities.UnitOf(channel.Measures);
        string range = (Least > double.MinValue, Greatest < double.MaxValue) switch
        {
            (true, true) => string.Create(CultureInfo.InvariantCulture, $"outside {Least:0.####} to {Greatest:0.####} {unit}"),
            (true, false) => string.Create(CultureInfo.InvariantCulture, $"below {Least:0.####} {unit}"),
            _ => string.Create(CultureInfo.InvariantCulture, $"above {Greatest:0.####} {unit}"),
        };
        string text = string.Create(CultureInfo.InvariantCulture, $"{channel.Id}: value {range.TrimEnd()} (first: {first:0.####})");
        return Hint is null ? text : $"{text}. {Hint}";
    }
}
