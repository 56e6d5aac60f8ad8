using NodaTime;

namespace Runnel.Place;

/// <summary>What a channel measures. The unit of its readings is fixed by this (see <see cref="Quantities"/>).</summary>
public enum Quantity
{
    Running, Power, Current, Level, Flow, Volume, VolumeTotal, Pressure, WaterTemperature, AirTemperature, RelativeHumidity,
    SolarIrradiance, WindSpeed, Rain, RainTotal, AirPressure, DissolvedOxygen, OxygenSaturation, Ph, Conductivity, Tan, Nitrite,
    Nitrate, SoilMoisture, BatteryCharge, BatteryVoltage, Weight, Count,
}

/// <summary>Where a running channel gets its word from.</summary>
public enum SeenAs
{
    /// <summary>From the switch or the order: the motor may still stand.</summary>
    Commanded,

    /// <summary>From the motor itself.</summary>
    Sensed,
}

/// <summary>A named stream of readings. A raw value x <paramref name="Scale"/> + <paramref name="Offset"/> gives the quantity's unit.</summary>
/// <param name="Id">Identifier; also the column or channel name in a log.</param>
/// <param name="Measures">What is measured.</param>
/// <param name="Of">The vessel or equipment it belongs to, or null for the place.</param>
/// <param name="Scale">Multiplier on the raw value.</param>
/// <param name="Offset">Added after the multiplier.</param>
/// <param name="Every">Expected interval between readings, or null.</param>
/// <param name="Least">Least plausible value in the quantity's unit, or null.</param>
/// <param name="Greatest">Greatest plausible value, or null.</param>
/// <param name="RunningAbove">Power (W) or current (A) from which on the thing runs, or null: learnt.</param>
/// <param name="Seen">Where a running channel gets its word from.</param>
/// <param name="HeightM">Height of a wind sensor above the ground, m, or null.</param>
/// <param name="Column">Its name in logs where that is not <paramref name="Id"/>, or null.</param>
public sealed record Channel(
    string Id,
    Quantity Measures,
    string? Of = null,
    double Scale = 1,
    double Offset = 0,
    Duration? Every = null,
    double? Least = null,
    double? Greatest = null,
    double? RunningAbove = null,
    SeenAs Seen = SeenAs.Commanded,
    double? HeightM = null,
    string? Column = null);
