namespace Runnel.Place.Water;

/// <summary>What keeps sun and cold from a vessel's water.</summary>
/// <param name="CoverShare">Share of its surface under lid, raft, foam or stones, 0 to 1; null: not told.</param>
/// <param name="ShadeShare">Share of sun and open sky held back by roof, net or plants, 0 to 1; null: not told.</param>
/// <param name="WallWPerM2K">Heat through walls, floor and cover, W/(m2 K); null: not told.</param>
public sealed record ThermalVessel(double? CoverShare, double? ShadeShare, double? WallWPerM2K)
{
    /// <summary>Of a plastic tank outdoors, in still to light air; common practice.</summary>
    public const double UsualWallWPerM2K = 6;

    /// <summary>Nothing told.</summary>
    public static ThermalVessel NotTold { get; } = new(null, null, null);
}

/// <summary>A heater in a vessel.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Of">The vessel.</param>
/// <param name="PowerW">Its power, W.</param>
/// <param name="ToC">Where its thermostat holds the water, °C.</param>
public sealed record WaterHeater(string Id, string Of, double PowerW, double ToC);
