using NodaTime;
using Runnel.Place;

namespace Runnel.Live.Loop;

/// <summary>Something stored that the steward is to read: a reading, or a daybook entry.</summary>
/// <param name="Key">Where it stands among the others.</param>
/// <param name="Value">Of a reading.</param>
/// <param name="Entry">Of the daybook; null: a reading.</param>
internal readonly record struct LiveEvent(EventKey Key, double Value, DaybookEntry? Entry)
{
    public static LiveEvent Of(in Reading reading) => new(new(reading.Time, false, reading.Channel), reading.Value, null);

    public static LiveEvent Of(long number, DaybookEntry entry) => new(new(entry.Time, true, number), 0, entry);

    public Instant Time => Key.Time;
}

/// <summary>The order in which the steward reads: by time; at one time readings first, in the order of the place's channels, then entries as they came.</summary>
internal readonly record struct EventKey(Instant Time, bool IsEntry, long Number) : IComparable<EventKey>
{
    public int CompareTo(EventKey other)
    {
        int order = Time.CompareTo(other.Time);
        if (order != 0) return order;
        order = IsEntry.CompareTo(other.IsEntry);
        return order != 0 ? order : Number.CompareTo(other.Number);
    }
}
