using NodaTime;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>Turns readings in file order into a log in time order: dates, zone, clock faults, sorting, repeated rows.</summary>
internal static class ReadingOrder
{
    public static ReadingLog Settle(
        RawReadings raw, IReadOnlyList<long> headerAgain, PlaceDescription place, LogReadOptions options, SkipTally tally, List<string> remarks,
        CancellationToken cancel)
    {
        int channels = place.Channels.Count;
        DayMonthOrder.Settle(raw, place.Zone, tally, remarks);
        cancel.ThrowIfCancellationRequested();
        var order = FileOrder.Of(raw, channels);
        if (order.NewestFirst) remarks.Add("The newest rows stand first; the log was turned round.");
        WallClock.Settle(raw, order, place.Zone, channels, remarks);
        cancel.ThrowIfCancellationRequested();
        var moved = ShiftedStretches.MoveBack(raw, order, remarks, cancel);
        var impossible = ImpossibleTimes.Find(raw, options.Now, cancel);
        var faults = ClockFaults.Find(raw, order, impossible, channels, headerAgain, cancel);
        var clock = new WrongClock(raw, order, place, tally);
        if (impossible is not null) clock.LeaveOut(impossible);
        foreach (var fault in faults) clock.LeaveOut(fault);
        long outOfOrder = CountBehind(raw, order, channels);
        if (outOfOrder > 0) remarks.Add(FormattableString.Invariant($"{outOfOrder:#,0} readings were out of order and were sorted by time."));
        cancel.ThrowIfCancellationRequested();
        var index = ReadingIndex.Sorted(raw, order);
        if (RepeatedRows.Mark(raw, index, tally, channels)) index = index.Kept(raw);
        return new ReadingLog(PackedReadings.Of(raw, index), tally.ToList(), [.. moved.Concat(clock.Steps).OrderBy(s => s.Line)], remarks);
    }

    /// <summary>How many readings stand behind a later one of their own channel.</summary>
    private static long CountBehind(RawReadings raw, FileOrder order, int channels)
    {
        var front = new long[channels];
        Array.Fill(front, long.MinValue);
        long behind = 0;
        for (int k = 0; k < order.Count; k++)
        {
            int i = order.At(k);
            if (raw.Form(i).Kind == TimeKind.None) continue;
            ref long latest = ref front[raw.Channel(i)];
            if (raw.Ticks(i) < latest) behind++;
            else latest = raw.Ticks(i);
        }

        return behind;
    }
}
