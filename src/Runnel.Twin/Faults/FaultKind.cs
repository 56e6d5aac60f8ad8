using Runnel.Place;

namespace Runnel.Twin.Faults;

/// <summary>What a fault may be of.</summary>
public enum FaultPart
{
    /// <summary>A pump.</summary>
    Pump,

    /// <summary>A pump with a level switch.</summary>
    SwitchedPump,

    /// <summary>A pump with a check valve.</summary>
    CheckValve,

    /// <summary>A vessel.</summary>
    Vessel,

    /// <summary>A vessel with an outlet.</summary>
    Drain,

    /// <summary>A vessel that empties through a siphon.</summary>
    Siphon,

    /// <summary>A valve that lets water in.</summary>
    TopUp,

    /// <summary>A valve that lets water out.</summary>
    Bleed,

    /// <summary>An air pump.</summary>
    Air,

    /// <summary>A channel.</summary>
    Channel,

    /// <summary>Equipment on one circuit.</summary>
    Circuit,
}

/// <summary>A fault that can be played: its name, what it is of, what its rate means.</summary>
/// <param name="Name">Name; that of the cause where the contract has one.</param>
/// <param name="Part">What it is of.</param>
/// <param name="TakesAll">Whether it is of all such parts where none is named; else of the first.</param>
/// <param name="Unit">Unit of its rate; empty: it has none.</param>
/// <param name="Usual">Its rate where none is told; per cent as a share from 0 to 1.</param>
/// <param name="Meaning">What happens, for people.</param>
/// <param name="Causes">Names of causes that are right for it; the first is the very one. Empty: no such word yet.</param>
public sealed record FaultKind(
    string Name, FaultPart Part, bool TakesAll, string Unit, double Usual, string Meaning, IReadOnlyList<string> Causes)
{

    /// <summary>Ids of what it can be of at a place, in the order of the file.</summary>
    /// <param name="place">A place that tells how its water moves.</param>
    public IReadOnlyList<string> Fits(PlaceDescription place)
    {
        ArgumentNullException.ThrowIfNull(place);
        var water = place.Hydraulics ?? throw new ArgumentException("the place does not tell how its water moves", nameof(place));
        return Part switch
        {
            FaultPart.Pump => [.. water.Pumps.Select(p => p.Id)],
            FaultPart.SwitchedPump => [.. water.Pumps.Where(p => p.OnM is not null).Select(p => p.Id)],
            FaultPart.CheckValve => [.. water.Pumps.Where(p => p.HasCheckValve).Select(p => p.Id)],
            FaultPart.Vessel => [.. water.Vessels.Select(v => v.Id)],
            FaultPart.Drain => [.. water.Vessels.Where(v => v.Outlet is not null).Select(v => v.Id)],
            FaultPart.Siphon => [.. water.Vessels.Where(v => v.Outlet?.Kind == OutletKind.Siphon).Select(v => v.Id)],
            FaultPart.TopUp => [.. water.Valves.Where(v => place.FindEquipment(v.Id)?.Kind != EquipmentKind.BleedValve).Select(v => v.Id)],
            FaultPart.Bleed => [.. water.Valves.Where(v => place.FindEquipment(v.Id)?.Kind == EquipmentKind.BleedValve).Select(v => v.Id)],
            FaultPart.Air => [.. place.Equipment.Where(e => e.Kind is EquipmentKind.MainAir).Select(e => e.Id)],
            FaultPart.Channel => [.. place.Channels.Select(c => c.Id)],
            _ => [.. place.Equipment.Select(e => e.Id)],
        };
    }
}
