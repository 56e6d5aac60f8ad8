using Microsoft.Data.Sqlite;
using NodaTime;
using Runnel.Records.Packing;
using Runnel.Records.Writing;

namespace Runnel.Records.Reading;

/// <summary>How much there is of each channel.</summary>
internal static class CountReader
{
    public static IReadOnlyList<ChannelCount> Read(SqliteConnection connection)
    {
        using var blocks = new PreparedStatement(
            connection, "SELECT sum(count), max(last_time) FROM block WHERE key BETWEEN @from AND @to", "@from", "@to");
        using var firstBlock = new PreparedStatement(
            connection, "SELECT readings FROM block WHERE key BETWEEN @from AND @to ORDER BY key LIMIT 1", "@from", "@to");
        using var fresh = new PreparedStatement(
            connection, "SELECT count(*), min(time), max(time) FROM fresh WHERE channel = @channel", "@channel");
        var counts = new List<ChannelCount>();
        foreach (var (number, id) in BlockQueries.Channels(connection))
        {
            object[] range = [(long)number << 32, ((long)number << 32) | 0xFFFF_FFFF];
            long count = 0;
            long? first = firstBlock.Value(range) is byte[] packed ? ReadingBlock.Unpack(packed)[0].Time : null;
            long? last = null;
            using (var row = blocks.Rows(range))
            {
                if (row.Read() && !row.IsDBNull(0)) (count, last) = (row.GetInt64(0), row.GetInt64(1));
            }

            using (var row = fresh.Rows(number))
            {
                // Fresh rows lie behind every block.
                if (row.Read() && row.GetInt64(0) > 0) (count, first, last) = (count + row.GetInt64(0), first ?? row.GetInt64(1), row.GetInt64(2));
            }

            if (first is { } f && last is { } l) counts.Add(new ChannelCount(id, count, Instant.FromUnixTimeTicks(f), Instant.FromUnixTimeTicks(l)));
        }

        return counts;
    }
}
