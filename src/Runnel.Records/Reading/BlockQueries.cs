using Microsoft.Data.Sqlite;
using Runnel.Records.Packing;
using Runnel.Records.Writing;

namespace Runnel.Records.Reading;

/// <summary>Questions about blocks that several readers ask.</summary>
internal static class BlockQueries
{
    /// <summary>The key from which on blocks can hold readings at or after a time: that of the block reaching into it.</summary>
    public static long FirstKeyFor(SqliteConnection connection, int channel, long from)
    {
        using var before = new PreparedStatement(
            connection, "SELECT max(key) FROM block WHERE key BETWEEN @first AND @at", "@first", "@at");
        long first = (long)channel << 32;
        return before.Value(first, Times.Key(channel, Times.Hour(from))) as long? ?? first;
    }

    public static IReadOnlyList<(int Number, string Id)> Channels(SqliteConnection connection)
    {
        using var all = new PreparedStatement(connection, "SELECT number, id FROM channel ORDER BY number");
        using var rows = all.Rows();
        var channels = new List<(int, string)>();
        while (rows.Read()) channels.Add((rows.GetInt32(0), rows.GetString(1)));
        return channels;
    }
}
