using Microsoft.Data.Sqlite;

namespace Runnel.Records.Opening;

/// <summary>Opens connections to one file of records.</summary>
internal static class RecordsFile
{
    /// <summary>The one writing connection. FULL: what was acknowledged outlives a power cut, not only a killed process.</summary>
    public static SqliteConnection OpenWriter(string path) =>
        Open(path, SqliteOpenMode.ReadWriteCreate, "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;");

    public static SqliteConnection OpenReader(string path) => Open(path, SqliteOpenMode.ReadOnly, "PRAGMA query_only=1;");

    private static SqliteConnection Open(string path, SqliteOpenMode mode, string pragmas)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = mode,
            // A pooled connection would hold a file that someone moves away or restores.
            Pooling = false,
        }.ToString());
        try
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA busy_timeout=5000; PRAGMA temp_store=MEMORY; " + pragmas;
            command.ExecuteNonQuery();
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }
}
