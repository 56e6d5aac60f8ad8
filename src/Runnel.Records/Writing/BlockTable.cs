using System.Runtime.InteropServices;
using Microsoft.Data.Sqlite;
using Runnel.Records.Packing;

namespace Runnel.Records.Writing;

/// <summary>Packed hours. Blocks of a channel never overlap, and none ends within the hour in which the next begins.</summary>
internal sealed class BlockTable(SqliteConnection connection) : IDisposable
{
    /// <summary>Large enough to pack well, small enough to unpack for one late reading or the edge of a chart.</summary>
    private const int MostInBlock = 512;

    private readonly PreparedStatement _lastTime = new(
        connection, "SELECT last_time FROM block WHERE key BETWEEN @from AND @to ORDER BY key DESC LIMIT 1", "@from", "@to");

    // The last block that begins at or before a key of the same channel, else the channel's first.
    private readonly PreparedStatement _at = new(
        connection,
        """
        SELECT key, readings FROM block WHERE key = coalesce(
          (SELECT max(key) FROM block WHERE key BETWEEN @from AND @key),
          (SELECT min(key) FROM block WHERE key BETWEEN @from AND @to))
        """,
        "@from", "@key", "@to");

    private readonly PreparedStatement _next = new(
        connection, "SELECT min(key) FROM block WHERE key > @key AND key <= @to", "@key", "@to");

    private readonly PreparedStatement _delete = new(connection, "DELETE FROM block WHERE key = @key", "@key");

    private readonly PreparedStatement _insert = new(
        connection,
        """
        INSERT INTO block (key, last_time, count, low, high, total, readings)
        VALUES (@key, @last, @count, @low, @high, @total, @readings)
        """,
        "@key", "@last", "@count", "@low", "@high", "@total", "@readings");

    /// <summary>Time of the last packed reading of a channel, or null.</summary>
    public long? LastTime(int channel) => _lastTime.Value(FirstKey(channel), LastKey(channel)) as long?;

    /// <summary>Adds readings that lie behind every packed one.</summary>
    public void Append(int channel, List<Point> points) => Insert(channel, points);

    /// <summary>Puts late readings into the blocks they belong to. The channel has at least one block.</summary>
    public Stored Merge(int channel, List<Point> points)
    {
        var stored = default(Stored);
        for (int done = 0; done < points.Count;)
        {
            var (key, known) = Find(channel, Times.Hour(points[done].Time));
            long? next = _next.Value(key, LastKey(channel)) as long?;
            int upTo = next is { } nextKey ? SortedPoints.CountBefore(points, Times.HourOfKey(nextKey) * Times.PerHour) : points.Count;
            var merged = SortedPoints.Merge(known, points[done..upTo], out var here);
            if (here.New + here.Changed > 0)
            {
                _delete.Run(key);
                Insert(channel, merged);
            }

            stored += here;
            done = upTo;
        }

        return stored;
    }

    public void Dispose()
    {
        _lastTime.Dispose();
        _at.Dispose();
        _next.Dispose();
        _delete.Dispose();
        _insert.Dispose();
    }

    private static long FirstKey(int channel) => (long)channel << 32;

    private static long LastKey(int channel) => ((long)channel << 32) | 0xFFFF_FFFF;

    private (long Key, Point[] Points) Find(int channel, long hour)
    {
        using var row = _at.Rows(FirstKey(channel), Times.Key(channel, hour), LastKey(channel));
        row.Read();
        return (row.GetInt64(0), ReadingBlock.Unpack((byte[])row[1]));
    }

    /// <summary>As few blocks as the size allows, cut only between hours.</summary>
    private void Insert(int channel, List<Point> points)
    {
        int begin = 0;
        int hourBegin = 0;
        for (int i = 1; i <= points.Count; i++)
        {
            bool end = i == points.Count;
            if (!end && Times.Hour(points[i].Time) == Times.Hour(points[i - 1].Time)) continue;

            // A whole hour lies between hourBegin and i; it may no longer fit to what came before.
            if (hourBegin > begin && i - begin > MostInBlock)
            {
                InsertOne(channel, CollectionsMarshal.AsSpan(points)[begin..hourBegin]);
                begin = hourBegin;
            }

            hourBegin = i;
            if (end) InsertOne(channel, CollectionsMarshal.AsSpan(points)[begin..i]);
        }
    }

    private void InsertOne(int channel, ReadOnlySpan<Point> points)
    {
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        double total = 0;
        foreach (var point in points)
        {
            low = Math.Min(low, point.Value);
            high = Math.Max(high, point.Value);
            total += point.Value;
        }

        _insert.Run(Times.Key(channel, Times.Hour(points[0].Time)), points[^1].Time, points.Length, low, high, total, ReadingBlock.Pack(points));
    }
}
