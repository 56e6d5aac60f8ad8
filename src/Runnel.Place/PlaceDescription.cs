using NodaTime;
using Runnel.Place.Fish;
using Runnel.Place.Water;

namespace Runnel.Place;

/// <summary>One place as its place file describes it: checked, complete and unchanging.</summary>
/// <param name="Name">What the household calls the place.</param>
/// <param name="LatitudeDeg">Degrees north of the equator; south is negative.</param>
/// <param name="LongitudeDeg">Degrees east of Greenwich; west is negative.</param>
/// <param name="AltitudeM">Height above sea level, m.</param>
/// <param name="Zone">Civil time of the place.</param>
/// <param name="Loop">Figures for the loop as a whole.</param>
/// <param name="Vessels">In the order of the file.</param>
/// <param name="Equipment">In the order of the file.</param>
/// <param name="Channels">In the order of the file; a reading names its channel by its position here.</param>
public sealed record PlaceDescription(
    string Name,
    double LatitudeDeg,
    double LongitudeDeg,
    double AltitudeM,
    DateTimeZone Zone,
    LoopTotals Loop,
    IReadOnlyList<Vessel> Vessels,
    IReadOnlyList<Equipment> Equipment,
    IReadOnlyList<Channel> Channels)
{
    /// <summary>Its climate; null where the file does not tell it.</summary>
    public Climate? Climate { get; init; }

    /// <summary>How its water moves; null where the file does not tell enough for that.</summary>
    public Hydraulics? Hydraulics { get; init; }

    /// <summary>Its fish and their air; null where the file names none, or not enough of them.</summary>
    public FishKeeping? Fish { get; init; }

    /// <summary>Where readings come from while the place runs.</summary>
    public Wiring Wiring { get; init; } = Wiring.None;

    /// <summary>Position of a channel by its identifier, else by its name in logs, or -1.</summary>
    public int ChannelIndex(string id)
    {
        for (int i = 0; i < Channels.Count; i++)
        {
            if (Channels[i].Id == id) return i;
        }

        for (int i = 0; i < Channels.Count; i++)
        {
            if (Channels[i].Column == id) return i;
        }

        return -1;
    }

    /// <summary>The vessel of that identifier, or null.</summary>
    public Vessel? FindVessel(string? id) => Vessels.FirstOrDefault(v => v.Id == id);

    /// <summary>The equipment of that identifier, or null.</summary>
    public Equipment? FindEquipment(string? id) => Equipment.FirstOrDefault(e => e.Id == id);
}

/// <summary>Figures that hold for the loop as a whole, where vessels are not described one by one. Null: not told.</summary>
/// <param name="OpenWaterM2">Water surface that can evaporate, m2.</param>
/// <param name="CanopyM2">Leaf area over the ground, seen from above, m2.</param>
/// <param name="RainCatchM2">Area from which rain runs into the loop, m2; 0 under cover.</param>
public sealed record LoopTotals(double? OpenWaterM2, double? CanopyM2, double? RainCatchM2);
