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

    /// <summary>A cycle is short from here on: 1.7 leaves room for a new pump and for a switch shifted by a fifth.</summary>
    private const double ShortFrom = 1.7;
    private static readonly Duration Window = Duration.FromMinutes(60);

    private readonly List<double> _rates = [];
    private readonly Queue<(Instant Start, bool Short)> _last = new();
    private readonly Queue<(Instant Time, double Rate)> _waiting = new();
    private static readonly Duration Calm = Duration.FromHours(12);
    private Instant? _calmSince;
    private int _taken;
    private int _entries;
    private double _usualRate;
    private double _usualCycleS;

    public void Look(LoopState state, NoticeBook notices)
    {
        TakeCycles(state);
        while (_last.Count > 0 && _last.Peek().Start < state.Now - Duration.Max(Window, Duration.FromSeconds(3 * _usualCycleS))) _last.Dequeue();
        int shorts = _last.Count(c => c.Short);
        if (notices.Stands(Key))
        {
            bool calm = _last.Count >= 2 && shorts <= 1 && !notices.Stands(PumpSwitchWatch.Key);
            _calmSince = calm ? _calmSince ?? state.Now : null;
            if (state.Now - _calmSince > Calm) notices.ClearAndRelease(state, Key);
            return;
        }

        if (_usualRate == 0 || shorts < 3 || state.Working || notices.Stands(PumpSwitchWatch.Key)) return;
        double usualStarts = 3600 / _usualCycleS;

        // Chatter at one start makes a burst; only when it comes back over half an hour is it a fault.
        var shortOnes = _last.Where(c => c.Short).Select(c => c.Start).ToList();
        double spreadS = (shortOnes[^1] - shortOnes[0]).TotalSeconds;
        int clusters = 1;
        for (int i = 1; i < shortOnes.Count; i++)
        {
            if ((shortOnes[i] - shortOnes[i - 1]).TotalSeconds > Math.Min(180, 0.25 * _usualCycleS)) clusters++;
        }

        int inARow = _last.Reverse().TakeWhile(c => c.Short).Count();
        bool collapsed = inARow >= (_usualCycleS > 1200 ? 3 : 5) && spreadS >= 600;
        bool chatter = shorts >= 7 && clusters >= 4 && spreadS >= 1200 && shorts >= 0.5 * _last.Count;
        if (!collapsed && !chatter) return;
        _calmSince = null;
        var since = shortOnes[0];
        double starts = shorts * 3600 / Math.Max(1800, (state.Now - since).TotalSeconds);
        notices.RaiseAndHold(state, Key, new Notice
        {
            Causes = CauseSet.Only(CauseNames.PumpShortCycling, 0.9),
            Urgency = Urgency.Today,
            Since = since,
            FirstNoticed = state.Now,
            Evidence = Figures.Text($"The pump has started {shorts} times in {Figures.Span(state.Now - since)}, about {starts:0} an hour where {usualStarts:0.#} an hour are usual; fills and runs are both short, so it is the switch and not the water."),
            FirstAct = "Look at the pump's float or level switch: is it caught, its cord short, or its relay buzzing? Switch the pump off at the wall before you reach in.",
        });
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
            bool isShort = _usualRate > 0 && rate > ShortFrom * _usualRate;
            _last.Enqueue((c.FillStart, isShort));
            _waiting.Enqueue((c.RunEnd, rate));
        }

        // Six hours late, so that a fault does not teach itself; short ones never teach.
        bool learnt = false;
        while (_waiting.Count > 0 && (_rates.Count < LearnLeast || _waiting.Peek().Time < state.Now - Duration.FromHours(6)))
        {
            double rate = _waiting.Dequeue().Rate;
            if (_usualRate > 0 && (rate > ShortFrom * _usualRate || rate < _usualRate / ShortFrom)) continue;
            _rates.Add(rate);
            if (_rates.Count > LearnMost) _rates.RemoveAt(0);
            learnt = true;
        }

        if (!learnt || _rates.Count < LearnLeast || (_usualRate > 0 && _rates.Count % 20 != 0)) return;
        _usualRate = Robust.Median(_rates);
        _usualCycleS = CycleHabit.Of(cycles, cycles.Count, 100) is { } habit ? habit.FillS + habit.RunS : 4 / _usualRate;
    }
}
