using NodaTime;

namespace Runnel.Place;

/// <summary>Where readings come from while the place runs. Empty: everything comes to Runnel by itself, under the channels' own names.</summary>
/// <param name="Broker">The broker that Runnel runs.</param>
/// <param name="Clients">Who may connect to it; empty: anyone on this machine.</param>
/// <param name="Sources">What is asked, followed or subscribed to.</param>
/// <param name="Feeds">What feeds each channel; in the order of the place's channels, one or none a channel.</param>
public sealed record Wiring(
    OwnBroker Broker, IReadOnlyList<BrokerClient> Clients, IReadOnlyList<Source> Sources, IReadOnlyList<ChannelFeed> Feeds)
{
    public static readonly Wiring None = new(new OwnBroker(), [], [], []);
}

/// <summary>The broker that Runnel runs.</summary>
/// <param name="Port">Where it listens.</param>
/// <param name="OnHomeNetwork">Other machines may connect; then every client needs a password.</param>
public sealed record OwnBroker(int Port = 1883, bool OnHomeNetwork = false);

/// <summary>Someone who may connect to Runnel's broker.</summary>
/// <param name="Id">The user name.</param>
/// <param name="PasswordFile">File that holds the password, relative to the place file.</param>
/// <param name="MayWrite">Topic filters it may publish to.</param>
/// <param name="MayRead">Topic filters it may subscribe to.</param>
public sealed record BrokerClient(string Id, string PasswordFile, IReadOnlyList<string> MayWrite, IReadOnlyList<string> MayRead);

/// <summary>Kinds of sources.</summary>
public enum SourceKind
{
    /// <summary>An MQTT broker of the household.</summary>
    Broker,

    /// <summary>JSON that is asked for again and again.</summary>
    Poll,

    /// <summary>A log that another program keeps writing.</summary>
    File,

    /// <summary>A folder into which logs are dropped.</summary>
    Folder,
}

/// <summary>Something readings are fetched from.</summary>
/// <param name="Id">Kebab-case identifier.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Address">Host and port of a broker, URL of JSON, path of a file or folder.</param>
/// <param name="Every">How often it is asked or looked at.</param>
/// <param name="User">User name at a broker; null: none.</param>
/// <param name="PasswordFile">File that holds the password, relative to the place file; null: none.</param>
public sealed record Source(string Id, SourceKind Kind, string Address, Duration Every, string? User, string? PasswordFile);

/// <summary>What feeds a channel.</summary>
/// <param name="Channel">Position of the channel.</param>
/// <param name="SourceId">The source; null: Runnel's own broker.</param>
/// <param name="Topic">MQTT topic; null where the source has none.</param>
/// <param name="ValueAt">Where in JSON the value stands (JSON Pointer, RFC 6901); null: the payload is the value.</param>
/// <param name="TimeAt">Where in JSON its time stands; null: it counts from when it came.</param>
public sealed record ChannelFeed(int Channel, string? SourceId, string? Topic, string? ValueAt, string? TimeAt);
