using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Place;
using Runnel.Place.PlaceFiles;

namespace Runnel.Exchange.Mqtt;

/// <summary>Which topics bring readings, and what else lies where: <c>runnel/PLACE/...</c> is ours.</summary>
public sealed class TopicMap
{
    private readonly Dictionary<string, List<ChannelFeed>> _feeds = new(StringComparer.Ordinal);
    private readonly PayloadReader _payloads;

    /// <param name="place">The place.</param>
    /// <param name="sourceId">The broker whose topics these are; null: Runnel's own.</param>
    /// <param name="payloads">Reads what comes.</param>
    public TopicMap(PlaceDescription place, string? sourceId, PayloadReader payloads)
    {
        _payloads = payloads;
        Root = "runnel/" + NameOf(place);
        if (sourceId is null)
        {
            for (int i = 0; i < place.Channels.Count; i++) Add($"{Root}/readings/{place.Channels[i].Id}", new ChannelFeed(i, null, null, null, null));
        }

        foreach (var feed in place.Wiring.Feeds)
        {
            if (feed.Topic is { } topic && feed.SourceId == sourceId) Add(topic, feed);
        }

        Named = sourceId is null ? Root + "/readings" : null;
    }

    /// <summary>Where everything of this place lies.</summary>
    public string Root { get; }

    /// <summary>The topic whose messages name their channels themselves; null: none.</summary>
    public string? Named { get; }

    /// <summary>All topics that bring readings.</summary>
    public IEnumerable<string> Topics => _feeds.Keys;

    public bool Brings(string topic) => topic == Named || _feeds.ContainsKey(topic);

    /// <summary>What a message gives.</summary>
    public Received Read(string topic, ReadOnlySpan<byte> payload, Instant at) =>
        _feeds.TryGetValue(topic, out var feeds) ? _payloads.Read(payload, feeds, at, topic) : _payloads.ReadNamed(payload, at, topic);

    /// <summary>The place's name as a topic has it.</summary>
    public static string NameOf(PlaceDescription place) => PlaceFileNames.Kebab(place.Name) is { Length: > 0 } name ? name : "place";

    private void Add(string topic, ChannelFeed feed)
    {
        if (!_feeds.TryGetValue(topic, out var feeds)) _feeds[topic] = feeds = [];
        feeds.Add(feed);
    }
}
