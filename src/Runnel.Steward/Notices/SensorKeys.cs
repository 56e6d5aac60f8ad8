namespace Runnel.Steward.Notices;

/// <summary>Keys under which the notices about a channel's sensor stand, so that what reads the channel can hold back.</summary>
internal static class SensorKeys
{
    public static string Drifting(string channelId) => $"drifting {channelId}";

    public static string Frozen(string channelId) => $"frozen {channelId}";

    public static string Jumping(string channelId) => $"jumping {channelId}";

    public static string Silent(string channelId) => $"silent {channelId}";
}
