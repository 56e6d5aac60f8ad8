namespace Runnel.Twin.Invented;

/// <summary>Kinds of place that can be invented.</summary>
public enum LoopKind
{
    /// <summary>A: pump by a two-level float switch in the sump, seen as on/off; cycles of about ten minutes.</summary>
    SwitchLog,

    /// <summary>B: as A, with media beds on bell siphons that beat on the sump's cycle.</summary>
    SiphonBed,

    /// <summary>C: the pump is seen only through its power; long cycles, drains limited by their pipes, top-up by timer.</summary>
    PowerChannel,

    /// <summary>D: the pump never stops but for a weekly pause; the sump has a level channel.</summary>
    AlwaysOn,
}

/// <summary>What may happen to an invented place. Sizes are named in each comment; see <see cref="Happening.Size"/>.</summary>
public enum HappeningKind
{
    /// <summary>Pump flow falls; size: fraction a day.</summary>
    PumpWeakening,

    /// <summary>All drains lose capacity; size: fraction a day.</summary>
    DrainFouling,

    /// <summary>One trough's drain loses capacity; size: fraction a day.</summary>
    OneDrainFouling,

    /// <summary>A tank's screen blocks until it spills; size: fraction a day.</summary>
    ScreenBlocking,

    /// <summary>Water leaks to the ground; size: L/h.</summary>
    Leak,

    /// <summary>Water is lost from eight in the evening to six in the morning only; size: L/h.</summary>
    NightLeak,

    /// <summary>The motor stands though the switch calls for it; size unused.</summary>
    PumpStopped,

    /// <summary>The pump turns without moving water (blocked suction, air); size unused.</summary>
    PumpDry,

    /// <summary>The switch is welded shut: the pump never stops; size unused.</summary>
    PumpStuckOn,

    /// <summary>The switch band collapses; size: fraction of the band that is left.</summary>
    BandCollapsed,

    /// <summary>The relay chatters at each change; size: mean number of extra on/off pairs.</summary>
    RelayChatter,

    /// <summary>The riser runs back at each stop; size: fraction of the riser that runs back.</summary>
    CheckValveLeaking,

    /// <summary>The top-up valve stays open after an order; size unused.</summary>
    TopUpStuckOpen,

    /// <summary>The shut top-up valve lets water by; size: L/h.</summary>
    TopUpWeeping,

    /// <summary>The top-up's supply is empty; size unused.</summary>
    TopUpWithoutEffect,

    /// <summary>The bleed valve stays open after an order; size unused.</summary>
    BleedStuckOpen,

    /// <summary>A bell siphon dribbles and never trips; size unused.</summary>
    SiphonStuck,

    /// <summary>One channel stops writing; size unused.</summary>
    SensorSilent,

    /// <summary>One channel repeats its last value; size unused.</summary>
    SensorFrozen,

    /// <summary>One channel jumps at random; size: chance of a jump per reading.</summary>
    SensorJumping,

    /// <summary>The log's clock is wrong for a while; size: days by which it is wrong (negative: back).</summary>
    ClockJump,

    /// <summary>The log has a gap, the loop goes on; size: hours.</summary>
    Outage,

    /// <summary>No mains for a while, the log goes on; size: hours.</summary>
    PowerCut,

    /// <summary>A split valve is turned; size: new share of the first branch as a factor.</summary>
    MovedValve,

    /// <summary>The same, with a daybook entry.</summary>
    MovedValveLogged,

    /// <summary>Someone fills in water by hand and writes it down; size: litres.</summary>
    FilledByHand,

    /// <summary>Hands in the loop for half an hour, written down: pump unplugged, separator emptied, screens cleaned; size: drain capacity before, as a fraction.</summary>
    CleaningWork,

    /// <summary>The upper switch level is moved; size: change of the band as a fraction.</summary>
    SwitchShifted,

    /// <summary>Drain screens are cleaned; size: capacity before, as a fraction of the clean one.</summary>
    ScreensCleaned,

    /// <summary>A new pump goes in; size: its flow as a factor of the old one's.</summary>
    NewPump,

    /// <summary>From here the pump is slower every night; size: loss as a fraction.</summary>
    NightVoltage,

    /// <summary>A separator is emptied and nobody writes it down; size: litres.</summary>
    SludgeDrainedUnlogged,

    /// <summary>A separator is emptied, with a daybook entry; size: litres.</summary>
    SludgeDrainedLogged,

    /// <summary>A bed is watered from the sump and nobody writes it down; size: litres.</summary>
    BedWatered,

    /// <summary>Plants are harvested; size: fraction of the canopy that goes.</summary>
    Harvest,

    /// <summary>Covers are put on open water; size: fraction that stays open.</summary>
    CoverOn,

    /// <summary>Days of heat; size: degrees above the season.</summary>
    HeatWave,

    /// <summary>A rain storm; size: mm.</summary>
    Storm,

    /// <summary>The zero of the sun's sensor creeps; size: W/m2 a day.</summary>
    SensorDrifting,
}

/// <summary>One thing that happens in a story.</summary>
/// <param name="Kind">What happens.</param>
/// <param name="OnsetDay">Days after the start of the log, with fraction.</param>
/// <param name="Size">How much, as said at the kind.</param>
/// <param name="EndDay">When it is over, or null: it stays.</param>
public sealed record Happening(HappeningKind Kind, double OnsetDay, double Size, double? EndDay = null);
