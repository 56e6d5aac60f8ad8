namespace Runnel.Twin.Invented;

/// <summary>A story by name: what happens in a log, drawn by seed.</summary>
/// <param name="Name">Name on the command line.</param>
/// <param name="Kinds">Letters of the kinds of place it fits: A switch log, B siphon bed, C power channel, D pump always on.</param>
/// <param name="IsFault">False: nothing in it may be called a fault.</param>
/// <param name="Draw">Draws the happenings for a log of so many days.</param>
public sealed record Story(string Name, string Kinds, bool IsFault, Func<Seeded, int, IReadOnlyList<Happening>> Draw)
{
    /// <summary>Whether the story fits that kind of place.</summary>
    public bool Fits(LoopKind kind) => Kinds.Contains("ABCD"[(int)kind]);
}

/// <summary>Every story that can be told.</summary>
public static class Stories
{
    /// <summary>Faults, quiet logs and changes that are no fault.</summary>
    public static IReadOnlyList<Story> All { get; } =
    [
        new("healthy", "ABCD", false, (_, _) => []),
        Fault("pump-weakening-1", "ABCD", HappeningKind.PumpWeakening, _ => 0.01),
        Fault("pump-weakening-5", "ABCD", HappeningKind.PumpWeakening, _ => 0.05),
        Fault("drain-fouling-2", "ABCD", HappeningKind.DrainFouling, _ => 0.02),
        Fault("drain-fouling-8", "ABCD", HappeningKind.DrainFouling, _ => 0.08),
        Fault("one-drain-fouling", "AB", HappeningKind.OneDrainFouling, r => r.Between(0.05, 0.1)),
        Fault("screen-blocking", "AB", HappeningKind.ScreenBlocking, r => r.Between(0.2, 0.45)),
        Fault("leak-2", "ABCD", HappeningKind.Leak, _ => 2),
        Fault("leak-6", "ABCD", HappeningKind.Leak, _ => 6),
        Fault("leak-20", "ABCD", HappeningKind.Leak, _ => 20),
        Fault("leak-night", "ABD", HappeningKind.NightLeak, r => r.Between(3, 9)),
        Fault("pump-stopped", "ABCD", HappeningKind.PumpStopped, _ => 1),
        Fault("pump-dry", "ABC", HappeningKind.PumpDry, _ => 1),
        Fault("pump-stuck-on", "ABC", HappeningKind.PumpStuckOn, _ => 1),
        Fault("band-collapsed", "ABC", HappeningKind.BandCollapsed, r => r.Between(0.08, 0.2)),
        Fault("relay-chatter", "AB", HappeningKind.RelayChatter, r => r.Between(2, 8)),
        Fault("check-valve-leaking", "ABC", HappeningKind.CheckValveLeaking, r => r.Between(0.7, 1)),
        Fault("top-up-stuck-open", "ABCD", HappeningKind.TopUpStuckOpen, _ => 1),
        Fault("top-up-weeping", "ABC", HappeningKind.TopUpWeeping, r => r.Between(3, 10)),
        Fault("top-up-without-effect", "ABCD", HappeningKind.TopUpWithoutEffect, _ => 1),
        Fault("bleed-stuck-open", "ABD", HappeningKind.BleedStuckOpen, _ => 1),
        Fault("siphon-stuck", "B", HappeningKind.SiphonStuck, _ => 1),
        Fault("sensor-silent", "ABCD", HappeningKind.SensorSilent, _ => 1),
        Fault("sensor-frozen", "ABCD", HappeningKind.SensorFrozen, _ => 1),
        Fault("sensor-jumping", "ABCD", HappeningKind.SensorJumping, r => r.Between(0.05, 0.25)),
        Fault("sensor-drifting", "ABCD", HappeningKind.SensorDrifting, r => r.Between(1.5, 6)),
        new("clock-jump", "ABCD", true, (r, days) =>
        {
            double at = Onset(r, days);
            return [new(HappeningKind.ClockJump, at, r.Pick(-19000, -365, -0.5, 0.25, 3.0), at + r.Between(0.05, 1))];
        }),
        Change("outage", "ABCD", HappeningKind.Outage, r => r.BetweenLog(2, 60)),
        Change("power-cut", "ABCD", HappeningKind.PowerCut, r => r.Between(0.4, 3)),
        Change("moved-valve", "AB", HappeningKind.MovedValve, r => r.Pick(r.Between(0.6, 0.8), r.Between(1.2, 1.5))),
        Change("moved-valve-logged", "AB", HappeningKind.MovedValveLogged, r => r.Pick(r.Between(0.6, 0.8), r.Between(1.2, 1.5))),
        Change("filled-by-hand", "ABCD", HappeningKind.FilledByHand, r => r.Between(20, 60)),
        Change("cleaning-work", "ABCD", HappeningKind.CleaningWork, r => r.Between(0.85, 0.95)),
        Change("switch-shifted", "ABC", HappeningKind.SwitchShifted, r => r.Pick(-1, 1) * r.Between(0.08, 0.12)),
        Change("screens-cleaned", "ABC", HappeningKind.ScreensCleaned, r => r.Between(0.78, 0.9)),
        Change("new-pump", "ABCD", HappeningKind.NewPump, r => r.Between(1.08, 1.25)),
        Change("night-voltage", "ABC", HappeningKind.NightVoltage, r => r.Between(0.02, 0.05)),
        Change("sludge-unlogged", "ABCD", HappeningKind.SludgeDrainedUnlogged, r => r.Between(20, 60)),
        Change("sludge-logged", "ABCD", HappeningKind.SludgeDrainedLogged, r => r.Between(20, 60)),
        Change("bed-watered", "ABCD", HappeningKind.BedWatered, r => r.Between(20, 60)),
        Change("harvest", "ABCD", HappeningKind.Harvest, r => r.Between(0.3, 0.7)),
        Change("cover-on", "ABCD", HappeningKind.CoverOn, r => r.Between(0.15, 0.5)),
        new("heat-wave", "ABCD", false, (r, days) =>
        {
            double at = Math.Floor(Onset(r, days));
            return [new(HappeningKind.HeatWave, at, r.Between(6, 10), at + r.Whole(3, 6))];
        }),
        Change("storm", "ABCD", HappeningKind.Storm, r => r.Between(25, 70)),
    ];

    /// <summary>The story of that name, or null.</summary>
    public static Story? Find(string name) => All.FirstOrDefault(s => s.Name == name);

    /// <summary>Not before day 14 where the log is long enough; always with a third of it still to come.</summary>
    private static double Onset(Seeded r, int days)
    {
        double first = Math.Min(14, days * 0.5);
        return r.Between(first, Math.Max(first + 0.5, days * 0.62));
    }

    private static Story Fault(string name, string kinds, HappeningKind kind, Func<Seeded, double> size) =>
        new(name, kinds, true, (r, days) => [new(kind, Math.Round(Onset(r, days) * 144) / 144, size(r))]);

    private static Story Change(string name, string kinds, HappeningKind kind, Func<Seeded, double> size) =>
        new(name, kinds, false, (r, days) =>
        {
            // People do things by day.
            double at = Math.Floor(Onset(r, days)) + (Math.Round(r.Between(0.34, 0.75) * 144) / 144);
            return [new(kind, at, size(r))];
        });
}
