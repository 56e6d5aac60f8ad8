using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Web.Section;

namespace Runnel.Web.Now;

/// <summary>Which parts of the drawing a notice is about. A notice that names one of them means that one; else all that it may be are marked.</summary>
internal static class TroubleParts
{
    public static TroubleMark? Of(PlaceDescription place, Notice notice)
    {
        if (notice.Urgency == Urgency.Record) return null;
        string[] parts = Candidates(place, notice.Cause);
        string said = notice.Evidence + " " + notice.FirstAct;
        string[] named = [.. parts.Where(p => said.Contains(p, StringComparison.OrdinalIgnoreCase) || said.Contains(p.Replace('-', ' '), StringComparison.OrdinalIgnoreCase))];
        if (named.Length > 0) parts = named;
        return parts.Length == 0 ? null : new(notice.Urgency, parts, Words(notice.Cause, parts.Length));
    }

    private static string[] Candidates(PlaceDescription place, string cause)
    {
        string[] Equipped(params EquipmentKind[] kinds) => [.. place.Equipment.Where(e => kinds.Contains(e.Kind)).Select(e => e.Id).Distinct()];
        string[] Vessels(Func<Vessel, bool> which) => [.. place.Vessels.Where(which).Select(v => v.Id).Distinct()];
        return cause switch
        {
            CauseNames.PumpStopped or CauseNames.PumpDry or CauseNames.PumpStuckOn or CauseNames.PumpWeakening or CauseNames.PumpShortCycling
                or CauseNames.CheckValveLeaking => Equipped(EquipmentKind.Pump),
            CauseNames.DrainFouling => Vessels(v => v.Outlet is not null && v.Kind != VesselKind.Sump),
            CauseNames.TankOverflow => Vessels(v => v.Kind is VesselKind.FishTank or VesselKind.Trough),
            CauseNames.SiphonStuck => Vessels(v => v.Outlet == OutletKind.Siphon),
            CauseNames.Overfull => Vessels(v => v.Kind == VesselKind.Sump),
            CauseNames.TopUpStuckOpen or CauseNames.TopUpWithoutEffect => Equipped(EquipmentKind.TopUpValve),
            CauseNames.AirFailed or CauseNames.AirFailing => Equipped(EquipmentKind.MainAir),
            CauseNames.BackupAirRunning or CauseNames.BackupAirUntested => Equipped(EquipmentKind.BackupAir),
            CauseNames.WaterTooWarm or CauseNames.WaterTooCold => Vessels(v => v.Kind == VesselKind.FishTank),
            // Where water leaks nobody can say from here.
            _ => [],
        };
    }

    private static string Words(string cause, int parts) => cause switch
    {
        CauseNames.PumpStopped => "stopped",
        CauseNames.PumpDry => "runs dry",
        CauseNames.PumpStuckOn => "does not switch off",
        CauseNames.PumpWeakening => "weakening",
        CauseNames.PumpShortCycling => "starts too often",
        CauseNames.CheckValveLeaking => "leaks back",
        CauseNames.DrainFouling => parts == 1 ? "drains slowly" : "may drain slowly",
        CauseNames.TankOverflow => parts == 1 ? "spills over" : "may spill over",
        CauseNames.SiphonStuck => "siphon stuck",
        CauseNames.Overfull => "overfull",
        CauseNames.TopUpStuckOpen => "does not shut",
        CauseNames.TopUpWithoutEffect => "brings no water",
        CauseNames.AirFailed => "failed",
        CauseNames.AirFailing => "failing",
        CauseNames.WaterTooWarm => "too warm",
        CauseNames.WaterTooCold => "too cold",
        _ => "look here",
    };
}
