using Microsoft.Data.Sqlite;
using Runnel.Records.Packing;
using Runnel.Records.Writing;

namespace Runnel.Records.Reading;

/// <summary>Walks one channel's readings in time order, one block in memory at a time.</summary>
internal sealed class ChannelCursor : IDisposable
{
    private readonly int _channel;
    private readonly long _from;
    private readonly long _to;
    private readonly PreparedStatement _block;
    private readonly PreparedStatement _fresh;
    private long _nextKey;
    private bool _blocksDone;
    private bool _freshDone;
    private Point[] _points = [];
    private int _at;

    /// <param name="connection">A connection whose open transaction keeps all reads at one state of the file.</param>
    /// <param name="channel">Number of the channel.</param>
    /// <param name="id">Its identifier.</param>
    /// <param name="from">First time wanted.</param>
    /// <param name="to">First time no longer wanted.</param>
    public ChannelCursor(SqliteConnection connection, int channel, string id, long from, long to)
    {
        _channel = channel;
        Id = id;
        _from = from;
        _to = to;
        _block = new PreparedStatement(
            connection, "SELECT key, readings FROM block WHERE key BETWEEN @from AND @to ORDER BY key LIMIT 1", "@from", "@to");
        _fresh = new PreparedStatement(
            connection,
            "SELECT time, value FROM fresh WHERE channel = @channel AND time >= @from AND time < @to ORDER BY time",
            "@channel", "@from", "@to");
        _nextKey = BlockQueries.FirstKeyFor(connection, channel, from);
    }

    public string Id { get; }

    public Point Current => _points[_at];

    public bool MoveNext()
    {
        _at++;
        while (true)
        {
            while (_at < _points.Length && _points[_at].Time < _from) _at++;
            if (_at < _points.Length) return _points[_at].Time < _to;
            if (!LoadMore()) return false;
            _at = 0;
        }
    }

    public void Dispose()
    {
        _block.Dispose();
        _fresh.Dispose();
    }

    private bool LoadMore()
    {
        if (!_blocksDone)
        {
            using var row = _block.Rows(_nextKey, Times.Key(_channel, Times.Hour(_to)));
            if (row.Read())
            {
                _nextKey = row.GetInt64(0) + 1;
                _points = ReadingBlock.Unpack((byte[])row[1]);
                return true;
            }

            _blocksDone = true;
        }

        if (_freshDone) return false;
        _freshDone = true;
        var points = new List<Point>();
        using var rows = _fresh.Rows(_channel, _from, _to);
        while (rows.Read()) points.Add(new Point(rows.GetInt64(0), rows.GetDouble(1)));
        _points = [.. points];
        return true;
    }
}
