namespace Runnel.Twin.Invented;

/// <summary>A keeper's naive rule: top up when the last fills were slow, bleed when they were quick; or a timer; or by level.</summary>
internal sealed class Keeper
{
    private readonly KeeperSpec _habit;
    private readonly LoopSpec _loop;
    private readonly double[] _fills;
    private int _fillCount;
    private double _timerLPerDay;
    private long _lastCycle = -1;
    private long _free;

    public Keeper(KeeperSpec habit, LoopSpec loop)
    {
        _habit = habit;
        _loop = loop;
        _fills = new double[habit.LastFills];
        _timerLPerDay = habit.TimerStartLPerDay;
    }

    public enum Order { None, TopUp, Bleed }

    public void Filled(long at, double seconds)
    {
        _fills[_fillCount++ % _fills.Length] = seconds;
        _lastCycle = at;
    }

    private double MeanFill => _fills.Take(Math.Min(_fillCount, _fills.Length)).Average();

    /// <summary>What the rule orders at <paramref name="at"/>, and for how long. A fill still going on counts from <paramref name="fillingSince"/> (-1: none).</summary>
    public (Order Order, int Seconds) Check(long at, double localHour, double sumpLevelM, long fillingSince)
    {
        if (at < _free || (_habit.DaytimeOnly && localHour is < 7 or > 19)) return (Order.None, 0);
        bool slow, fast;
        if (_loop.Kind == LoopKind.AlwaysOn)
        {
            slow = sumpLevelM < _habit.SlowAbove;
            fast = sumpLevelM > _habit.FastBelow;
        }
        else
        {
            // A fill that will not end is a slow one too. A run that will not end tells this rule nothing: it waits.
            bool endless = fillingSince >= 0 && at - fillingSince > 1.6 * _habit.SlowAbove;
            if (_fillCount < _fills.Length || (!endless && at - _lastCycle > Math.Max(5400, 4 * _loop.TargetFillS))) return (Order.None, 0);
            slow = (endless || MeanFill > _habit.SlowAbove) && _habit.TimerHours.Length == 0;
            fast = !endless && MeanFill < _habit.FastBelow;
        }

        if (slow && _habit.HasTopUp) return Take(at, Order.TopUp, _habit.TopUpS);
        if (fast && _habit.HasBleed) return Take(at, Order.Bleed, _habit.BleedS);
        return (Order.None, 0);
    }

    /// <summary>Seconds that the timer opens the top-up this time.</summary>
    public int TimerSeconds() => (int)Math.Round(_timerLPerDay / _habit.TimerHours.Length / _loop.TopUpLPerS / 30) * 30;

    /// <summary>Every few days the keeper looks at the fills and at the mark in the first tank, and turns the timer up or down.</summary>
    public void ReviewTimer(double aboveMarkM)
    {
        if (_fillCount == 0) return;
        double off = Math.Clamp((MeanFill / _loop.TargetFillS) - 1 - (6 * aboveMarkM), -0.5, 0.8);
        if (Math.Abs(off) < 0.04) return;
        _timerLPerDay = Math.Clamp(_timerLPerDay * (1 + (0.8 * off)), 4, 150);
    }

    private (Order Order, int Seconds) Take(long at, Order order, int seconds)
    {
        _free = at + seconds + _habit.LockOutS;
        return (order, seconds);
    }
}
