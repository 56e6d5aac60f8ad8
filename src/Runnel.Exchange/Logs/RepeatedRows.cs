namespace Runnel.Exchange.Logs;

/// <summary>
/// Drops rows that came twice: the same channel, time and value. Within one second a switch may go on, off and on again, so a value that
/// comes again behind another one is a repeat only where the whole sequence comes again from elsewhere in the file, as when two exports overlap.
/// </summary>
internal static class RepeatedRows
{
    private const string Reason = "repeated row";

    public static void Drop(RawReadings raw, ref Memory<int> sorted, SkipTally tally, int channels)
    {
        var span = sorted.Span;
        int kept = 0;
        var group = new List<int>[channels];
        var touched = new List<int>();
        long lastLine = -1;
        var seen = new int[channels];
        int groups = 0;
        for (int from = 0; from < span.Length;)
        {
            long ticks = raw.Ticks(span[from]);
            int to = from + 1;
            while (to < span.Length && raw.Ticks(span[to]) == ticks) to++;
            if (to - from == 1 || AllDifferent(raw, span[from..to], seen, ++groups))
            {
                for (int n = from; n < to; n++) span[kept++] = span[n];
                from = to;
                continue;
            }

            foreach (int i in span[from..to])
            {
                int channel = raw.Channel(i);
                var list = group[channel] ??= [];
                if (list.Count == 0) touched.Add(channel);
                list.Add(i);
            }

            foreach (int channel in touched)
            {
                foreach (int i in Repeats(raw, group[channel]))
                {
                    raw.Form(i).Kind = TimeKind.None;
                    if (raw.Line(i) != lastLine) tally.Add(Reason, raw.Line(i));
                    lastLine = raw.Line(i);
                }

                group[channel].Clear();
            }

            touched.Clear();
            for (int n = from; n < to; n++)
            {
                if (raw.Form(span[n]).Kind != TimeKind.None) span[kept++] = span[n];
            }

            from = to;
        }

        sorted = sorted[..kept];
    }

    /// <summary>A row of the wide form: many channels at one time, each once.</summary>
    private static bool AllDifferent(RawReadings raw, ReadOnlySpan<int> indices, int[] seen, int group)
    {
        foreach (int i in indices)
        {
            ref int last = ref seen[raw.Channel(i)];
            if (last == group) return false;
            last = group;
        }

        return true;
    }

    private static List<int> Repeats(RawReadings raw, List<int> rows)
    {
        var repeats = new List<int>();
        if (rows.Count == 1) return repeats;

        // Next to each other with the same value.
        var rest = new List<int> { rows[0] };
        for (int n = 1; n < rows.Count; n++)
        {
            if (raw.Value(rows[n]) == raw.Value(rest[^1])) repeats.Add(rows[n]);
            else rest.Add(rows[n]);
        }

        // The whole sequence again, from another part of the file.
        int length = FirstPart(raw, rest);
        if (length == 0) return repeats;
        bool again = rest.Count % length == 0;
        for (int n = length; again && n < rest.Count; n++) again = raw.Value(rest[n]) == raw.Value(rest[n % length]);
        if (again) repeats.AddRange(rest.Skip(length));
        return repeats;
    }

    /// <summary>How many rows stand together in the file before the rest comes from elsewhere; 0 where all stand together.</summary>
    private static int FirstPart(RawReadings raw, List<int> rows)
    {
        for (int n = 1; n < rows.Count; n++)
        {
            int a = Math.Min(rows[n - 1], rows[n]), b = Math.Max(rows[n - 1], rows[n]);
            for (int i = a + 1; i < b; i++)
            {
                if (raw.Ticks(i) != raw.Ticks(rows[0])) return n;
            }
        }

        return 0;
    }
}
