namespace Runnel.Place.Water;

/// <summary>What moves the water of a place, as far as its file tells: enough to reckon levels and flows.</summary>
/// <param name="Vessels">Vessels that take part, in the order of the file.</param>
/// <param name="Pumps">Pumps between them.</param>
/// <param name="Valves">Valves that open and shut by level.</param>
public sealed record Hydraulics(IReadOnlyList<WaterVessel> Vessels, IReadOnlyList<WaterPump> Pumps, IReadOnlyList<WaterValve> Valves)
{
    /// <summary>Heaters in vessels.</summary>
    public IReadOnlyList<WaterHeater> Heaters { get; init; } = [];

    /// <summary>Position of a vessel among <see cref="Vessels"/>, or -1: the world outside.</summary>
    /// <param name="vesselId">Its id; null: none.</param>
    public int IndexOf(string? vesselId)
    {
        for (int i = 0; i < Vessels.Count; i++)
        {
            if (Vessels[i].Id == vesselId) return i;
        }

        return -1;
    }
}

/// <summary>A vessel that takes part.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="Shape">Water by level.</param>
/// <param name="FloorM">Its floor above the place's zero, m; null: not told.</param>
/// <param name="RimM">Its rim above its floor, m; null: not told, so that it never spills.</param>
/// <param name="SpillsTo">Where it spills: a vessel or a word for the world outside.</param>
/// <param name="StartM">Level to begin from, above its floor, m; null: that of its outlet.</param>
/// <param name="OpenM2">Water surface that can evaporate, m2; null: not told.</param>
/// <param name="Outlet">How it empties; null: not by gravity.</param>
public sealed record WaterVessel(
    string Id, VesselKind Kind, LevelVolume Shape, double? FloorM, double? RimM, string SpillsTo, double? StartM, double? OpenM2, GravityOutlet? Outlet)
{
    /// <summary>What keeps sun and cold from its water.</summary>
    public ThermalVessel Thermal { get; init; } = ThermalVessel.NotTold;
}

/// <summary>How a vessel empties by gravity.</summary>
/// <param name="Kind">What holds the water back.</param>
/// <param name="HeightM">Crest of a standpipe or weir, centre of a hole, mouth of a pipe, top of a siphon's inner pipe; above the floor, m.</param>
/// <param name="DiameterM">Of hole, standpipe or inner pipe, m; for a weir its width.</param>
/// <param name="To">Where the water goes.</param>
/// <param name="Drain">The pipe behind; null: it falls freely.</param>
/// <param name="TripM">Siphon: level at which it begins to run full, m.</param>
/// <param name="BreakM">Siphon: level at which it draws air and stops, m.</param>
public sealed record GravityOutlet(
    OutletKind Kind, double HeightM, double DiameterM, string To, WaterPipe? Drain = null, double TripM = 0, double BreakM = 0);

/// <summary>A round pipe.</summary>
/// <param name="LengthM">Length, m.</param>
/// <param name="DiameterM">Bore, m.</param>
/// <param name="RoughnessMm">Roughness, mm.</param>
/// <param name="MinorK">Sum of its fittings' K, without entrance and exit.</param>
/// <param name="EndM">Its end above the place's zero, m; null: not told.</param>
public sealed record WaterPipe(double LengthM, double DiameterM, double RoughnessMm, double MinorK, double? EndM);

/// <summary>A pump.</summary>
/// <param name="Id">Its id.</param>
/// <param name="From">Vessel it takes from.</param>
/// <param name="Curve">Shut-off head (m) and two points (L/min, m), or one design point; empty: a steady flow.</param>
/// <param name="SteadyLPerMin">Flow where there is no curve, L/min.</param>
/// <param name="Main">Pipe from the pump to its end, or to where it splits; null: none to speak of.</param>
/// <param name="Ends">Where it delivers: one, or several branches.</param>
/// <param name="OnM">Level in its vessel at which its switch starts it, m; null: it always runs.</param>
/// <param name="OffM">Level at which its switch stops it, m.</param>
/// <param name="HasCheckValve">Whether nothing runs back when it stands.</param>
/// <param name="PowerW">Electric power, W, or null.</param>
public sealed record WaterPump(
    string Id, string From, IReadOnlyList<PumpPoint> Curve, double SteadyLPerMin, WaterPipe? Main, IReadOnlyList<PumpEnd> Ends, double? OnM, double? OffM,
    bool HasCheckValve, double? PowerW);

/// <summary>A point of a pump's curve.</summary>
public readonly record struct PumpPoint(double FlowLPerMin, double HeadM);

/// <summary>One end of a pump's pipe.</summary>
/// <param name="To">Where it delivers.</param>
/// <param name="EndM">Height of the end above the place's zero, m; null: not told.</param>
/// <param name="Branch">Its own pipe behind the split; null: none.</param>
public sealed record PumpEnd(string To, double? EndM, WaterPipe? Branch);

/// <summary>A valve that opens and shuts by the level of a vessel, or by a timer.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Of">Vessel whose level counts.</param>
/// <param name="From">Where its water comes from.</param>
/// <param name="To">Where it goes.</param>
/// <param name="RateLPerMin">Flow while open.</param>
/// <param name="OpensM">Level at which it opens, m.</param>
/// <param name="ShutsM">Level at which it shuts, m: above the other where it fills, below it where it drains.</param>
public sealed record WaterValve(string Id, string Of, string From, string To, double RateLPerMin, double OpensM, double ShutsM)
{
    /// <summary>Timer: time from one opening to the next, s; 0: by level.</summary>
    public double EveryS { get; init; }

    /// <summary>Timer, or rule by fills: for how long it opens, s.</summary>
    public double RunS { get; init; }

    /// <summary>Level of the vessel it takes from at which it gives its rate, m; lower, it gives less by the root of the head. 0: always its rate.</summary>
    public double RateAtM { get; init; }

    /// <summary>Rule by fills: it opens when <see cref="Of"/> has filled for so long without its pump, and again after as long, s; 0: no such rule.</summary>
    public double AfterFillS { get; init; }
}
