using Runnel.Place;

namespace Runnel.Twin.Playing;

/// <summary>How good a kit is: how often it measures where the place file does not tell, how rough its values are, what gets lost.</summary>
public sealed record KitQuality
{
    /// <summary>Share of readings that never arrive.</summary>
    public double LostShare { get; init; } = 0.0005;

    /// <summary>Noise of all sensors as a multiple of the usual.</summary>
    public double NoiseFactor { get; init; } = 1;

    /// <summary>How far a float acts beside its level, as a share of the band between both (standard deviation).</summary>
    public double SwitchJitter { get; init; } = 0.01;

    /// <summary>How far a pump's flow wanders with mains and temperature, as a share (standard deviation).</summary>
    public double PumpWander { get; init; } = 0.008;

    /// <summary>A kit without any error, to test against.</summary>
    public static KitQuality Perfect { get; } = new() { LostShare = 0, NoiseFactor = 0, SwitchJitter = 0, PumpWander = 0 };

    /// <summary>Noise (standard deviation), step of the last figure, usual range and usual interval (s) of what is measured; common practice for small kits.</summary>
    internal static (double Noise, double Step, double Range, double EveryS) Of(Quantity quantity) => quantity switch
    {
        Quantity.Running => (0, 1, 1, 0),
        Quantity.Power => (0.6, 0.1, 60, 30),
        Quantity.Current => (0.004, 0.001, 0.3, 30),
        Quantity.Level => (1.2, 1, 200, 60),
        Quantity.Flow => (0.25, 0.1, 20, 30),
        Quantity.Volume => (0, 0.1, 20, 300),
        Quantity.VolumeTotal => (0, 0.1, 1000, 300),
        Quantity.Pressure => (0.08, 0.1, 20, 60),
        Quantity.WaterTemperature => (0.03, 0.0625, 10, 300),
        Quantity.AirTemperature => (0.1, 0.1, 15, 600),
        Quantity.RelativeHumidity => (1, 1, 40, 600),
        Quantity.SolarIrradiance => (3, 1, 500, 600),
        Quantity.WindSpeed => (0.15, 0.1, 3, 600),
        Quantity.Rain => (0, 0.2, 5, 600),
        Quantity.RainTotal => (0, 0.2, 100, 600),
        Quantity.AirPressure => (0.02, 0.01, 2, 600),
        _ => (0, 0.01, 1, 600),
    };
}
