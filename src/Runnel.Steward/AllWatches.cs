using Runnel.Place;
using Runnel.Steward.Drift;
using Runnel.Steward.Notices;
using Runnel.Steward.Watches;

namespace Runnel.Steward;

/// <summary>The watches of a place, in the order in which they look: plain causes first, so that the finer ones can hold back.</summary>
internal static class AllWatches
{
    public static IReadOnlyList<IWatch> For(PlaceDescription place)
    {
        var responses = new ResponseWatch();
        var topUps = new TopUpEffectWatch();
        return
        [
            new ValveOpenWatch(topUp: true),
            new ValveOpenWatch(topUp: false),
            new AlwaysOnPumpWatch(),
            new PumpPowerWatch(),
            new PumpSwitchWatch(),
            new ShortCyclingWatch(),
            topUps,
            new TankLevelWatch(place),
            new WaterTemperatureWatch(),
            new SensorSilentWatch(place),
            new SensorFrozenWatch(place),
            new SensorJumpingWatch(place),
            new SensorDriftingWatch(),
            new SiphonWatch(),
            responses,
            new RunCurveWatch(responses),
            new DrawWatch(responses),
            new LeakWatch(responses, topUps),
            new NightLossWatch(),
        ];
    }
}
