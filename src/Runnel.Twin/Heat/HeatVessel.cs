using Runnel.Place.Water;

namespace Runnel.Twin.Heat;

/// <summary>What a vessel, or a pump's line, is to heat.</summary>
/// <param name="Shape">Water by level; null: a line, which exchanges no heat.</param>
/// <param name="OpenM2">Surface under the open air, m2.</param>
/// <param name="CoveredM2">Surface under lid, raft or stones, m2.</param>
/// <param name="Shade">Share of sun and sky held back, 0 to 1.</param>
/// <param name="WallWPerM2K">Of walls, floor and cover, W/(m2 K).</param>
/// <param name="HeaterW">Power of its heater, W; 0: none.</param>
/// <param name="HeatToC">Where the heater's thermostat holds it, °C.</param>
internal sealed record HeatVessel(LevelVolume? Shape, double OpenM2, double CoveredM2, double Shade, double WallWPerM2K, double HeaterW = 0, double HeatToC = 0)
{
    private readonly double _perimeterM = Shape is null ? 0 : 2 * Math.Sqrt(Math.PI * Shape.AreaM2(0)), _floorM2 = Shape?.AreaM2(0) ?? 0;

    /// <summary>Heat through walls, floor and cover for each degree, W/K.</summary>
    public double ThroughWallsWPerK(double volumeM3) =>
        Shape is null ? 0 : WallWPerM2K * ((_perimeterM * Math.Max(0, Shape.LevelM(volumeM3))) + _floorM2 + CoveredM2);
}

/// <summary>Water that moved within a stretch of time.</summary>
/// <param name="From">Vessel or line; -1: from outside.</param>
/// <param name="To">Vessel or line; -1: away.</param>
/// <param name="M3">How much, m3, 0 or more.</param>
/// <param name="TempC">Of water from outside, °C.</param>
internal readonly record struct MovedWater(int From, int To, double M3, double TempC = 0);
