using Runnel.Place;
using Runnel.Place.Water;
using Runnel.Science.Pipes;

namespace Runnel.Twin.Water;

/// <summary>Makes the equations of a place's water from what its file tells.</summary>
internal sealed class LoopBuilder(Hydraulics water, double totalOpenM2, double canopyM2, ForecastOptions options)
{
    public static LoopBuilder For(PlaceDescription place, ForecastOptions options)
    {
        var water = place.Hydraulics ?? throw new ArgumentException("the place does not tell how its water moves", nameof(place));
        return new(water, OpenM2(place.Loop, water), place.Loop.CanopyM2 ?? 0, options);
    }

    public WaterLoop Build()
    {
        WaterLoop.Vessel[] vessels = [.. water.Vessels.Select(VesselOf)];
        return new(vessels, [.. water.Pumps.Select(PumpOf)], [.. water.Valves.Select(ValveOf)]);
    }

    /// <summary>Vessels as told, else full to their outlets; a pump's own vessel well above the level at which it starts, as in a loop that is full and stood still.</summary>
    public double[] Start(WaterLoop loop)
    {
        double[] state = new double[loop.Count];
        for (int i = 0; i < water.Vessels.Count; i++)
        {
            var vessel = water.Vessels[i];
            var pump = water.Pumps.FirstOrDefault(p => p.From == vessel.Id && p.OnM is not null);
            double level = vessel.StartM ?? (pump is not null ? pump.OnM!.Value + (((vessel.RimM ?? (2 * pump.OnM.Value)) - pump.OnM.Value) / 3) : vessel.Outlet is { } outlet ? outlet.HeightM : (vessel.RimM ?? 0.5) / 2);
            state[i] = vessel.Shape.VolumeM3(level);
        }

        loop.Switches.Begin(state);
        return state;
    }

    /// <summary>Water surface of the whole loop that can evaporate, m2.</summary>
    public static double OpenM2(LoopTotals loop, Hydraulics water) => loop.OpenWaterM2 ?? water.Vessels.Sum(OpenM2);

    /// <summary>Each vessel's share of the open water; they add up to 1 where there is any.</summary>
    public static double[] OpenShares(Hydraulics water)
    {
        double all = water.Vessels.Sum(OpenM2);
        return [.. water.Vessels.Select(v => all > 0 ? OpenM2(v) / all : 0)];
    }

    /// <summary>Water surface of each vessel that can evaporate, m2; they add up to the loop's.</summary>
    public static double[] OpenM2OfEach(LoopTotals loop, Hydraulics water)
    {
        double whole = OpenM2(loop, water);
        return [.. OpenShares(water).Select(share => whole * share)];
    }

    // Rain tanks are covered.
    private static double OpenM2(WaterVessel vessel) => vessel.OpenM2 ?? (vessel.Kind == VesselKind.RainTank ? 0 : vessel.Shape.AreaM2(vessel.RimM ?? 0));

    private WaterLoop.Vessel VesselOf(WaterVessel vessel)
    {
        double mm = options.EvaporationMmPerDay / 1000 / 86_400, all = water.Vessels.Sum(OpenM2), share = all > 0 ? OpenM2(vessel) / all : 0;
        double floor = vessel.FloorM ?? 0;
        return new(
            vessel.Id, vessel.Shape, floor, vessel.RimM ?? double.PositiveInfinity, water.IndexOf(vessel.SpillsTo),
            // All round a vessel of that footprint; its form is not known, and the level over the rim hardly depends on it.
            2 * Math.Sqrt(Math.PI * vessel.Shape.AreaM2(vessel.RimM ?? 0)), vessel.Outlet is { } outlet ? new OutletLaw(outlet, floor) : null,
            vessel.Outlet is { } to ? water.IndexOf(to.To) : WaterLoop.Outside, vessel.Outlet?.Kind == OutletKind.Siphon, vessel.Outlet?.TripM ?? 0, vessel.Outlet?.BreakM ?? 0,
            mm * (totalOpenM2 + canopyM2) * share, options.RainMmPerDay / 1000 / 86_400 * totalOpenM2 * share);
    }

    private WaterLoop.Pump PumpOf(WaterPump pump)
    {
        var from = water.Vessels[water.IndexOf(pump.From)];
        double floor = from.FloorM ?? 0, end = pump.Ends.Max(e => e.EndM ?? floor);
        var line = pump.Main ?? pump.Ends[0].Branch;
        return new(
            pump.Id, water.IndexOf(pump.From), new PumpLaw(pump, floor, from.RimM ?? 2), [.. pump.Ends.Select(e => water.IndexOf(e.To))],
            [.. pump.Ends.Select(e => e.EndM ?? double.PositiveInfinity)], pump.OnM ?? 0, pump.OffM ?? 0, pump.OnM is not null, pump.HasCheckValve,
            // Backwards through the standing pump: as much as two open swing checks.
            line is null ? null : OutletLaw.Table(line with { MinorK = line.MinorK + (2 * MinorLoss.Of("swing-check-valve-open")!.Value) }, 10), end - floor);
    }

    private WaterLoop.Valve ValveOf(WaterValve valve)
    {
        int of = water.IndexOf(valve.Of), fillOf = valve.AfterFillS > 0 ? water.Pumps.ToList().FindIndex(p => p.From == valve.Of && p.OnM is not null) : -1;
        return new(
            valve.Id, of, water.IndexOf(valve.From), water.IndexOf(valve.To), valve.RateLPerMin / 60_000, valve.OpensM, valve.ShutsM, valve.EveryS, valve.RunS, fillOf,
            valve.AfterFillS, valve.RateAtM);
    }
}
