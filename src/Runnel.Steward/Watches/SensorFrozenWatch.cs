using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>A channel that goes on sending one and the same value far longer than it ever did.</summary>
internal sealed class SensorFrozenWatch(PlaceDescription place) : IWatch
{
    private readonly EqualStreak?[] _streaks = [.. place.Channels.Select(c => Moves(c.Measures) ? new EqualStreak(c.Measures, place.Zone) : null)];

    public void Hear(LoopState state, in Reading reading) => _streaks[reading.Channel]?.Take(reading.Time, reading.Value, state.ObservedSince);

    public void Look(LoopState state, NoticeBook notices)
    {
        for (int c = 0; c < _streaks.Length; c++)
        {
            if (_streaks[c] is not { } streak) continue;
            string key = SensorKeys.Frozen(place.Channels[c].Id);
            if (notices.Stands(key))
            {
                if (streak.Count < 3) notices.Clear(key, state.Now);
                continue;
            }

            if (state.Working || !streak.IsFrozen) continue;
            notices.Raise(key, new Notice
            {
                Causes = CauseSet.Only(CauseNames.SensorFrozen, 0.93),
                Urgency = SensorWords.UrgencyOf(state, c),
                Since = streak.Start,
                FirstNoticed = state.Now,
                Evidence = Figures.Text($"Channel {SensorWords.Name(state, c)} has sent {SensorWords.Value(state, c, streak.Value)} {streak.Count} times in a row, for {Figures.Span(streak.Length)}; until now it never kept one value for more than {Figures.Span(streak.LongestS)}."),
                FirstAct = "Compare the sensor with a second instrument, then take its power away for a moment and see whether the value moves.",
            });
        }
    }

    private static bool Moves(Quantity measures) =>
        measures is Quantity.AirTemperature or Quantity.WaterTemperature or Quantity.RelativeHumidity or Quantity.SolarIrradiance
            or Quantity.WindSpeed or Quantity.AirPressure or Quantity.Level or Quantity.Power or Quantity.Current or Quantity.Flow
            or Quantity.DissolvedOxygen or Quantity.OxygenSaturation or Quantity.Ph or Quantity.Conductivity;
}
