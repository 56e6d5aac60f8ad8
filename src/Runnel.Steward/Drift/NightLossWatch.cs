using System.Globalization;
using NodaTime;
using Runnel.Place.Findings;
using Runnel.Science.Statistics;
using Runnel.Steward.Notices;
using Runnel.Steward.Store;

namespace Runnel.Steward.Drift;

/// <summary>Each night's loss against the nights before: a leak that runs only by night (a joint under the night's pressure, a valve on
/// a timer) drowns in the day's balance but stands out here.</summary>
internal sealed class NightLossWatch : IWatch
{
    /// <summary>Key under which its notice stands.</summary>
    public const string Key = "night-loss";
    private const double NightZ = 4.5, LeastLPerH = 0.8;
    private readonly List<(Instant Start, Instant End, double LPerH)> _nights = [];
    private int _next;
    private bool _told;

    public void Look(LoopState state, NoticeBook notices)
    {
        if (!state.OnTheHour || !state.Balance.Gauge.Known) return;
        int closed = state.Balance.HourCount - 1;
        while (_next < closed)
        {
            if (state.Balance.IsDay(_next))
            {
                _next++;
                continue;
            }

            int end = _next;
            while (end < closed && !state.Balance.IsDay(end)) end++;
            if (end >= closed) return;
            Take(state, notices, _next, end - 1);
            _next = end;
        }
    }

    private void Take(LoopState state, NoticeBook notices, int first, int last)
    {
        int length = last - first + 1;
        if (length < 5) return;
        var (litres, counts) = state.Balance.Unexplained(first, last);
        double rate = -HourSeries.Slope(litres, counts, 0, length);
        double rain = 0, pulses = 0;
        for (int hour = first; hour <= last; hour++)
        {
            rain += state.Balance.RainL(hour);
            pulses += state.Hours.Hours[hour].TopUpL + state.Hours.Hours[hour].BleedL;
        }

        // Loss that is one drop is a draw, not a leak; rain and much known water blur the night.
        if (double.IsNaN(rate) || rain > 3 || pulses * state.Balance.Gauge.RelativeSpread > 3) return;
        var start = state.Balance.Start(first);
        var end = state.Balance.Start(last) + Duration.FromHours(1);
        var past = _nights.Where(n => !state.LearningHeld(n.Start, n.End)).Take(Math.Max(0, _nights.Count - 2)).Select(n => n.LPerH).Order()
            .ToList();
        _nights.Add((start, end, rate));
        if (past.Count < 8 || state.LearningHeld(start, end)) return;
        double median = past[past.Count / 2];
        double spread = Math.Max(0.12, Robust.MadToSd * past.Select(p => Math.Abs(p - median)).Order().ElementAt(past.Count / 2));
        bool Odd((Instant Start, Instant End, double LPerH) n) =>
            n.LPerH - median > Math.Max(NightZ * spread, LeastLPerH) && !OneDrop(state, n.Start, n.End);
        var before = _nights.Count > 1 ? _nights[^2] : default;
        bool two = Odd(_nights[^1]) && _nights.Count > 1 && start - before.Start < Duration.FromHours(30) && Odd(before);
        if (!two)
        {
            if (_told && !Odd(_nights[^1]))
            {
                notices.Clear(Key, end);
                state.Holds.Release(Key, end);
                _told = false;
            }

            return;
        }

        if (notices.Stands("loss") || notices.Stands(Key)) return;
        double extra = ((_nights[^1].LPerH + before.LPerH) / 2) - median;
        _told = true;
        state.Holds.Begin(Key, before.Start);
        notices.Raise(Key, new Notice
        {
            Causes = [new Cause(CauseNames.Leak, 0.85), new Cause(CauseNames.LoopChanged, 0.08)],
            Urgency = Urgency.Today,
            Since = before.Start,
            FirstNoticed = state.Now,
            Evidence = string.Create(CultureInfo.InvariantCulture,
                $"The last two nights the loop lost {extra:0.0} L/h (± {1.645 * spread:0.0}) more than on nights before, when sun and plants take next to nothing."),
            FirstAct = "Look after dark for what runs only then: a valve on a timer, a joint that weeps when the pump runs longest, an outlet left open.",
        });
    }

    private static bool OneDrop(LoopState state, Instant start, Instant end)
    {
        int first = state.Hours.IndexOf(start), last = state.Hours.IndexOf(end) - 1;
        var (litres, counts) = state.Balance.Unexplained(first, last);
        double total = -HourSeries.Slope(litres, counts, 0, litres.Length) * (litres.Length - 1);
        return total - HourSeries.Steepest(litres, counts, reach: 1, sign: +1, scatter: 0) < 0.4 * total;
    }
}
