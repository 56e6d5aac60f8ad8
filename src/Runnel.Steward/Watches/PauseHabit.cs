using NodaTime;
using Runnel.Steward.Signals;

namespace Runnel.Steward.Watches;

/// <summary>When, and for how long, an always running pump is stopped on purpose: a weekly pause, say.</summary>
internal sealed class PauseHabit
{
    /// <summary>Before a week has shown the pauses, one may last this long.</summary>
    private static readonly Duration Unlearnt = Duration.FromMinutes(25);
    private static readonly Duration Unwonted = Duration.FromMinutes(10);
    private readonly List<Run> _pauses = [];
    private int _taken;

    /// <summary>Takes the pump's rests; those that a notice was about are no habit.</summary>
    public void Learn(RunTrace pump, bool spoken)
    {
        for (; _taken < pump.Rests.Count; _taken++)
        {
            if (!spoken && pump.Rests[_taken].Seconds is > 20 and < 7200) _pauses.Add(pump.Rests[_taken]);
        }
    }

    /// <summary>How long a stop that began then may last.</summary>
    public Duration Limit(LoopState state, Instant since)
    {
        if (_pauses.Count == 0 && since - state.Began < Duration.FromDays(8)) return Unlearnt;
        double longest = 0;
        foreach (var pause in _pauses)
        {
            double weeks = (since - pause.Start).TotalDays / 7;
            double offHours = Math.Abs(weeks - Math.Round(weeks)) * 168;
            double offDayHours = Math.Abs((since - pause.Start).TotalDays - Math.Round((since - pause.Start).TotalDays)) * 24;
            if (offHours < 1.5 || (_pauses.Count >= 4 && offDayHours < 1)) longest = Math.Max(longest, pause.Seconds);
        }

        return longest > 0 ? Duration.FromSeconds((1.4 * longest) + 120) : Unwonted;
    }
}
