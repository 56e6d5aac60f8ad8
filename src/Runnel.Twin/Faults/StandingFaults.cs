using NodaTime;
using Runnel.Place;
using Runnel.Twin.Water;

namespace Runnel.Twin.Faults;

/// <summary>The faults that stand at a place or are still to come, and what they do to its parts.</summary>
/// <remarks>The condition of every part follows from the list alone and is made anew at each change, so that a fault that is mended leaves nothing behind but its water.</remarks>
internal sealed class StandingFaults
{
    private const double DrawnWithinS = 300, DayS = 86_400;

    private readonly PlaceDescription _place;
    private readonly LoopCondition _loop;
    private readonly double[] _usualLevelM;
    private readonly Func<double, LocalTime> _clock;
    private readonly List<PlannedFault> _list = [];

    /// <param name="place">A place that tells how its water moves.</param>
    /// <param name="loop">Its parts.</param>
    /// <param name="clock">Time of the day after so many seconds.</param>
    public StandingFaults(PlaceDescription place, LoopCondition loop, Func<double, LocalTime> clock)
    {
        (_place, _loop, _clock) = (place, loop, clock);
        var water = place.Hydraulics!;
        _usualLevelM =
        [
            .. water.Vessels.Select(v => v.Outlet?.HeightM ?? water.Pumps.FirstOrDefault(p => p.From == v.Id)?.OnM ?? v.StartM ?? (v.RimM ?? 0.5) / 2),
        ];
        Channels = [.. place.Channels.Select(_ => new ChannelCondition())];
        Equipment = [.. place.Equipment.Select(_ => new EquipmentCondition())];
    }

    public IReadOnlyList<ChannelCondition> Channels { get; private set; }

    public IReadOnlyList<EquipmentCondition> Equipment { get; private set; }

    public IReadOnlyList<PlannedFault> List => _list;

    public void Add(PlannedFault fault) => _list.Add(fault);

    /// <summary>Mends; whether there was anything to mend.</summary>
    public bool Remove(string name, string? of) => _list.RemoveAll(f => f.Fault.Name == name && (of is null || f.Fault.Of is null || f.Fault.Of == of)) > 0;

    /// <summary>When the condition next changes by itself: a fault begins or ends, or its hours begin or end; infinite: never.</summary>
    public double NextChangeS(double timeS)
    {
        double next = double.PositiveInfinity;
        foreach (var one in _list)
        {
            if (one.AtS > timeS) next = Math.Min(next, one.AtS);
            if (one.AtS + LengthS(one.Fault) is var end && end > timeS) next = Math.Min(next, end);
            if (one.Fault.Hours is not { } hours) continue;
            double now = _clock(timeS).TickOfDay / (double)NodaConstants.TicksPerSecond;
            foreach (var edge in (ReadOnlySpan<LocalTime>)[hours.From, hours.To])
            {
                double ahead = (edge.TickOfDay / (double)NodaConstants.TicksPerSecond) - now;
                next = Math.Min(next, timeS + (ahead > 1e-3 ? ahead : ahead + DayS));
            }
        }

        return next;
    }

    /// <summary>Makes the condition of every part anew.</summary>
    public void Apply(double timeS)
    {
        _loop.MakeWell();
        Channels = [.. _place.Channels.Select(_ => new ChannelCondition())];
        Equipment = [.. _place.Equipment.Select(_ => new EquipmentCondition())];
        _list.RemoveAll(f => f.AtS + LengthS(f.Fault) <= timeS + 1e-6);
        foreach (var one in _list)
        {
            if (one.AtS > timeS + 1e-6) continue;
            if (one.Fault.Hours is { } hours && !hours.Holds(_clock(timeS + 1e-3))) continue;
            var kind = FaultCatalogue.Find(one.Fault.Name)!;
            var fits = kind.Fits(_place);
            IEnumerable<string> of = one.Fault.Of is { } told ? [told] : kind.TakesAll ? fits : fits.Take(1);
            foreach (string id in of) Apply(one, kind, id);
        }
    }

    private static double LengthS(Fault fault) => fault.Name switch
    {
        "power-cut" => (fault.Rate ?? FaultCatalogue.Find(fault.Name)!.Usual) * 3600,
        "sludge-drained" => DrawnWithinS,
        _ => double.PositiveInfinity,
    };

    private void Apply(PlannedFault planned, FaultKind kind, string id)
    {
        double rate = planned.Fault.Rate ?? kind.Usual;
        var falls = new Course(1, planned.AtS, -rate / DayS, 0, 1);
        switch (kind.Part)
        {
            case FaultPart.Pump or FaultPart.SwitchedPump or FaultPart.CheckValve:
                OfPump(planned, id, rate, falls);
                break;
            case FaultPart.Vessel or FaultPart.Drain or FaultPart.Siphon:
                OfVessel(planned, id, rate, falls);
                break;
            case FaultPart.TopUp or FaultPart.Bleed:
                OfValve(planned.Fault.Name, id, rate, falls);
                break;
            case FaultPart.Channel:
                OfChannel(planned, Channels[_place.ChannelIndex(id)], rate);
                break;
            default:
                OfEquipment(planned.Fault.Name, id, falls);
                break;
        }
    }

