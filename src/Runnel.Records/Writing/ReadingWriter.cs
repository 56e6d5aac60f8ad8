using System.Runtime.InteropServices;
using Microsoft.Data.Sqlite;
using NodaTime;
using Runnel.Records.Packing;

namespace Runnel.Records.Writing;

/// <summary>
/// Puts readings where they belong, inside the caller's transaction. A time lives in one place only: in a block when its hour is
/// not past the last packed one, else among the fresh rows. So the same reading handed in again always meets itself.
/// </summary>
internal sealed class ReadingWriter : IDisposable
{
    /// <summary>Closed hours wait until this many readings make a block worth its overhead of some 40 bytes.</summary>
    private const int LeastInBlock = 256;

    private readonly ChannelNumbers _numbers;
    private readonly BlockTable _blocks;
    private readonly FreshTable _fresh;

    public ReadingWriter(SqliteConnection connection)
    {
        _numbers = new ChannelNumbers(connection);
        _blocks = new BlockTable(connection);
        _fresh = new FreshTable(connection);
    }

    public Stored Add(IReadOnlyList<ChannelReading> readings)
    {
        var stored = default(Stored);
        var byChannel = new Dictionary<string, List<Point>>(StringComparer.Ordinal);
        foreach (var reading in readings)
        {
            ref var points = ref CollectionsMarshal.GetValueRefOrAddDefault(byChannel, reading.ChannelId, out _);
            (points ??= []).Add(new Point(reading.Time.ToUnixTimeTicks(), reading.Value));
        }

        foreach (var (id, points) in byChannel) stored += AddTo(_numbers.Of(id), SortedPoints.From(points));
        return stored;
    }

    public void Dispose()
    {
        _numbers.Dispose();
        _blocks.Dispose();
        _fresh.Dispose();
    }

    /// <param name="channel">Number of the channel.</param>
    /// <param name="points">In time order, each time once.</param>
    private Stored AddTo(int channel, List<Point> points)
    {
        int late = 0;
        if (_blocks.LastTime(channel) is { } packedTo)
        {
            long firstFresh = (Times.Hour(packedTo) + 1) * Times.PerHour;
            late = SortedPoints.CountBefore(points, firstFresh);
        }

        var stored = late > 0 ? _blocks.Merge(channel, points[..late]) : default;
        if (late < points.Count) stored += AddFresh(channel, late == 0 ? points : points[late..]);
        return stored;
    }

    private Stored AddFresh(int channel, List<Point> points)
    {
        long openHour = Times.Hour(points[^1].Time);
        long? newest = _fresh.LastTime(channel);
        if (newest is { } time && Times.Hour(time) > openHour) openHour = Times.Hour(time);
        long openFrom = openHour * Times.PerHour;

        // Only a batch that opens or fills closed hours can have made them worth packing.
        bool touchesClosed = points[0].Time < openFrom || newest < openFrom;
        if (!touchesClosed || _fresh.CountBefore(channel, openFrom) + SortedPoints.CountBefore(points, openFrom) < LeastInBlock)
        {
            return _fresh.Add(channel, points);
        }

        var rows = _fresh.All(channel);
        var merged = SortedPoints.Merge(rows, points, out var stored);
        int closed = SortedPoints.CountBefore(merged, openFrom);
        _fresh.DeleteBefore(channel, openFrom);
        _blocks.Append(channel, merged[..closed]);
        _fresh.Add(channel, merged[closed..]);
        return stored;
    }
}
