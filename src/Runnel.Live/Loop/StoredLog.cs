using NodaTime;
using Runnel.Place;
using Runnel.Records;
using Runnel.Steward;

namespace Runnel.Live.Loop;

/// <summary>Reads the stored log from its beginning: state is the consequence of the log, and of nothing else.</summary>
internal sealed class StoredLog(PlaceDescription place, ReadingStore store)
{
    private readonly Dictionary<string, int> _channels = place.Channels.Select((c, i) => (c.Id, i)).ToDictionary(c => c.Id, c => c.i, StringComparer.Ordinal);

    /// <summary>A steward that has read everything stored up to and with <paramref name="until"/>.</summary>
    public async Task<LiveSteward> ReadAsync(Instant until, CancellationToken cancel)
    {
        var steward = new LiveSteward(place);
        await foreach (var happened in EventsAsync(Instant.MinValue, until + Duration.FromTicks(1), cancel)) Feed(steward, happened);
        return steward;
    }

    /// <summary>Everything stored from <paramref name="from"/> up to but without <paramref name="to"/>, in the order of reading.</summary>
    public async IAsyncEnumerable<LiveEvent> EventsAsync(
        Instant from, Instant to, [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancel)
    {
        var entries = (await store.Daybook.ListAsync(cancel)).Where(r => !r.Struck && r.Entry.Time >= from && r.Entry.Time < to)
            .Select(r => LiveEvent.Of(r.Number, r.Entry)).ToList();
        int next = 0;
        var together = new List<LiveEvent>();
        await foreach (var stored in store.ReadAsync(from, to, cancel))
        {
            // A channel that the place file no longer names tells nothing of the place as it is.
            if (!_channels.TryGetValue(stored.ChannelId, out int channel)) continue;
            if (together.Count > 0 && together[0].Time != stored.Time)
            {
                foreach (var happened in Sorted(together)) yield return happened;
                for (; next < entries.Count && entries[next].Time < stored.Time; next++) yield return entries[next];
                together.Clear();
            }
            else if (together.Count == 0)
            {
                for (; next < entries.Count && entries[next].Time < stored.Time; next++) yield return entries[next];
            }

            together.Add(LiveEvent.Of(new Reading(channel, stored.Time, stored.Value)));
        }

        foreach (var happened in Sorted(together)) yield return happened;
        for (; next < entries.Count; next++) yield return entries[next];
    }

    public static void Feed(LiveSteward steward, in LiveEvent happened)
    {
        if (happened.Entry is { } entry) steward.Take(entry);
        else steward.Take(new Reading((int)happened.Key.Number, happened.Time, happened.Value));
    }

    /// <summary>The store keeps equal times in the order of first appearance; the steward reads them in the order of the place file.</summary>
    private static List<LiveEvent> Sorted(List<LiveEvent> together)
    {
        if (together.Count > 1) together.Sort((a, b) => a.Key.CompareTo(b.Key));
        return together;
    }
}
