namespace Runnel.Place.Findings;

/// <summary>The names of causes that scripts rely on.</summary>
public static class CauseNames
{
    public const string PumpStopped = "pump-stopped";
    public const string PumpDry = "pump-dry";
    public const string PumpStuckOn = "pump-stuck-on";
    public const string PumpWeakening = "pump-weakening";
    public const string PumpShortCycling = "pump-short-cycling";
    public const string DrainFouling = "drain-fouling";
    public const string TankOverflow = "tank-overflow";
    public const string SiphonStuck = "siphon-stuck";
    public const string CheckValveLeaking = "check-valve-leaking";
    public const string Leak = "leak";
    public const string Overfull = "overfull";
    public const string TopUpStuckOpen = "top-up-stuck-open";
    public const string TopUpWithoutEffect = "top-up-without-effect";
    public const string BleedStuckOpen = "bleed-stuck-open";
    public const string LoopChanged = "loop-changed";
    public const string UnloggedDraw = "unlogged-draw";
    public const string AirFailed = "air-failed";
    public const string AirFailing = "air-failing";
    public const string BackupAirRunning = "backup-air-running";
    public const string BackupAirUntested = "backup-air-untested";
    public const string SensorSilent = "sensor-silent";
    public const string SensorFrozen = "sensor-frozen";
    public const string SensorJumping = "sensor-jumping";
    public const string SensorDrifting = "sensor-drifting";
    public const string ClockJump = "clock-jump";
    public const string WaterTooWarm = "water-too-warm";
    public const string WaterTooCold = "water-too-cold";
}
