using Runnel.Place.Fish;
using Runnel.Science.Fish;

namespace Runnel.Twin.Oxygen;

/// <summary>What may fail.</summary>
public enum Outage
{
    /// <summary>The air pumps; water still flows.</summary>
    AirStops,

    /// <summary>The pump; air still bubbles.</summary>
    PumpStops,

    /// <summary>Both at once.</summary>
    BothStop,
}

/// <summary>When it fails.</summary>
public enum OutageHour
{
    /// <summary>An hour like most.</summary>
    Usual,

    /// <summary>The hour after the evening's meal, with the day's warmest water.</summary>
    Worst,
}

/// <summary>How long until oxygen has fallen to a level, h; infinite where it does not fall so far within two days.</summary>
/// <param name="AtLeastH">The cautious end, rounded down: what may be told to people.</param>
/// <param name="LowH">Nine in ten loops as told last longer.</param>
/// <param name="ExpectedH">Half of them last longer.</param>
/// <param name="HighH">One in ten lasts longer.</param>
public readonly record struct TimeToLevel(double AtLeastH, double LowH, double ExpectedH, double HighH);

/// <summary>How long a tank has when something fails.</summary>
/// <param name="Outage">What fails.</param>
/// <param name="Hour">When.</param>
/// <param name="WithBackup">Backup air comes on, and lasts as long as its battery where it has one and the mains are gone.</param>
/// <param name="ToStress">Until the first of its fish suffer.</param>
/// <param name="ToDanger">Until the first of them die.</param>
public sealed record OutageTimes(Outage Outage, OutageHour Hour, bool WithBackup, TimeToLevel ToStress, TimeToLevel ToDanger);

/// <summary>One tank.</summary>
/// <param name="Vessel">Its id.</param>
/// <param name="Groups">Its fish.</param>
/// <param name="Need">What the neediest of them need.</param>
/// <param name="VolumeL">Its water, L.</param>
/// <param name="UptakeStandsIn">No model of a species was at hand; the thirstiest of its group stood in.</param>
/// <param name="StartLowMgPerL">Oxygen to begin from, the lower end, mg/L.</param>
/// <param name="StartMgPerL">The middle.</param>
/// <param name="StartMeasured">It was measured, not reckoned.</param>
/// <param name="AirTold">The file tells how much air the tank gets.</param>
/// <param name="Times">One for each outage, hour, and with and without backup.</param>
public sealed record TankTimeLeft(
    string Vessel, IReadOnlyList<FishGroup> Groups, OxygenNeed Need, double VolumeL, bool UptakeStandsIn, double StartLowMgPerL,
    double StartMgPerL, bool StartMeasured, bool AirTold, IReadOnlyList<OutageTimes> Times)
{
    /// <summary>The times of one case, or null where it was not reckoned.</summary>
    public OutageTimes? For(Outage outage, OutageHour hour, bool withBackup) =>
        Times.FirstOrDefault(t => t.Outage == outage && t.Hour == hour && t.WithBackup == withBackup);
}

/// <summary>How long backup air runs on its battery.</summary>
/// <param name="Id">The air pump.</param>
/// <param name="Hours">Hours, the cautious end, rounded down.</param>
public sealed record BackupLife(string Id, double Hours);

/// <summary>How long the fish of a place have.</summary>
/// <param name="WaterTempC">Water temperature reckoned with, °C.</param>
/// <param name="Members">How many likely loops were reckoned.</param>
/// <param name="Tanks">In the order of the file.</param>
/// <param name="Backups">Backup air with a battery.</param>
public sealed record TimeLeft(double WaterTempC, int Members, IReadOnlyList<TankTimeLeft> Tanks, IReadOnlyList<BackupLife> Backups);

/// <summary>What a reckoning of time left starts from.</summary>
/// <param name="WaterTempC">Water temperature, °C, 0 to 40.</param>
public sealed record TimeLeftOptions(double WaterTempC)
{
    /// <summary>Oxygen measured just now, by tank, mg/L.</summary>
    public IReadOnlyDictionary<string, double> MeasuredMgPerL { get; init; } = new Dictionary<string, double>();

    /// <summary>How much warmer the water is at the worst hour, °C.</summary>
    public double WarmerAtWorstC { get; init; } = 1;

    /// <summary>Likely loops to reckon.</summary>
    public int Members { get; init; } = 300;

    /// <summary>Seed of their draws.</summary>
    public int Seed { get; init; } = 1;
}
