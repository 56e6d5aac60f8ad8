using NodaTime;
using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>Turns readings in file order into a log in time order.</summary>
internal static class ReadingOrder
{
    public static ReadingLog Settle(
        RawReadings raw, LogShape shape, PlaceDescription place, LogReadOptions options, SkipTally tally, List<string> remarks, CancellationToken cancel)
    {
        for (int i = 0; i < raw.Count; i++)
        {
            if (raw.Form(i).Kind != TimeKind.Local) continue;
            var local = LocalDateTime.FromDateTime(new DateTime(raw.Ticks(i) + DateTime.UnixEpoch.Ticks));
            raw.Ticks(i) = place.Zone.AtLeniently(local).ToInstant().ToUnixTimeTicks();
        }

        cancel.ThrowIfCancellationRequested();
        int[] order = [.. Enumerable.Range(0, raw.Count).OrderBy(i => raw.Ticks(i))];
        return new ReadingLog(new PackedReadings(raw, order), tally.ToList(), [], remarks);
    }
}
