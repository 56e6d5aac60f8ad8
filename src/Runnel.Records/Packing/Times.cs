using NodaTime;

namespace Runnel.Records.Packing;

/// <summary>Times as they are stored: 100 ns since 1970, and hours of them.</summary>
internal static class Times
{
    public const long PerSecond = NodaConstants.TicksPerSecond;
    public const long PerHour = NodaConstants.TicksPerHour;

    /// <summary>Raises the hour above zero, so that keys keep the order of time before 1970 too.</summary>
    private const long HourBias = 1L << 31;

    /// <summary>Rounded down, also before 1970.</summary>
    public static long Hour(long time) => time >= 0 ? time / PerHour : ((time + 1) / PerHour) - 1;

    public static long Key(int channel, long hour) => ((long)channel << 32) | (hour + HourBias);

    public static int ChannelOfKey(long key) => (int)(key >> 32);

    public static long HourOfKey(long key) => (key & 0xFFFF_FFFF) - HourBias;
}
