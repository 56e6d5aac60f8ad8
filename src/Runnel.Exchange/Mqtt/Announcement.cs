using System.Text;
using MQTTnet;
using MQTTnet.Protocol;

namespace Runnel.Exchange.Mqtt;

/// <summary>Something Runnel tells other programs.</summary>
/// <param name="Topic">Below the root of the place.</param>
/// <param name="Payload">JSON, or a word; empty takes a retained message away.</param>
public sealed record Announcement(string Topic, string Payload)
{
    /// <summary>As a broker takes it: retained, and acknowledged.</summary>
    internal MqttApplicationMessage MessageBelow(string root) => new()
    {
        Topic = $"{root}/{Topic}",
        PayloadSegment = Encoding.UTF8.GetBytes(Payload),
        Retain = true,
        QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce,
    };
}
