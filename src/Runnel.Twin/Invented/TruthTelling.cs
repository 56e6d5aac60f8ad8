using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Twin.Invented;

/// <summary>Names what each happening should be called, and what is fair to say beside it.</summary>
internal static class TruthTelling
{
    public static TrueEvent Tell(Happening h, Instant start, IReadOnlyDictionary<HappeningKind, Instant> effective)
    {
        var (fault, causes, fair) = Names(h);
        Instant onset = effective.TryGetValue(h.Kind, out var shown) ? shown : At(start, h.OnsetDay);
        double? end = h.Kind is HappeningKind.Outage or HappeningKind.PowerCut ? h.OnsetDay + (h.Size / 24) : h.EndDay;
        return new TrueEvent(h.Kind, fault, causes, fair, onset, end is { } d ? At(start, d) : null, h.Size);
    }

    public static TrueEvent Overflow(Instant at) =>
        new(HappeningKind.ScreenBlocking, true, [CauseNames.TankOverflow], [CauseNames.DrainFouling, CauseNames.Leak], at, null, 0);

    private static Instant At(Instant start, double day) => start.Plus(Duration.FromSeconds((long)Math.Round(day * 86400)));

    private static (bool Fault, string[] Causes, string[] Fair) Names(Happening h) => h.Kind switch
    {
        HappeningKind.PumpWeakening => (true, [CauseNames.PumpWeakening], [CauseNames.Overfull]),
        HappeningKind.DrainFouling or HappeningKind.OneDrainFouling => (true, [CauseNames.DrainFouling], [CauseNames.TankOverflow, CauseNames.Overfull]),
        HappeningKind.ScreenBlocking => (true, [CauseNames.DrainFouling, CauseNames.TankOverflow], [CauseNames.TankOverflow, CauseNames.Leak]),
        HappeningKind.Leak or HappeningKind.NightLeak => (true, [CauseNames.Leak], []),
        HappeningKind.PumpStopped => (true, [CauseNames.PumpStopped], [CauseNames.Overfull, CauseNames.TopUpWithoutEffect]),
        HappeningKind.PumpDry => (true, [CauseNames.PumpDry, CauseNames.PumpStopped], [CauseNames.Overfull]),
        HappeningKind.PumpStuckOn => (true, [CauseNames.PumpStuckOn], [CauseNames.PumpDry]),
        HappeningKind.BandCollapsed or HappeningKind.RelayChatter => (true, [CauseNames.PumpShortCycling], [CauseNames.LoopChanged]),
        HappeningKind.CheckValveLeaking => (true, [CauseNames.CheckValveLeaking], [CauseNames.LoopChanged]),
        HappeningKind.TopUpStuckOpen => (true, [CauseNames.TopUpStuckOpen], [CauseNames.Overfull, CauseNames.TankOverflow]),
        HappeningKind.TopUpWeeping => (true, [CauseNames.TopUpStuckOpen], [CauseNames.Overfull]),
        HappeningKind.TopUpWithoutEffect => (true, [CauseNames.TopUpWithoutEffect], []),
        HappeningKind.BleedStuckOpen => (true, [CauseNames.BleedStuckOpen, CauseNames.Leak], [CauseNames.TopUpWithoutEffect]),
        HappeningKind.SiphonStuck => (true, [CauseNames.SiphonStuck], [CauseNames.LoopChanged]),
        HappeningKind.SensorSilent => (true, [CauseNames.SensorSilent], []),
        HappeningKind.SensorFrozen => (true, [CauseNames.SensorFrozen], [CauseNames.SensorSilent]),
        HappeningKind.SensorJumping => (true, [CauseNames.SensorJumping], []),
        HappeningKind.SensorDrifting => (true, [CauseNames.SensorDrifting], []),
        HappeningKind.ClockJump => (true, [CauseNames.ClockJump], []),
        HappeningKind.Outage => (false, [], [CauseNames.SensorSilent]),
        HappeningKind.PowerCut => (false, [], [CauseNames.PumpStopped, CauseNames.SensorSilent]),
        HappeningKind.MovedValve or HappeningKind.SwitchShifted or HappeningKind.ScreensCleaned or HappeningKind.NewPump
            or HappeningKind.NightVoltage => (false, [CauseNames.LoopChanged], []),
        HappeningKind.MovedValveLogged or HappeningKind.CleaningWork => (false, [], [CauseNames.LoopChanged]),
        HappeningKind.SludgeDrainedUnlogged or HappeningKind.BedWatered => (false, [CauseNames.UnloggedDraw], []),
        HappeningKind.Storm => (false, [], [CauseNames.Overfull]),
        _ => (false, [], []),
    };
}
