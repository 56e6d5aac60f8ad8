using Microsoft.Data.Sqlite;
using Runnel.Records.Opening;

namespace Runnel.Records.Reading;

/// <summary>A reading connection held at one state of the file.</summary>
internal sealed class Snapshot : IDisposable
{
    private readonly SqliteTransaction _transaction;

    public Snapshot(string path)
    {
        Connection = RecordsFile.OpenReader(path);
        _transaction = Connection.BeginTransaction(deferred: true);
    }

    public SqliteConnection Connection { get; }

    public void Dispose()
    {
        _transaction.Dispose();
        Connection.Dispose();
    }
}
