using Microsoft.Data.Sqlite;

namespace Runnel.Records.Writing;

/// <summary>The number of each channel; given at its first reading and never changed, so they may be remembered.</summary>
internal sealed class ChannelNumbers(SqliteConnection connection) : IDisposable
{
    private readonly PreparedStatement _find = new(connection, "SELECT number FROM channel WHERE id = @id", "@id");
    private readonly PreparedStatement _add = new(connection, "INSERT INTO channel (id) VALUES (@id) ON CONFLICT DO NOTHING", "@id");

    public int Of(string id)
    {
        // Not remembered between transactions: a number given in one that was rolled back does not exist.
        if (_find.Value(id) is long known) return checked((int)known);
        _add.Run(id);
        return checked((int)(long)_find.Value(id)!);
    }

    public void Dispose()
    {
        _find.Dispose();
        _add.Dispose();
    }
}
