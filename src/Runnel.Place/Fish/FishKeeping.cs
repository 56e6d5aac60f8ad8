namespace Runnel.Place.Fish;

/// <summary>Fish, the tanks they live in, and what gives them air, as far as the file tells.</summary>
/// <param name="Groups">In the order of the file.</param>
/// <param name="Tanks">Vessels that hold a group, in the order of the file.</param>
/// <param name="Air">Air pumps, in the order of the file.</param>
public sealed record FishKeeping(IReadOnlyList<FishGroup> Groups, IReadOnlyList<FishTank> Tanks, IReadOnlyList<AirSource> Air);

/// <summary>Fish of one kind that are counted and weighed together.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Species">Common or scientific name.</param>
/// <param name="In">The vessel it lives in.</param>
/// <param name="Count">How many.</param>
/// <param name="MeanWeightG">Mean weight of one, g.</param>
public sealed record FishGroup(string Id, string Species, string In, int Count, double MeanWeightG)
{
    /// <summary>All of them, kg.</summary>
    public double BiomassKg => Count * MeanWeightG / 1000;
}

/// <summary>A vessel with fish.</summary>
/// <param name="Vessel">Its id.</param>
/// <param name="VolumeL">Water in it as it usually stands, L.</param>
/// <param name="SurfaceM2">Its surface, m2.</param>
public sealed record FishTank(string Vessel, double VolumeL, double SurfaceM2);

/// <summary>What bubbles air into tanks.</summary>
/// <param name="Id">Its id.</param>
/// <param name="IsBackup">It stands by for the main one.</param>
/// <param name="Serves">Tanks it serves.</param>
/// <param name="AirLPerMin">Air it gives in all, L/min; null: not told.</param>
/// <param name="DepthM">How deep its stones lie, m; null: not told.</param>
/// <param name="StandardGPerH">Oxygen it gives to clean water of 20 °C without any, g/h; null: not told.</param>
/// <param name="PowerW">What it draws, W; null: not told.</param>
/// <param name="BatteryWh">Battery that carries it when the mains fail, Wh; null: none.</param>
public sealed record AirSource(
    string Id, bool IsBackup, IReadOnlyList<string> Serves, double? AirLPerMin, double? DepthM, double? StandardGPerH, double? PowerW, double? BatteryWh);
