using Runnel.Place;
using Runnel.Place.Water;
using Runnel.Twin.Invented;
using Runnel.Twin.Water;

namespace Runnel.Twin.Ensembles;

/// <summary>How far what a place file tells may be off, as standard deviations; members of an ensemble are drawn from it.</summary>
/// <param name="Volumes">Of each vessel's water at a level, as a share: footprints and shapes by tape measure. Common practice.</param>
/// <param name="PumpFlow">Of a pump's flow at a head, as a share; half of the tolerance of +-8 % in ISO 9906 (2012) grade 2B, from memory.</param>
/// <param name="PumpHead">Of its head, as a share; half of +-5 %, as above.</param>
/// <param name="Fittings">Of the losses in fittings and entrances, as a share: tables of K differ by as much. Common practice.</param>
/// <param name="ValveRate">Of a valve's flow, as a share: timed with a bucket. Common practice.</param>
/// <param name="PlantUse">Of what plants take, as a share: Allen and others (2011), Agricultural Water Management 98:899-920, have 10 to 20 % for crop coefficients with
/// good records; from memory.</param>
/// <param name="Evaporation">Of what open water gives to the air, as a share: McMahon and others (2013) have about 10 % for shallow open ponds; walls and shelter double it.</param>
/// <param name="Walls">Of the heat through walls, as a share. Common practice.</param>
/// <param name="WaterTempK">Of the water's temperature at the beginning, K, where it is not told. Common practice.</param>
public sealed record MemberSpread(
    double Volumes = 0.04, double PumpFlow = 0.04, double PumpHead = 0.025, double Fittings = 0.2, double ValveRate = 0.05, double PlantUse = 0.15, double Evaporation = 0.2,
    double Walls = 0.25, double WaterTempK = 1)
{
    /// <summary>A member: the place, and what is assumed of it, as they might be.</summary>
    internal (PlaceDescription Place, ForecastOptions Options) Draw(PlaceDescription place, ForecastOptions options, int seed, int member)
    {
        var random = new Seeded(seed, $"member {member}");
        double Factor(double spread) => Math.Exp((spread * Math.Clamp(random.Normal(), -3, 3)) - (spread * spread / 2));
        var water = place.Hydraulics!;
        WaterVessel[] vessels = [.. water.Vessels.Select(v => Vary(v, Factor(Volumes), Factor(Walls), Factor(Fittings)))];
        WaterPump[] pumps = [.. water.Pumps.Select(p => Vary(p, Factor(PumpFlow), Factor(PumpHead), Factor(Fittings)))];
        WaterValve[] valves = [.. water.Valves.Select(v => v with { RateLPerMin = v.RateLPerMin * Factor(ValveRate) })];
        var varied = place with { Hydraulics = water with { Vessels = vessels, Pumps = pumps, Valves = valves } };
        return (varied, options with
        {
            PlantUseFactor = options.PlantUseFactor * Factor(PlantUse),
            EvaporationFactor = options.EvaporationFactor * Factor(Evaporation),
            EvaporationMmPerDay = options.EvaporationMmPerDay * Factor(Evaporation),
            WaterTempC = options.WaterTempC,
            WaterTempOffK = WaterTempK * random.Normal(),
        });
    }

    private static WaterVessel Vary(WaterVessel vessel, double volume, double walls, double fittings)
    {
        double[] levels = [.. vessel.Shape.Levels];
        var shape = new LevelVolume(levels, [.. levels.Select(l => vessel.Shape.VolumeM3(l) * volume)]);
        var thermal = vessel.Thermal with { WallWPerM2K = (vessel.Thermal.WallWPerM2K ?? ThermalVessel.UsualWallWPerM2K) * walls };
        return vessel with { Shape = shape, Thermal = thermal, Outlet = vessel.Outlet is { Drain: { } drain } outlet ? outlet with { Drain = drain with { MinorK = drain.MinorK * fittings } } : vessel.Outlet };
    }

    private static WaterPump Vary(WaterPump pump, double flow, double head, double fittings) => pump with
    {
        Curve = [.. pump.Curve.Select(p => new PumpPoint(p.FlowLPerMin * flow, p.HeadM * head))],
        SteadyLPerMin = pump.SteadyLPerMin * flow,
        Main = pump.Main is { } main ? main with { MinorK = main.MinorK * fittings } : null,
    };
}
