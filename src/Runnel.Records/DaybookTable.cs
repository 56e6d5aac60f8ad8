using Microsoft.Data.Sqlite;
using NodaTime;
using Runnel.Place;
using Runnel.Records.Reading;
using Runnel.Records.Writing;

namespace Runnel.Records;

/// <summary>What people wrote down. The same entry again changes nothing.</summary>
public sealed class DaybookTable
{
    private readonly SqliteConnection _connection;
    private readonly GroupCommit _commits;
    private readonly string _path;

    internal DaybookTable(SqliteConnection connection, GroupCommit commits, string path) =>
        (_connection, _commits, _path) = (connection, commits, path);

    /// <summary>Stores entries and tells how many were new.</summary>
    public Task<int> AddAsync(IReadOnlyList<DaybookEntry> entries, CancellationToken cancel) => _commits.WriteAsync(() => Add(entries), cancel);

    /// <summary>All entries in time order; those of one time in the order they came.</summary>
    public Task<IReadOnlyList<DaybookEntry>> ReadAllAsync(CancellationToken cancel) => Task.Run(ReadAll, cancel);

    private int Add(IReadOnlyList<DaybookEntry> entries)
    {
        using var insert = new PreparedStatement(
            _connection,
            "INSERT INTO daybook (time, entry, of, litres, by, note) VALUES (@time, @entry, @of, @litres, @by, @note) ON CONFLICT DO NOTHING",
            "@time", "@entry", "@of", "@litres", "@by", "@note");
        return entries.Sum(e => insert.Run(
            e.Time.ToUnixTimeTicks(), e.Entry, e.Of ?? "", (object?)e.Litres ?? DBNull.Value, e.By ?? "", e.Note ?? ""));
    }

    private IReadOnlyList<DaybookEntry> ReadAll()
    {
        try
        {
            using var snapshot = new Snapshot(_path);
            using var all = new PreparedStatement(
                snapshot.Connection, "SELECT time, entry, of, litres, by, note FROM daybook ORDER BY time, number");
            using var row = all.Rows();
            var entries = new List<DaybookEntry>();
            while (row.Read())
            {
                entries.Add(new DaybookEntry(
                    Instant.FromUnixTimeTicks(row.GetInt64(0)), row.GetString(1), Text(row, 2),
                    row.IsDBNull(3) ? null : row.GetDouble(3), Text(row, 4), Text(row, 5)));
            }

            return entries;
        }
        catch (SqliteException error)
        {
            throw RecordsException.From(error, _path);
        }
    }

    private static string? Text(SqliteDataReader row, int column) => row.GetString(column) is { Length: > 0 } text ? text : null;
}
