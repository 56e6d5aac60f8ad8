namespace Runnel.Exchange.Logs;

/// <summary>Which readings are kept, in which order. A file that is in order already, as most are, needs no list of positions.</summary>
internal readonly struct ReadingIndex
{
    private readonly int[]? _positions;

    private ReadingIndex(int[]? positions, int count)
    {
        _positions = positions;
        Count = count;
    }

    public int Count { get; }

    /// <summary>All readings in the order of the file.</summary>
    public bool IsFileOrder => _positions is null;

    public int this[int index] => _positions is null ? index : _positions[index];

    /// <summary>The kept readings by time, those of one time in the order of writing.</summary>
    public static ReadingIndex Sorted(RawReadings raw, FileOrder order)
    {
        if (!order.NewestFirst && AllInOrder(raw)) return new ReadingIndex(null, raw.Count);
        var positions = new int[raw.Count];
        int count = 0;
        bool inOrder = true;
        long last = long.MinValue;
        for (int k = 0; k < order.Count; k++)
        {
            int i = order.At(k);
            if (raw.Form(i).Kind == TimeKind.None) continue;
            inOrder &= raw.Ticks(i) >= last;
            last = raw.Ticks(i);
            positions[count++] = i;
        }

        return new ReadingIndex(inOrder ? positions : SortedByTime(raw, positions, count), count);
    }

    /// <summary>Without the readings marked as dropped since.</summary>
    public ReadingIndex Kept(RawReadings raw)
    {
        var positions = _positions ?? new int[Count];
        int kept = 0;
        for (int n = 0; n < Count; n++)
        {
            int i = this[n];
            if (raw.Form(i).Kind != TimeKind.None) positions[kept++] = i;
        }

        return new ReadingIndex(positions, kept);
    }

    private static bool AllInOrder(RawReadings raw)
    {
        long last = long.MinValue;
        for (int i = 0; i < raw.Count; i++)
        {
            if (raw.Form(i).Kind == TimeKind.None || raw.Ticks(i) < last) return false;
            last = raw.Ticks(i);
        }

        return true;
    }

    private static int[] SortedByTime(RawReadings raw, int[] positions, int count)
    {
        // Sort places by time, then put equal times back into the order of writing.
        var keys = new long[count];
        var places = new int[count];
        for (int n = 0; n < count; n++)
        {
            keys[n] = raw.Ticks(positions[n]);
            places[n] = n;
        }

        Array.Sort(keys, places);
        for (int from = 0; from < count;)
        {
            int to = from + 1;
            while (to < count && keys[to] == keys[from]) to++;
            if (to - from > 1) Array.Sort(places, from, to - from);
            from = to;
        }

        for (int n = 0; n < count; n++) places[n] = positions[places[n]];
        return places;
    }
}
