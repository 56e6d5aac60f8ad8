using Runnel.Place;

namespace Runnel.Web.PlacePage;

/// <summary>What a kit can tell apart, and which sensor would add most: the table of the command contract, in words.</summary>
internal sealed record Sight(string What, bool IsSeen, string How)
{
    public static IReadOnlyList<Sight> Of(PlaceDescription place)
    {
        bool Pump(params Quantity[] q) => place.Channels.Any(c => q.Contains(c.Measures) && place.FindEquipment(c.Of)?.Kind == EquipmentKind.Pump);
        bool Level(Func<VesselKind, bool> kind) => place.Channels.Any(c => c.Measures == Quantity.Level && place.FindVessel(c.Of) is { } v && kind(v.Kind));
        bool Any(params Quantity[] q) => place.Channels.Any(c => q.Contains(c.Measures));
        bool valve = place.Channels.Any(c => c.Measures is Quantity.Running or Quantity.Volume or Quantity.VolumeTotal or Quantity.Flow && place.FindEquipment(c.Of)?.Kind is EquipmentKind.TopUpValve or EquipmentKind.BleedValve);
        return
        [
            new("Trends of fills and runs; lost water told from fouling drains", Pump(Quantity.Running, Quantity.Power, Quantity.Current), "the pump's on and off"),
            new("A pump that has stopped, runs dry, is stuck on or weakens, told apart", Pump(Quantity.Power, Quantity.Current), "the pump's power or current"),
            new("A stuck switch told from a dead pump; an overfull loop seen directly", Level(k => k == VesselKind.Sump), "a level sensor in the sump"),
            new("Which drain fouls, and a tank about to spill", Level(k => k is VesselKind.FishTank or VesselKind.Trough), "a level sensor in a tank or trough"),
            new("Litres let in and out; a valve that does not shut", valve, "the top-up and bleed valves' on and off, or their litres"),
            new("Evaporation and plant use told from a leak by day and night", Any(Quantity.AirTemperature) && Any(Quantity.RelativeHumidity, Quantity.SolarIrradiance), "air temperature, humidity and sun"),
            new("Water too warm or too cold for the fish", Any(Quantity.WaterTemperature), "a water temperature sensor"),
        ];
    }
}
