namespace Runnel.Exchange.Mqtt;

/// <summary>Something Runnel tells other programs.</summary>
/// <param name="Topic">Below the root of the place.</param>
/// <param name="Payload">JSON, or a word; empty takes a retained message away.</param>
public sealed record Announcement(string Topic, string Payload);
