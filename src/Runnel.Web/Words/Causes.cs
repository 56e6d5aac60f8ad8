using Runnel.Place.Findings;

namespace Runnel.Web.Words;

/// <summary>Each cause as a person would say it.</summary>
public static class Causes
{
    /// <summary>As a short statement that can stand as a heading: "the drains are fouling".</summary>
    public static string Statement(string cause) => cause switch
    {
        CauseNames.PumpStopped => "the pump has stopped",
        CauseNames.PumpDry => "the pump runs dry",
        CauseNames.PumpStuckOn => "the pump does not switch off",
        CauseNames.PumpWeakening => "the pump is weakening",
        CauseNames.PumpShortCycling => "the pump starts too often",
        CauseNames.DrainFouling => "the drains are fouling",
        CauseNames.TankOverflow => "a tank spills over",
        CauseNames.SiphonStuck => "a siphon is stuck",
        CauseNames.CheckValveLeaking => "the check valve leaks back",
        CauseNames.Leak => "water leaks away",
        CauseNames.Overfull => "the loop is overfull",
        CauseNames.TopUpStuckOpen => "the top-up does not shut",
        CauseNames.TopUpWithoutEffect => "the top-up brings no water",
        CauseNames.BleedStuckOpen => "the bleed does not shut",
        CauseNames.LoopChanged => "something in the loop was changed",
        CauseNames.UnloggedDraw => "water was drawn and not written down",
        CauseNames.AirFailed => "the air has failed",
        CauseNames.AirFailing => "the air is failing",
        CauseNames.BackupAirRunning => "the backup air is running",
        CauseNames.BackupAirUntested => "the backup air is untested",
        CauseNames.SensorSilent => "a sensor is silent",
        CauseNames.SensorFrozen => "a sensor is frozen",
        CauseNames.SensorJumping => "a sensor jumps",
        CauseNames.SensorDrifting => "a sensor drifts",
        CauseNames.ClockJump => "the clock of the log jumped",
        CauseNames.WaterTooWarm => "the water is too warm",
        CauseNames.WaterTooCold => "the water is too cold",
        _ => cause.Replace('-', ' '),
    };

    /// <summary>Whether the run-against-fill chart is what shows this cause.</summary>
    public static bool ShowsInRunOverFill(string cause) => cause is CauseNames.DrainFouling or CauseNames.PumpWeakening
        or CauseNames.LoopChanged or CauseNames.CheckValveLeaking or CauseNames.TankOverflow or CauseNames.SiphonStuck
        or CauseNames.PumpShortCycling;

    /// <summary>Whether the water ledger is what shows this cause.</summary>
    public static bool ShowsInLedger(string cause) => cause is CauseNames.Leak or CauseNames.TopUpStuckOpen or CauseNames.Overfull
        or CauseNames.BleedStuckOpen or CauseNames.UnloggedDraw or CauseNames.TopUpWithoutEffect;
}
