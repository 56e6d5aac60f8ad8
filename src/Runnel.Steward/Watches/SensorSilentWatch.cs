using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>A channel that has stopped speaking while the others go on.</summary>
internal sealed class SensorSilentWatch(PlaceDescription place) : IWatch
{
    private static readonly Duration Least = Duration.FromHours(2);
    private readonly Duration[] _longest = new Duration[place.Channels.Count];
    private readonly Instant[] _last = new Instant[place.Channels.Count];

    public void Hear(LoopState state, in Reading reading)
    {
        int c = reading.Channel;
        if (state.Channels[c].Count > 1 && _last[c] >= state.ObservedSince) _longest[c] = Duration.Max(_longest[c], reading.Time - _last[c]);
        _last[c] = reading.Time;
    }

    public void Look(LoopState state, NoticeBook notices)
    {
        if (state.Silent) return;
        for (int c = 0; c < place.Channels.Count; c++)
        {
            var trace = state.Channels[c];
            if (!Speaks(place.Channels[c].Measures) || trace.Count < 50 || trace.UsualIntervalS is not { } usual) continue;
            string key = SensorKeys.Silent(place.Channels[c].Id);
            var from = Instant.Max(trace.LastTime, state.ObservedSince);
            if (notices.Stands(key))
            {
                if (state.Now - trace.LastTime < Duration.FromSeconds(3 * usual)) notices.Clear(key, state.Now);
                continue;
            }

            var limit = trace.Regular
                ? Duration.Max(Least, Duration.FromSeconds(6 * usual))
                : Duration.Max(Duration.FromHours(12), _longest[c] * 3);
            var lasted = state.LastReading - from;
            if (lasted < limit || state.Working || !OthersSpeak(state, c)) continue;
            notices.Raise(key, new Notice
            {
                Causes = CauseSet.Only(CauseNames.SensorSilent, 0.95),
                Urgency = SensorWords.UrgencyOf(state, c),
                Since = trace.LastTime,
                FirstNoticed = state.Now,
                Evidence = Figures.Text($"Channel {SensorWords.Name(state, c)} has sent nothing for {Figures.Span(state.Now - trace.LastTime)}, where a reading every {Figures.Span(usual)} is usual; the other channels go on."),
                FirstAct = "Look at the sensor's battery, plug and cable, and at the program that collects its readings.",
            });
        }
    }

    /// <summary>What falls silent by itself (a dry rain gauge, a shut valve) cannot be missed.</summary>
    private static bool Speaks(Quantity measures) =>
        measures is not (Quantity.Running or Quantity.Rain or Quantity.RainTotal or Quantity.Volume or Quantity.VolumeTotal or Quantity.Count
            or Quantity.Tan or Quantity.Nitrite or Quantity.Nitrate or Quantity.Weight);

    private static bool OthersSpeak(LoopState state, int silent)
    {
        for (int c = 0; c < state.Channels.Length; c++)
        {
            var trace = state.Channels[c];
            if (c != silent && trace.Any && state.Now - trace.LastTime < Duration.FromSeconds(Math.Max(1200, 3 * (trace.UsualIntervalS ?? 0)))
                && trace.LastTime - state.Channels[silent].LastTime > Duration.FromHours(1.5))
            {
                return true;
            }
        }

        return false;
    }
}
