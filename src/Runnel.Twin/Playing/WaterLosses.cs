using Runnel.Place;
using Runnel.Twin.Invented;
using Runnel.Twin.Water;
using Runnel.Twin.Weather;

namespace Runnel.Twin.Playing;

/// <summary>What weather takes from each vessel of a played place and brings to it, and how warm the water is.</summary>
/// <remarks>
/// Open water by a Dalton law on the water's own temperature; leaves by a big-leaf law whose stomata close by night and in dry air. The reading core reckons
/// with other relations on purpose: what plays a world must not share its shortcuts.
/// </remarks>
internal sealed class WaterLosses
{
    // Water follows the air of the last day and the sun on it.
    private const double MemoryS = 86_400, SunKPerW = 0.012, StomataSPerM = 95;

    private readonly double[] _openShare;
    private readonly double _openM2, _canopyM2, _catchM2;

    public WaterLosses(PlaceDescription place, double startC)
    {
        var water = place.Hydraulics!;
        _openM2 = LoopBuilder.OpenM2(place.Loop, water);
        _canopyM2 = place.Loop.CanopyM2 ?? 0;
        _catchM2 = place.Loop.RainCatchM2 ?? _openM2;
        _openShare = LoopBuilder.OpenShares(water);
        WaterC = startC;
    }

    /// <summary>Water temperature of the loop, °C.</summary>
    public double WaterC { get; private set; }

    /// <summary>Sets what comes and goes while a step of weather lasts.</summary>
    public void Set(WeatherStep weather, double stepS, LoopCondition loop)
    {
        double airC = weather.AirTempC, rh = weather.RelHumidity * 100;
        WaterC = Math.Max(0.2, WaterC + ((airC + (SunKPerW * weather.SunWPerM2) - WaterC) * (1 - Math.Exp(-stepS / MemoryS))));
        double open = WaterLoss.OpenWaterMmPerS(WaterC, airC, rh, weather.WindAt2MMPerS), leaves = WaterLoss.LeafMmPerS(airC, rh, weather.SunWPerM2, weather.WindAt2MMPerS, StomataSPerM);
        double lossM3PerS = ((open * _openM2) + (leaves * _canopyM2)) / 1000, rainM3PerS = weather.RainMm / 1000 / stepS * _catchM2;
        for (int i = 0; i < _openShare.Length; i++)
        {
            loop.Vessels[i].LossM3PerS = lossM3PerS * _openShare[i];
            loop.Vessels[i].RainM3PerS = rainM3PerS * _openShare[i];
        }
    }
}
