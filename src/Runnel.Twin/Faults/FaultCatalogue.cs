using Runnel.Place.Findings;

namespace Runnel.Twin.Faults;

/// <summary>Every fault that can be played.</summary>
public static class FaultCatalogue
{
    private const string PerDay = "%/d";

    /// <summary>In the order in which they are told to people.</summary>
    public static IReadOnlyList<FaultKind> All { get; } =
    [
        new("pump-weakening", FaultPart.Pump, true, PerDay, 0.03, "its flow falls by so much of what it was, every day", [CauseNames.PumpWeakening]),
        new("pump-stopped", FaultPart.Pump, true, "", 0, "it stands though its switch calls for it", [CauseNames.PumpStopped]),
        new("pump-dry", FaultPart.Pump, true, "", 0, "it turns and moves no water", [CauseNames.PumpDry]),
        new("pump-stuck-on", FaultPart.SwitchedPump, false, "", 0, "its switch no longer lets go", [CauseNames.PumpStuckOn]),
        new("pump-stuck-off", FaultPart.SwitchedPump, false, "", 0, "its switch no longer calls for it", [CauseNames.PumpStopped]),
        new("pump-short-cycling", FaultPart.SwitchedPump, false, "%", 0.12, "so much is left between the two levels of its switch", [CauseNames.PumpShortCycling]),
        new("switch-shifted", FaultPart.SwitchedPump, false, "mm", 20, "its upper level lies so much higher", [CauseNames.LoopChanged]),
        new("switch-drifting", FaultPart.SwitchedPump, false, "mm/d", 3, "both its levels rise by so much every day", [CauseNames.LoopChanged]),
        new("drain-fouling", FaultPart.Drain, true, PerDay, 0.04, "it lets through so much less every day", [CauseNames.DrainFouling]),
        new("screen-blocking", FaultPart.Drain, false, PerDay, 0.3, "the screen before its outlet blocks, until the vessel spills", [CauseNames.TankOverflow, CauseNames.DrainFouling]),
        new("leak", FaultPart.Vessel, false, "L/h", 6, "it leaks so much at its usual level", [CauseNames.Leak]),
        new("siphon-stuck", FaultPart.Siphon, true, "", 0, "it never trips: water runs over its crest only", [CauseNames.SiphonStuck]),
        new("siphon-dribbling", FaultPart.Siphon, true, "%", 0.15, "so much of what it carries runs out at its foot while it stands", [CauseNames.SiphonStuck]),
        new("siphon-not-breaking", FaultPart.Siphon, true, "", 0, "once it runs it does not stop", [CauseNames.SiphonStuck]),
        new("check-valve-leaking", FaultPart.CheckValve, true, "%", 0.3, "so much of its pipe's bore stays open when it stands", [CauseNames.CheckValveLeaking]),
        new("top-up-stuck-open", FaultPart.TopUp, false, "", 0, "from its next opening on it does not shut", [CauseNames.TopUpStuckOpen]),
        new("top-up-stuck-shut", FaultPart.TopUp, false, "", 0, "it does not open", [CauseNames.TopUpWithoutEffect]),
        new("top-up-weeping", FaultPart.TopUp, false, "L/h", 6, "so much comes through while it is shut", [CauseNames.TopUpStuckOpen]),
        new("top-up-slowing", FaultPart.TopUp, false, PerDay, 0.05, "it lets through so much less every day", [CauseNames.TopUpWithoutEffect]),
        new("top-up-without-effect", FaultPart.TopUp, false, "", 0, "where its water comes from there is none", [CauseNames.TopUpWithoutEffect]),
        new("bleed-stuck-open", FaultPart.Bleed, false, "", 0, "from its next opening on it does not shut", [CauseNames.BleedStuckOpen]),
        new("air-failing", FaultPart.Air, false, PerDay, 0.05, "its pressure falls by so much of what it was, every day", [CauseNames.AirFailing]),
        new("air-failed", FaultPart.Air, false, "", 0, "it stands", [CauseNames.AirFailed]),
        new("sensor-silent", FaultPart.Channel, false, "", 0, "it gives no more readings", [CauseNames.SensorSilent]),
        new("sensor-frozen", FaultPart.Channel, false, "", 0, "it repeats its last value", [CauseNames.SensorFrozen]),
        new("sensor-jumping", FaultPart.Channel, false, "%", 0.1, "so many of its readings lie far off", [CauseNames.SensorJumping]),
        new("sensor-drifting", FaultPart.Channel, false, PerDay, 0.02, "its readings rise by so much of their range every day", [CauseNames.SensorDrifting]),
        new("sensor-noisy", FaultPart.Channel, false, "1", 8, "its noise is so many times the usual", [CauseNames.SensorJumping]),
        new("power-cut", FaultPart.Circuit, true, "h", 1, "no mains for so long", [CauseNames.PumpStopped]),
        new("valve-moved", FaultPart.Pump, false, "%", 0.7, "someone turned a valve in its pipe: so much of the flow is left", [CauseNames.LoopChanged]),
        new("sludge-drained", FaultPart.Vessel, false, "L", 30, "someone draws off so much within five minutes", [CauseNames.UnloggedDraw]),
        new("pump-left-off", FaultPart.Pump, false, "", 0, "someone unplugged it for cleaning and forgot it", [CauseNames.PumpStopped]),
        new("hose-left-running", FaultPart.Vessel, false, "L/min", 4, "someone left a hose running into it", [CauseNames.Overfull, CauseNames.TopUpStuckOpen]),
    ];

    /// <summary>The fault of that name, or null.</summary>
    /// <param name="name">Its name.</param>
    public static FaultKind? Find(string name) => All.FirstOrDefault(k => k.Name == name);
}
