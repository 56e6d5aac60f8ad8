using NodaTime;

namespace Runnel.Records;

/// <summary>One value of a channel that is named by its identifier.</summary>
/// <param name="ChannelId">Identifier of the channel, as in the place file.</param>
/// <param name="Time">When it was taken; kept to 100 ns.</param>
/// <param name="Value">Finite value.</param>
public readonly record struct ChannelReading(string ChannelId, Instant Time, double Value);

/// <summary>What became of readings that were handed in.</summary>
/// <param name="New">Stored for the first time.</param>
/// <param name="Changed">The channel had another value at that time; the later word holds.</param>
/// <param name="Known">Already there, the same.</param>
public readonly record struct Stored(long New, long Changed, long Known)
{
    public static Stored operator +(Stored a, Stored b) => new(a.New + b.New, a.Changed + b.Changed, a.Known + b.Known);

    public static Stored Add(Stored left, Stored right) => left + right;
}

/// <summary>How many readings a channel has, and over what time.</summary>
public sealed record ChannelCount(string ChannelId, long Count, Instant First, Instant Last);

/// <summary>Readings of one stretch of time taken together. Empty stretches have no bucket.</summary>
public readonly record struct Bucket(Instant Start, long Count, double Low, double High, double Sum)
{
    public double Mean => Sum / Count;
}