    private void OfPump(PlannedFault planned, string id, double rate, Course falls)
    {
        int i = _place.Hydraulics!.Pumps.ToList().FindIndex(p => p.Id == id);
        var (pump, told) = (_loop.Pumps[i], _place.Hydraulics.Pumps[i]);
        switch (planned.Fault.Name)
        {
            case "pump-weakening":
                pump.Strength = falls;
                break;
            case "pump-stopped":
                pump.Stalls = true;
                break;
            case "pump-dry":
                pump.IsDry = true;
                break;
            case "pump-stuck-on":
                pump.Switch = SwitchHold.On;
                break;
            case "pump-stuck-off":
                pump.Switch = SwitchHold.Off;
                break;
            case "pump-short-cycling":
                pump.OnShiftM = new(-(1 - rate) * (told.OnM!.Value - told.OffM!.Value));
                break;
            case "switch-shifted":
                pump.OnShiftM = new(Math.Max(rate / 1000, -0.9 * (told.OnM!.Value - told.OffM!.Value)));
                break;
            case "switch-drifting":
                pump.OnShiftM = pump.OffShiftM = new(0, planned.AtS, rate / 1000 / DayS);
                break;
            case "check-valve-leaking":
                pump.CheckLeak = rate;
                break;
            case "valve-moved":
                pump.EndShare[0] = rate;
                break;
            case "pump-left-off":
                pump.IsUnplugged = true;
                OfEquipment(planned.Fault.Name, id, falls);
                break;
        }
    }

    private void OfVessel(PlannedFault planned, string id, double rate, Course falls)
    {
        int i = _place.Hydraulics!.IndexOf(id);
        var vessel = _loop.Vessels[i];
        switch (planned.Fault.Name)
        {
            case "drain-fouling" or "screen-blocking":
                vessel.OutletOpen = falls;
                break;
            case "leak":
                double height = planned.Fault.HeightM ?? 0, head = _usualLevelM[i] - height;
                vessel.Holes.Add(new(height, rate / 3.6e6 / Math.Sqrt(head > 0.01 ? head : 0.05)));
                break;
            case "siphon-stuck":
                vessel.Siphon = SiphonHold.NeverTrips;
                break;
            case "siphon-dribbling":
                vessel.SeepShare = rate;
                break;
            case "siphon-not-breaking":
                vessel.Siphon = SiphonHold.NeverBreaks;
                break;
            case "sludge-drained":
                vessel.DrawnM3PerS += rate / 1000 / DrawnWithinS;
                break;
            case "hose-left-running":
                vessel.HoseM3PerS += rate / 60_000;
                break;
        }
    }

    private void OfValve(string name, string id, double rate, Course falls)
    {
        var valve = _loop.Valves[_place.Hydraulics!.Valves.ToList().FindIndex(v => v.Id == id)];
        switch (name)
        {
            case "top-up-stuck-open" or "bleed-stuck-open":
                valve.SticksOpen = true;
                break;
            case "top-up-stuck-shut":
                valve.SticksShut = true;
                break;
            case "top-up-weeping":
                valve.WeepM3PerS = rate / 3.6e6;
                break;
            case "top-up-slowing":
                valve.Rate = falls;
                break;
            case "top-up-without-effect":
                valve.SupplyIsEmpty = true;
                break;
        }
    }

    private static void OfChannel(PlannedFault planned, ChannelCondition channel, double rate)
    {
        switch (planned.Fault.Name)
        {
            case "sensor-silent":
                channel.IsSilent = true;
                break;
            case "sensor-frozen":
                channel.IsFrozen = true;
                break;
            case "sensor-jumping":
                channel.JumpShare = rate;
                break;
            case "sensor-drifting":
                channel.DriftShare = new(0, planned.AtS, rate / DayS);
                break;
            case "sensor-noisy":
                channel.NoiseFactor = rate;
                break;
        }
    }

    private void OfEquipment(string name, string id, Course falls)
    {
        int i = _place.Equipment.ToList().FindIndex(e => e.Id == id);
        var equipment = Equipment[i];
        switch (name)
        {
            case "air-failing":
                equipment.Strength = falls;
                break;
            case "air-failed":
                equipment.Stands = true;
                break;
            case "pump-left-off":
                equipment.IsUnplugged = true;
                break;
            case "power-cut":
                equipment.HasPower = false;
                var water = _place.Hydraulics!;
                for (int p = 0; p < water.Pumps.Count; p++) _loop.Pumps[p].HasPower &= water.Pumps[p].Id != id;
                for (int v = 0; v < water.Valves.Count; v++) _loop.Valves[v].HasPower &= water.Valves[v].Id != id || _place.Equipment[i].Kind == EquipmentKind.FloatValve;
                break;
        }
    }
}
