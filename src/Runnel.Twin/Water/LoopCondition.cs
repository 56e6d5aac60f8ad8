namespace Runnel.Twin.Water;

/// <summary>A figure that changes evenly in time, within bounds.</summary>
/// <param name="Value">Its value at <paramref name="AtS"/>.</param>
/// <param name="AtS">When, s.</param>
/// <param name="PerS">Change, 1/s.</param>
/// <param name="Least">Where it stops falling.</param>
/// <param name="Greatest">Where it stops rising.</param>
internal readonly record struct Course(
    double Value, double AtS = 0, double PerS = 0, double Least = double.NegativeInfinity, double Greatest = double.PositiveInfinity)
{
    public double At(double timeS) => PerS == 0 ? Value : Math.Clamp(Value + (PerS * Math.Max(0, timeS - AtS)), Least, Greatest);
}

/// <summary>How a pump's level switch is.</summary>
internal enum SwitchHold
{
    Free,
    On,
    Off,
}

/// <summary>How a pump is: all well unless told.</summary>
internal sealed class PumpCondition
{
    /// <summary>Share of its flow that is left.</summary>
    public Course Strength { get; set; } = new(1);

    /// <summary>Its flow as mains and temperature have it, as a share of the usual.</summary>
    public double Wander { get; set; } = 1;

    public bool HasPower { get; set; } = true;

    /// <summary>Switched on, it does not turn.</summary>
    public bool Stalls { get; set; }

    /// <summary>It turns and moves no water: blocked suction, or air.</summary>
    public bool IsDry { get; set; }

    /// <summary>Someone took it off the mains.</summary>
    public bool IsUnplugged { get; set; }

    public SwitchHold Switch { get; set; }

    /// <summary>By how much its levels lie higher than told, m.</summary>
    public Course OnShiftM { get; set; }

    public Course OffShiftM { get; set; }

    /// <summary>By how much the float acts beside its level this time, m.</summary>
    public double OnJitterM { get; set; }

    public double OffJitterM { get; set; }

    /// <summary>Share of the pipe's bore that a leaking check valve leaves open.</summary>
    public double CheckLeak { get; set; }

    /// <summary>What a valve in its pipe lets through, for each end, as a share of the usual flow.</summary>
    public double[] EndShare { get; init; } = [];

    public bool MayTurn => HasPower && !Stalls && !IsUnplugged;
}

/// <summary>How a siphon is.</summary>
internal enum SiphonHold
{
    Free,

    /// <summary>It never trips: water goes over its crest only.</summary>
    NeverTrips,

    /// <summary>Once it runs it goes on running.</summary>
    NeverBreaks,
}

/// <summary>A hole.</summary>
/// <param name="HeightM">Above the floor, m.</param>
/// <param name="PerRootM">Flow for each root of head, m3/s.</param>
internal readonly record struct Hole(double HeightM, double PerRootM);

/// <summary>How a vessel is, and what comes and goes besides its outlet.</summary>
internal sealed class VesselCondition
{
    /// <summary>Share of its outlet that is open.</summary>
    public Course OutletOpen { get; set; } = new(1);

    public List<Hole> Holes { get; } = [];

    public SiphonHold Siphon { get; set; }

    /// <summary>What runs out at the foot of a siphon that stands, as a share of what it carries when it runs.</summary>
    public double SeepShare { get; set; }

    /// <summary>To air and plants, m3/s.</summary>
    public double LossM3PerS { get; set; }

    public double RainM3PerS { get; set; }

    /// <summary>Taken out by people, m3/s.</summary>
    public double DrawnM3PerS { get; set; }

    /// <summary>Let in through a hose, m3/s.</summary>
    public double HoseM3PerS { get; set; }
}

/// <summary>How a valve is.</summary>
internal sealed class ValveCondition
{
    public bool HasPower { get; set; } = true;

    /// <summary>From its next opening on it does not shut.</summary>
    public bool SticksOpen { get; set; }

    public bool SticksShut { get; set; }

    /// <summary>Flow while it is shut, m3/s.</summary>
    public double WeepM3PerS { get; set; }

    /// <summary>Share of its flow that is left.</summary>
    public Course Rate { get; set; } = new(1);

    /// <summary>Where its water comes from there is none.</summary>
    public bool SupplyIsEmpty { get; set; }
}

/// <summary>How every part of a loop is at present: worn, fouled, held, cut off; and its weather.</summary>
internal sealed class LoopCondition(WaterLoop.Vessel[] vessels, WaterLoop.Pump[] pumps, int valves)
{
    public VesselCondition[] Vessels { get; } = [.. vessels.Select(v => new VesselCondition { LossM3PerS = v.LossM3PerS, RainM3PerS = v.RainM3PerS })];

    public PumpCondition[] Pumps { get; } = [.. pumps.Select(p => new PumpCondition { EndShare = [.. p.To.Select(_ => 1.0)] })];

    public ValveCondition[] Valves { get; } = [.. Enumerable.Range(0, valves).Select(_ => new ValveCondition())];

    /// <summary>All well again; weather, and what a float does by chance, stay.</summary>
    public void MakeWell()
    {
        foreach (var vessel in Vessels)
        {
            (vessel.OutletOpen, vessel.Siphon, vessel.SeepShare, vessel.DrawnM3PerS, vessel.HoseM3PerS) = (new(1), SiphonHold.Free, 0, 0, 0);
            vessel.Holes.Clear();
        }

        foreach (var pump in Pumps)
        {
            (pump.Strength, pump.HasPower, pump.Stalls, pump.IsDry, pump.IsUnplugged) = (new(1), true, false, false, false);
            (pump.Switch, pump.OnShiftM, pump.OffShiftM, pump.CheckLeak) = (SwitchHold.Free, default, default, 0);
            Array.Fill(pump.EndShare, 1);
        }

        foreach (var valve in Valves)
        {
            (valve.HasPower, valve.SticksOpen, valve.SticksShut, valve.WeepM3PerS, valve.Rate, valve.SupplyIsEmpty) = (true, false, false, 0, new(1), false);
        }
    }
}
