using NodaTime;
using Runnel.Place.Findings;
using Runnel.Steward.Notices;

namespace Runnel.Steward.Watches;

/// <summary>The pump starts far oftener than the loop calls for: the switch's band has collapsed, or its relay chatters.</summary>
/// <remarks>1/fill + 1/run is pump flow over band: rain, drought and fouling leave it alone, and a switch moved by a tenth moves it by a
/// tenth. So a cycle counts as short where this rate is well above the learnt one, and single ones are the logger's glitches.</remarks>
internal sealed class ShortCyclingWatch : IWatch
{
    public const string Key = "short-cycling";
    private const int LearnLeast = 40;
    private const int LearnMost = 400;
    private const int TeachEvery = 20;

    /// <summary>A cycle is short from here on: 1.7 leaves room for a new pump and for a switch shifted by a fifth.</summary>
    private const double ShortFrom = 1.7;
    private const double Wildest = 4;
    private static readonly Duration Window = Duration.FromMinutes(60);
    private static readonly Duration Longer = Duration.FromHours(3);
    private static readonly Duration Memory = Duration.FromDays(7);

    private readonly List<double> _rates = [];
    private readonly List<(Instant Start, bool Short)> _last = [];
    private readonly Queue<(Instant Time, double Rate)> _waiting = new();
    private static readonly Duration Calm = Duration.FromHours(12);
    private Instant? _calmSince;
    private int _taken;
    private int _untaught;
    private int _entries;
    private double _usualRate;
    private double _shortFrom = ShortFrom;
    private double _usualCycleS;

    public void Look(LoopState state, NoticeBook notices)
    {
        TakeCycles(state);
        var hour = state.Now - Duration.Max(Window, Duration.FromSeconds(3 * _usualCycleS));
        int old = 0;
        while (old < _last.Count && _last[old].Start < state.Now - Memory) old++;
        _last.RemoveRange(0, old);
        var lately = Since(hour);
        int shorts = lately.Count(c => c.Short);
        if (notices.Stands(Key))
        {
            bool calm = lately.Count >= 2 && shorts <= 1 && !notices.Stands(PumpSwitchWatch.Key);
            _calmSince = calm ? _calmSince ?? state.Now : null;
            if (state.Now - _calmSince > Calm) notices.ClearAndRelease(state, Key);
            return;
        }

        if (_usualRate == 0 || shorts < 3 || state.Working || notices.Stands(PumpSwitchWatch.Key)) return;
        int inARow = lately.AsEnumerable().Reverse().TakeWhile(c => c.Short).Count();
        var since = lately.First(c => c.Short).Start;
        bool collapsed = inARow >= (_usualCycleS > 1200 ? 3 : 5) && state.Now - since >= Duration.FromMinutes(10) && LastSpreadS(lately, inARow) >= 600;
        if (!collapsed && !Chatters(lately, state.Now)) return;
        _calmSince = null;
        double starts = shorts * 3600 / Math.Max(1800, (state.Now - since).TotalSeconds);
        notices.RaiseAndHold(state, Key, new Notice
        {
            Causes = CauseSet.Only(CauseNames.PumpShortCycling, 0.9),
            Urgency = Urgency.Today,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = collapsed
                ? Figures.Text($"The pump has made {inARow} short cycles in a row, about {starts:0} an hour where {3600 / _usualCycleS:0.#} an hour are usual; fills and runs are both short, so it is the switch and not the water.")
                : Figures.Text($"The pump's switch goes on and off again at once: {shorts} such flickers in {Figures.Span(state.Now - since)}, at more than one change."),
            FirstAct = "Look at the pump's float or level switch: is it caught, its cord short, or its relay buzzing? Switch the pump off at the wall before you reach in.",
        });
    }

    /// <summary>The cycles since a time, oldest first; looked up from the newest, since this is asked every few minutes.</summary>
    private List<(Instant Start, bool Short)> Since(Instant from)
    {
        int first = _last.Count;
        while (first > 0 && _last[first - 1].Start >= from) first--;
        return _last.GetRange(first, _last.Count - first);
    }

    private static double LastSpreadS(List<(Instant Start, bool Short)> cycles, int last) => (cycles[^1].Start - cycles[^last].Start).TotalSeconds;

    /// <summary>Chatter at one change makes a burst; only when it comes back at others is it a fault. A logger that samples sees few of
    /// them: then it takes longer, and a log that never flickered before.</summary>
    private bool Chatters(List<(Instant Start, bool Short)> lately, Instant now)
    {
        if (Bursts(lately) is { Flickers: >= 6, Count: >= 3, SpreadS: >= 600 } && lately.Count(c => c.Short) >= 0.4 * lately.Count) return true;
        var three = Since(now - Longer);
        if (_last[0].Start > now - Duration.FromDays(3)) return false;
        double before = _last.Count(c => c.Short && c.Start < now - Longer) / Math.Max(1, (now - Longer - _last[0].Start) / Longer);
        return before < 0.5 && Bursts(three) is { Flickers: >= 5, Count: >= 4 };
    }

    private (int Flickers, int Count, double SpreadS) Bursts(List<(Instant Start, bool Short)> cycles)
    {
        var times = cycles.Where(c => c.Short).Select(c => c.Start).ToList();
        if (times.Count == 0) return (0, 0, 0);
        int count = 1;
        for (int i = 1; i < times.Count; i++)
        {
            if ((times[i] - times[i - 1]).TotalSeconds > Math.Min(180, 0.25 * _usualCycleS)) count++;
        }

        return (times.Count, count, (times[^1] - times[0]).TotalSeconds);
    }

    private void TakeCycles(LoopState state)
    {
        if (state.Daybook.Count != _entries)
        {
            for (; _entries < state.Daybook.Count; _entries++)
            {
                if (state.Daybook[_entries].Entry != "relearn") continue;
                _rates.Clear();
                _waiting.Clear();
                _usualRate = 0;
            }
        }

        var cycles = state.Cycles.Cycles;
        for (; _taken < cycles.Count; _taken++)
        {
            var c = cycles[_taken];
            if (c.FillS <= 0 || c.RunS <= 0) continue;
            double rate = (1 / c.FillS) + (1 / c.RunS);
            bool isShort = _usualRate > 0 && rate > _shortFrom * _usualRate;
            _last.Add((c.FillStart, isShort));
            _waiting.Enqueue((c.RunEnd, rate));
        }

        // Six hours late, so that a fault does not teach itself; short ones never teach.
        while (_waiting.Count > 0 && (_rates.Count < LearnLeast || _waiting.Peek().Time < state.Now - Duration.FromHours(6)))
        {
            double rate = _waiting.Dequeue().Rate;
            if (_usualRate > 0 && (rate > Wildest * _usualRate || rate < _usualRate / Wildest)) continue;
            _rates.Add(rate);
            if (_rates.Count > LearnMost) _rates.RemoveAt(0);
            _untaught++;
        }

        if (_rates.Count < LearnLeast || (_usualRate > 0 && _untaught < TeachEvery)) return;
        _untaught = 0;
        _usualRate = Robust.Median(_rates);

        // A siphon's flush can shorten a fill by far: what happens every day is no fault.
        _shortFrom = Math.Clamp(1.3 * Robust.Quantile(_rates, 0.985) / _usualRate, ShortFrom, Wildest);
        _usualCycleS = CycleHabit.Of(cycles, cycles.Count, 100) is { } habit ? habit.FillS + habit.RunS : 4 / _usualRate;
    }
}
