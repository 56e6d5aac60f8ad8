using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>A channel whose values leap away and back, far beyond what it does in health.</summary>
internal sealed class SensorJumpingWatch(PlaceDescription place) : IWatch
{
    private readonly Leaps?[] _leaps = [.. place.Channels.Select(c => Leaps.FloorOf(c.Measures) is { } floor ? new Leaps(floor, c.Measures, place.Zone) : null)];

    public void Hear(LoopState state, in Reading reading) => _leaps[reading.Channel]?.Take(reading.Time, reading.Value);

    public void Look(LoopState state, NoticeBook notices)
    {
        for (int c = 0; c < _leaps.Length; c++)
        {
            if (_leaps[c] is not { } leaps) continue;
            string key = SensorKeys.Jumping(place.Channels[c].Id);
            int count = leaps.CountSince(state.Now - Leaps.Told);
            if (notices.Stands(key))
            {
                if (leaps.CountSince(state.Now - Duration.FromDays(1)) == 0) notices.Clear(key, state.Now);
                continue;
            }

            if (state.Working || state.Silent || !leaps.IsJumping(state.Now)) continue;
            notices.Raise(key, new Notice
            {
                Causes = CauseSet.Only(CauseNames.SensorJumping, 0.9),
                Urgency = SensorWords.UrgencyOf(state, c),
                Since = leaps.FirstSince(state.Now - Leaps.Told),
                FirstNoticed = state.Now,
                Evidence = Figures.Text($"Channel {SensorWords.Name(state, c)} has leapt away and back {count} times in {Figures.Span(state.Now - leaps.FirstSince(state.Now - Leaps.Told))}, by up to {SensorWords.Value(state, c, leaps.Largest)}; leaps up to {SensorWords.Value(state, c, leaps.Habit)} are its habit."),
                FirstAct = "Look at the sensor's plug and cable for a loose or wet contact.",
            });
        }
    }
}
