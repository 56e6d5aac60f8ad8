namespace Runnel.Exchange.Logs;

/// <summary>
/// Marks rows that came twice: the same channel, time and value. Within one second a switch may go on, off and on again, so a value that
/// comes again behind another one is a repeat only where the whole sequence comes again from elsewhere in the file, as when two exports overlap.
/// </summary>
internal static class RepeatedRows
{
    private const string Reason = "repeated row";

    /// <returns>Whether any was marked.</returns>
    public static bool Mark(RawReadings raw, ReadingIndex index, SkipTally tally, int channels)
    {
        bool any = false;
        var group = new List<int>[channels];
        var touched = new List<int>();
        long lastLine = -1;
        var seen = new int[channels];
        int groups = 0;
        for (int from = 0; from < index.Count;)
        {
            long ticks = raw.Ticks(index[from]);
            int to = from + 1;
            while (to < index.Count && raw.Ticks(index[to]) == ticks) to++;
            if (to - from == 1 || AllDifferent(raw, index, from, to, seen, ++groups))
            {
                from = to;
                continue;
            }

            for (int n = from; n < to; n++)
            {
                int channel = raw.Channel(index[n]);
                var list = group[channel] ??= [];
                if (list.Count == 0) touched.Add(channel);
                list.Add(index[n]);
            }

            foreach (int channel in touched)
            {
                foreach (int i in Repeats(raw, group[channel]))
                {
                    raw.Form(i).Kind = TimeKind.None;
                    any = true;
                    if (raw.Line(i) != lastLine) tally.Add(Reason, raw.Line(i));
                    lastLine = raw.Line(i);
                }

                group[channel].Clear();
            }

            touched.Clear();
            from = to;
        }

        return any;
    }

    /// <summary>A row of the wide form: many channels at one time, each once.</summary>
    private static bool AllDifferent(RawReadings raw, in ReadingIndex index, int from, int to, int[] seen, int group)
    {
        for (int n = from; n < to; n++)
        {
            ref int last = ref seen[raw.Channel(index[n])];
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
