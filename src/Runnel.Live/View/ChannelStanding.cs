using NodaTime;
using Runnel.Place;

namespace Runnel.Live.View;

/// <summary>How a channel stands.</summary>
public enum ChannelHealth { NotHeard, Fresh, Quiet, Doubted }

/// <summary>A channel with its last reading.</summary>
/// <param name="Channel">As described.</param>
/// <param name="Value">Last value, in the unit of its quantity; null: none yet.</param>
/// <param name="Time">When that was taken.</param>
/// <param name="Health">In one word.</param>
/// <param name="Words">The same for people: "no reading for 3 h; one every 10 min is usual".</param>
public sealed record ChannelStanding(Channel Channel, double? Value, Instant? Time, ChannelHealth Health, string Words)
{
    public string Id => Channel.Id;

    public string Unit => Quantities.UnitOf(Channel.Measures);
}
