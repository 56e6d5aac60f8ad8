using Microsoft.Data.Sqlite;
using Runnel.Records.Packing;

namespace Runnel.Records.Writing;

/// <summary>The newest readings, one row each.</summary>
internal sealed class FreshTable(SqliteConnection connection) : IDisposable
{
    private readonly PreparedStatement _insert = new(
        connection,
        "INSERT INTO fresh (channel, time, value) VALUES (@channel, @time, @value) ON CONFLICT DO NOTHING",
        "@channel", "@time", "@value");

    private readonly PreparedStatement _value = new(
        connection, "SELECT value FROM fresh WHERE channel = @channel AND time = @time", "@channel", "@time");

    private readonly PreparedStatement _change = new(
        connection, "UPDATE fresh SET value = @value WHERE channel = @channel AND time = @time", "@channel", "@time", "@value");

    private readonly PreparedStatement _last = new(connection, "SELECT max(time) FROM fresh WHERE channel = @channel", "@channel");

    private readonly PreparedStatement _count = new(
        connection, "SELECT count(*) FROM fresh WHERE channel = @channel AND time < @time", "@channel", "@time");

    private readonly PreparedStatement _all = new(
        connection, "SELECT time, value FROM fresh WHERE channel = @channel ORDER BY time", "@channel");

    private readonly PreparedStatement _delete = new(
        connection, "DELETE FROM fresh WHERE channel = @channel AND time < @time", "@channel", "@time");

    public long? LastTime(int channel) => _last.Value(channel) as long?;

    public long CountBefore(int channel, long time) => (long)_count.Value(channel, time)!;

    public Stored Add(int channel, List<Point> points)
    {
        long added = 0;
        long changed = 0;
        foreach (var point in points)
        {
            if (_insert.Run(channel, point.Time, point.Value) == 1)
            {
                added++;
            }
            else if (!SortedPoints.SameValue((double)_value.Value(channel, point.Time)!, point.Value))
            {
                _change.Run(channel, point.Time, point.Value);
                changed++;
            }
        }

        return new Stored(added, changed, points.Count - added - changed);
    }

    public List<Point> All(int channel)
    {
        var points = new List<Point>();
        using var rows = _all.Rows(channel);
        while (rows.Read()) points.Add(new Point(rows.GetInt64(0), rows.GetDouble(1)));
        return points;
    }

    public void DeleteBefore(int channel, long time) => _delete.Run(channel, time);

    public void Dispose()
    {
        _insert.Dispose();
        _value.Dispose();
        _change.Dispose();
        _last.Dispose();
        _count.Dispose();
        _all.Dispose();
        _delete.Dispose();
    }
}
