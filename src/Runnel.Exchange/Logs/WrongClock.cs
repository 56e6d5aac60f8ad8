using NodaTime;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>Leaves out readings written by a wrong clock, keeps the state that switches ended in, and says where it happened.</summary>
internal sealed class WrongClock(RawReadings raw, FileOrder order, PlaceDescription place, SkipTally tally)
{
    private const int MostSteps = 200;
    private readonly List<ClockStep> _steps = [];
    private long _lastLine = -1;

    /// <summary>Where the clock went wrong, in the order of lines.</summary>
    public IReadOnlyList<ClockStep> Steps => [.. _steps.OrderBy(s => s.Line)];

    /// <summary>Leaves out the marked readings, stretch by stretch.</summary>
    public void LeaveOut(bool[] impossible)
    {
        long lastGood = long.MinValue;
        for (int k = 0; k < order.Count; k++)
        {
            int i = order.At(k);
            if (raw.Form(i).Kind == TimeKind.None) continue;
            if (!impossible[i])
            {
                lastGood = raw.Ticks(i);
                continue;
            }

            int first = k;
            long after = raw.Ticks(i);
            while (k + 1 < order.Count && (impossible[order.At(k + 1)] || raw.Form(order.At(k + 1)).Kind == TimeKind.None)) k++;
            long before = lastGood != long.MinValue ? lastGood : k + 1 < order.Count ? raw.Ticks(order.At(k + 1)) : after;
            LeaveOut(new ClockFault(first, k, before, after, long.MinValue, long.MaxValue, ClockFault.Impossible));
        }
    }

    /// <summary>Leaves out the readings of one stretch.</summary>
    public void LeaveOut(ClockFault fault)
    {
        var last = new Dictionary<int, int>();
        bool any = false;
        for (int k = fault.First; k <= fault.Last; k++)
        {
            int i = order.At(k);
            ref var form = ref raw.Form(i);
            long ticks = raw.Ticks(i);
            if (form.Kind == TimeKind.None || ticks < fault.Least || ticks > fault.Greatest) continue;
            form.Kind = TimeKind.None;
            any = true;
            if (place.Channels[raw.Channel(i)].Measures == Quantity.Running) last[raw.Channel(i)] = i;
            if (raw.Line(i) != _lastLine) tally.Add(fault.Reason, raw.Line(i));
            _lastLine = raw.Line(i);
        }

        if (!any) return;
        foreach (var (channel, index) in last) KeepState(channel, index, fault);
        AddStep(fault);
    }

    /// <summary>A valve that was shut while the clock was wrong must not seem open for days: the state it ended in is kept at the last good time.</summary>
    private void KeepState(int channel, int index, ClockFault fault)
    {
        for (int k = fault.First - 1; k >= 0; k--)
        {
            int i = order.At(k);
            if (raw.Channel(i) != channel || raw.Form(i).Kind == TimeKind.None) continue;
            if (raw.Value(i) == raw.Value(index)) return;
            raw.Ticks(index) = Math.Max(fault.Before, raw.Ticks(i));
            raw.Form(index).Kind = TimeKind.Moment;
            return;
        }
    }

    private void AddStep(ClockFault fault)
    {
        var before = Instant.FromUnixTimeTicks(fault.Before);
        var after = Instant.FromUnixTimeTicks(fault.After);
        var near = Duration.FromHours(2);
        bool known = _steps.Exists(s => Apart(s.Before, before) < near && Apart(s.After, after) < near);
        if (!known && _steps.Count < MostSteps) _steps.Add(new ClockStep(raw.Line(order.At(fault.First)), before, after));
    }

    private static Duration Apart(Instant a, Instant b) => a > b ? a - b : b - a;
}
