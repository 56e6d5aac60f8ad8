using Microsoft.Data.Sqlite;
using NodaTime;
using Runnel.Records.Packing;
using Runnel.Records.Writing;

namespace Runnel.Records.Reading;

/// <summary>Sums up a channel's readings for a chart. A block that lies within one bucket is taken by its sums, unopened.</summary>
internal sealed class BucketReader(SqliteConnection connection, int channel, long from, long to, int count)
{
    // Rounded up, so that the last reading still falls into the last bucket.
    private readonly long _step = Math.Max(1, ((to - from) + count - 1) / count);
    private readonly List<Bucket> _buckets = [];
    private long _index = -1;
    private long _count;
    private double _low;
    private double _high;
    private double _sum;

    public IReadOnlyList<Bucket> Read()
    {
        using var blocks = new PreparedStatement(
            connection,
            "SELECT key, last_time, count, low, high, total, readings FROM block WHERE key BETWEEN @from AND @to ORDER BY key",
            "@from", "@to");
        using (var row = blocks.Rows(BlockQueries.FirstKeyFor(connection, channel, from), Times.Key(channel, Times.Hour(to))))
        {
            while (row.Read())
            {
                long begins = Times.HourOfKey(row.GetInt64(0)) * Times.PerHour;
                long last = row.GetInt64(1);
                if (begins >= from && last < to && IndexOf(begins) == IndexOf(last))
                {
                    Take(IndexOf(last), row.GetInt64(2), row.GetDouble(3), row.GetDouble(4), row.GetDouble(5));
                }
                else
                {
                    foreach (var point in ReadingBlock.Unpack((byte[])row[6])) Take(point);
                }
            }
        }

        using var fresh = new PreparedStatement(
            connection, "SELECT time, value FROM fresh WHERE channel = @channel AND time >= @from AND time < @to ORDER BY time", "@channel", "@from", "@to");
        using (var row = fresh.Rows(channel, from, to))
        {
            while (row.Read()) Take(new Point(row.GetInt64(0), row.GetDouble(1)));
        }

        Close();
        return _buckets;
    }

    private long IndexOf(long time) => (time - from) / _step;

    private void Take(Point point)
    {
        if (point.Time < from || point.Time >= to) return;
        Take(IndexOf(point.Time), 1, point.Value, point.Value, point.Value);
    }

    private void Take(long index, long count, double low, double high, double sum)
    {
        if (index != _index)
        {
            Close();
            _index = index;
            (_count, _low, _high, _sum) = (count, low, high, sum);
            return;
        }

        _count += count;
        _low = Math.Min(_low, low);
        _high = Math.Max(_high, high);
        _sum += sum;
    }

    private void Close()
    {
        if (_count > 0) _buckets.Add(new Bucket(Instant.FromUnixTimeTicks(from + (_index * _step)), _count, _low, _high, _sum));
        _count = 0;
    }
}
