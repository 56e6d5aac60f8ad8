namespace Runnel.Place;

/// <summary>Kinds of equipment the place file can name.</summary>
public enum EquipmentKind
{
    Pump, TopUpValve, BleedValve, ZoneValve, FloatValve, MainAir, BackupAir, Heater, Cooler, Fan, Light, Feeder, Panels,
    Battery, Inverter, Grid, Charger, FenceEnergiser, WaterHeater, Dryer,
}

/// <summary>Something that is switched, or that supplies power. Null: not told.</summary>
/// <param name="Id">Kebab-case identifier.</param>
/// <param name="Kind">What it is.</param>
/// <param name="From">Vessel it takes water from.</param>
/// <param name="To">Vessel it gives water to.</param>
/// <param name="Of">Vessel it acts in (float valve).</param>
/// <param name="RateLPerMin">Flow while a valve is open, L/min.</param>
/// <param name="RatedPowerW">Rated electric power, W.</param>
/// <param name="ShutsAtM">Float valve: height in the vessel at which it shuts, m.</param>
public sealed record Equipment(
    string Id,
    EquipmentKind Kind,
    string? From = null,
    string? To = null,
    string? Of = null,
    double? RateLPerMin = null,
    double? RatedPowerW = null,
    double? ShutsAtM = null);
