using NodaTime;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>A channel whose zero creeps: what ought to be the same every day (the sun at night, the levels at which a switch acts) moves a
/// little further each day. Other channels have nothing to be held against, and nothing is said of them.</summary>
internal sealed class SensorDriftingWatch : IWatch
{
    /// <summary>The sun's last light is over (civil twilight lasts half an hour and more).</summary>
    private static readonly Duration Dusk = Duration.FromMinutes(75);
    private DailyMarks?[]? _marks;
    private Instant _dayEnds;

    public void Hear(LoopState state, in Reading reading)
    {
        _marks ??= [.. state.Place.Channels.Select((c, i) => DailyMarks.Of(state, c, i))];
        if (_marks[reading.Channel] is not { } marks || state.Working) return;
        if (marks.NightOnly && (state.Balance.IsDay(reading.Time - Dusk) || state.Balance.IsDay(reading.Time + Dusk))) return;
        marks.Take(reading.Value);
    }

    public void Look(LoopState state, NoticeBook notices)
    {
        if (_marks is null) return;
        if (_dayEnds == default) _dayEnds = state.Began + Duration.FromDays(1);
        if (state.Now < _dayEnds) return;
        var began = _dayEnds - Duration.FromDays(1);
        _dayEnds += Duration.FromDays(1);
        for (int c = 0; c < _marks.Length; c++)
        {
            if (_marks[c] is not { } marks) continue;
            string id = state.Place.Channels[c].Id;
            bool doubted = notices.Stands(SensorKeys.Frozen(id)) || notices.Stands(SensorKeys.Jumping(id)) || notices.Stands(SensorKeys.Silent(id));
            marks.EndDay((_dayEnds - state.Began).TotalDays, keep: !doubted && !(state.Holds.Touch(began, state.Now) && !marks.NightOnly));
            Judge(state, notices, c, marks);
        }
    }

    private static void Judge(LoopState state, NoticeBook notices, int channel, DailyMarks marks)
    {
        string key = SensorKeys.Drifting(state.Place.Channels[channel].Id);
        if (notices.Stands(key))
        {
            if (marks.Low.IsBack()) notices.Clear(key, state.Now);
            return;
        }

        if (!marks.Creeps()) return;
        double departure = marks.Low.Departure, perDay = marks.Low.SlopePerDay;
        string what = marks.NightOnly ? "by night, when there is no sun" : "at the levels where the pump's switch acts";
        notices.Raise(key, new Notice
        {
            Causes = marks.NightOnly
                ? [new Cause(CauseNames.SensorDrifting, 0.95)]
                : [new Cause(CauseNames.SensorDrifting, 0.75), new Cause(CauseNames.LoopChanged, 0.2)],
            Urgency = Urgency.Soon,
            Since = state.Now - Duration.FromDays(Math.Clamp(departure / perDay, 1, 40)),
            FirstNoticed = state.Now,
            Evidence = Figures.Text($"Channel {SensorWords.Name(state, channel)} shows {SensorWords.Value(state, channel, marks.Low.Habit + departure)} {what}, where {SensorWords.Value(state, channel, marks.Low.Habit)} was its habit; it creeps by {SensorWords.Value(state, channel, Math.Abs(perDay))} a day."),
            FirstAct = marks.NightOnly
                ? "Clean the sensor and cover it for a minute: it should show nothing. If it does not, correct its offset in the place file."
                : "Hold a rule into the sump and compare it with the sensor. If the sensor is right, the switch has slipped on its rod.",
        });
    }
}
