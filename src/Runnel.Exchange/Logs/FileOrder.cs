namespace Runnel.Exchange.Logs;

/// <summary>The readings in the order in which they were written: that of the file, or its reverse where the newest stand first.</summary>
internal sealed class FileOrder
{
    private readonly RawReadings _raw;
    private readonly bool _newestFirst;

    private FileOrder(RawReadings raw, bool newestFirst)
    {
        _raw = raw;
        _newestFirst = newestFirst;
    }

    public bool NewestFirst => _newestFirst;

    public int Count => _raw.Count;

    /// <summary>Index in the file of what was written as number <paramref name="written"/>.</summary>
    public int At(int written) => _newestFirst ? _raw.Count - 1 - written : written;

    /// <summary>Steps up and down are counted channel by channel, since a log may hold one channel after the other.</summary>
    public static FileOrder Of(RawReadings raw, int channels)
    {
        var last = new long[channels];
        Array.Fill(last, long.MinValue);
        long up = 0, down = 0;
        for (int i = 0; i < raw.Count; i++)
        {
            long ticks = raw.Ticks(i);
            ref long before = ref last[raw.Channel(i)];
            if (before != long.MinValue)
            {
                if (ticks > before) up++;
                else if (ticks < before) down++;
            }

            before = ticks;
        }

        return new FileOrder(raw, down > 9 * up);
    }
}
