using Microsoft.Data.Sqlite;
using NodaTime;

namespace Runnel.Records.Reading;

/// <summary>All channels' readings as one stream in time order.</summary>
internal sealed class MergedCursor : IDisposable
{
    private readonly List<ChannelCursor> _cursors = [];
    private readonly PriorityQueue<ChannelCursor, (long Time, int Order)> _next = new();

    public MergedCursor(SqliteConnection connection, long from, long to)
    {
        foreach (var (number, id) in BlockQueries.Channels(connection))
        {
            var cursor = new ChannelCursor(connection, number, id, from, to);
            _cursors.Add(cursor);
            if (cursor.MoveNext()) _next.Enqueue(cursor, (cursor.Current.Time, number));
        }
    }

    public ChannelReading Current { get; private set; }

    public bool MoveNext()
    {
        if (!_next.TryPeek(out var cursor, out var at)) return false;
        var point = cursor.Current;
        Current = new ChannelReading(cursor.Id, Instant.FromUnixTimeTicks(point.Time), point.Value);
        if (cursor.MoveNext()) _next.DequeueEnqueue(cursor, (cursor.Current.Time, at.Order));
        else _next.Dequeue();
        return true;
    }

    public void Dispose()
    {
        foreach (var cursor in _cursors) cursor.Dispose();
    }
}
