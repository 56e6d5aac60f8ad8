using Microsoft.Data.Sqlite;
using NodaTime;
using Runnel.Records.Reading;
using Runnel.Records.Writing;

namespace Runnel.Records;

/// <summary>A text of the place file and when it came into force.</summary>
public sealed record PlaceText(Instant Since, string Text);

/// <summary>Every text of the place file that was in force.</summary>
public sealed class PlaceTextTable
{
    private readonly SqliteConnection _connection;
    private readonly GroupCommit _commits;
    private readonly string _path;

    internal PlaceTextTable(SqliteConnection connection, GroupCommit commits, string path) =>
        (_connection, _commits, _path) = (connection, commits, path);

    /// <summary>Keeps a text unless it is the one in force; tells whether it was kept.</summary>
    public Task<bool> KeepAsync(string text, Instant since, CancellationToken cancel) =>
        _commits.WriteAsync(() => Keep(text, since), cancel);

    /// <summary>The text in force, or null.</summary>
    public Task<PlaceText?> LatestAsync(CancellationToken cancel) => Task.Run(Latest, cancel);

    private bool Keep(string text, Instant since)
    {
        using var insert = new PreparedStatement(
            _connection,
            """
            INSERT INTO place (since, text) SELECT @since, @text
            WHERE @text IS NOT (SELECT text FROM place ORDER BY number DESC LIMIT 1)
            """,
            "@since", "@text");
        return insert.Run(since.ToUnixTimeTicks(), text) == 1;
    }

    private PlaceText? Latest()
    {
        try
        {
            using var snapshot = new Snapshot(_path);
            using var latest = new PreparedStatement(snapshot.Connection, "SELECT since, text FROM place ORDER BY number DESC LIMIT 1");
            using var row = latest.Rows();
            return row.Read() ? new PlaceText(Instant.FromUnixTimeTicks(row.GetInt64(0)), row.GetString(1)) : null;
        }
        catch (SqliteException error)
        {
            throw RecordsException.From(error, _path);
        }
    }
}
