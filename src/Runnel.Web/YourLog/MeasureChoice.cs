using Runnel.Place;

namespace Runnel.Web.YourLog;

/// <summary>One answer to "what does this column measure?".</summary>
/// <param name="Words">As offered.</param>
/// <param name="Measures">What it measures.</param>
/// <param name="Of">The thing it is of, as the place file writer names it; null for the place.</param>
/// <param name="Group">Under which it is offered.</param>
public sealed record MeasureChoice(string Words, Quantity Measures, string? Of, string Group)
{
    private const string Pump = "Sump and pump", Valves = "Valves", Weather = "Weather", Tanks = "Tanks and troughs", Air = "Air pumps";

    /// <summary>In the order in which people look for them.</summary>
    public static readonly IReadOnlyList<MeasureChoice> All =
    [
        new("pump, on or off", Quantity.Running, "sump-pump", Pump),
        new("pump, power", Quantity.Power, "sump-pump", Pump),
        new("pump, current", Quantity.Current, "sump-pump", Pump),
        new("sump, level", Quantity.Level, "sump", Pump),
        new("sump, water temperature", Quantity.WaterTemperature, "sump", Pump),
        new("top-up valve, on or off", Quantity.Running, "top-up", Valves),
        new("top-up, litres since the last row", Quantity.Volume, "top-up", Valves),
        new("top-up, running count of litres", Quantity.VolumeTotal, "top-up", Valves),
        new("top-up, flow", Quantity.Flow, "top-up", Valves),
        new("bleed valve, on or off", Quantity.Running, "bleed", Valves),
        new("bleed, litres since the last row", Quantity.Volume, "bleed", Valves),
        new("bleed, running count of litres", Quantity.VolumeTotal, "bleed", Valves),
        new("air temperature", Quantity.AirTemperature, null, Weather),
        new("relative humidity", Quantity.RelativeHumidity, null, Weather),
        new("sun, irradiance", Quantity.SolarIrradiance, null, Weather),
        new("wind speed", Quantity.WindSpeed, null, Weather),
        new("rain since the last row", Quantity.Rain, null, Weather),
        new("rain, running count", Quantity.RainTotal, null, Weather),
        new("air pressure", Quantity.AirPressure, null, Weather),
        new("fish tank, level", Quantity.Level, "fish-tank", Tanks),
        new("fish tank, water temperature", Quantity.WaterTemperature, "fish-tank", Tanks),
        new("fish tank, dissolved oxygen", Quantity.DissolvedOxygen, "fish-tank", Tanks),
        new("fish tank, oxygen saturation", Quantity.OxygenSaturation, "fish-tank", Tanks),
        new("fish tank, pH", Quantity.Ph, "fish-tank", Tanks),
        new("fish tank, conductivity", Quantity.Conductivity, "fish-tank", Tanks),
        new("trough, level", Quantity.Level, "trough", Tanks),
        new("trough, water temperature", Quantity.WaterTemperature, "trough", Tanks),
        new("media bed, level", Quantity.Level, "media-bed", Tanks),
        new("rain tank, level", Quantity.Level, "rain-tank", Tanks),
        new("main air, on or off", Quantity.Running, "main-air", Air),
        new("main air, power", Quantity.Power, "main-air", Air),
        new("backup air, on or off", Quantity.Running, "backup-air", Air),
    ];

    /// <summary>How a form writes it.</summary>
    public string Value => Of is null ? Quantities.NameOf(Measures) : $"{Quantities.NameOf(Measures)}:{Of}";

    /// <summary>With the unit that is taken where none is told.</summary>
    public string WordsAndUnit => Quantities.UnitOf(Measures) is { Length: > 0 } unit ? $"{Words}, {Runnel.Web.Words.Figures.UnitInWords(unit)}" : Words;

    /// <summary>The choice a form wrote, or null for a column to leave out.</summary>
    public static MeasureChoice? Find(string? value) => All.FirstOrDefault(c => c.Value == value);

    /// <summary>The choice that comes nearest to a guess: a second thing of a kind is offered as its kind.</summary>
    public static MeasureChoice? Nearest(Quantity? measures, string? of)
    {
        string? stem = of?.TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9').TrimEnd('-');
        return All.FirstOrDefault(c => c.Measures == measures && (c.Of == of || c.Of == stem));
    }
}
