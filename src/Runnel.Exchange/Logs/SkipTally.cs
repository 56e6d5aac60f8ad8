using Runnel.Place;

namespace Runnel.Exchange.Logs;

/// <summary>Counts rows that are not taken, by reason, each with its first line.</summary>
internal sealed class SkipTally
{
    private const int MostReasons = 60;
    private readonly Dictionary<(string Kind, int Key), Entry> _entries = [];

    private sealed record Entry(string Reason, long FirstLine)
    {
        public long Count { get; set; }
        public long FirstLine { get; set; } = FirstLine;
    }

    /// <summary>Counts a row under a reason that needs no detail.</summary>
    public void Add(string reason, long line)
    {
        if (!Again(reason, 0, line)) First(reason, 0, line, reason);
    }

    /// <summary>Counts a row where this kind and key were met before; false where they were not.</summary>
    public bool Again(string kind, int key, long line, long count = 1)
    {
        if (!_entries.TryGetValue((kind, key), out var entry)) return false;
        entry.Count += count;
        if (line < entry.FirstLine) entry.FirstLine = line;
        return true;
    }

    /// <summary>Begins a reason. Past a number of reasons, further ones of the same kind are counted together.</summary>
    public void First(string kind, int key, long line, string reason, long count = 1)
    {
        if (_entries.Count >= MostReasons)
        {
            if (Again(kind, int.MinValue, line, count)) return;
            (key, reason) = (int.MinValue, $"{kind} (others)");
        }

        _entries[(kind, key)] = new Entry(reason, line) { Count = count };
    }

    /// <summary>Rows counted so far.</summary>
    public long Total => _entries.Values.Sum(e => e.Count);

    /// <summary>All reasons, in the order of their first lines.</summary>
    public IReadOnlyList<SkippedRows> ToList() =>
        [.. _entries.Values.OrderBy(e => e.FirstLine).Select(e => new SkippedRows(e.Reason, e.Count, e.FirstLine))];
}
