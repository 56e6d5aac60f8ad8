using Microsoft.Data.Sqlite;
using NodaTime;
using Runnel.Records.Reading;
using Runnel.Records.Writing;

namespace Runnel.Records;

/// <summary>What somebody said about a notice or a question.</summary>
/// <param name="About">Key of the notice or question.</param>
/// <param name="At">When.</param>
/// <param name="Word"><c>acknowledged</c> or <c>answered</c>.</param>
/// <param name="Was">The answer; empty for an acknowledgement.</param>
/// <param name="By">Who.</param>
/// <param name="Note">In their words.</param>
public sealed record Saying(string About, Instant At, string Word, string Was, string? By, string? Note);

/// <summary>All that people said about notices and questions; nothing is ever taken out.</summary>
public sealed class SaidTable
{
    private readonly SqliteConnection _connection;
    private readonly GroupCommit _commits;
    private readonly string _path;

    internal SaidTable(SqliteConnection connection, GroupCommit commits, string path) => (_connection, _commits, _path) = (connection, commits, path);

    public Task AddAsync(Saying saying, CancellationToken cancel) => _commits.WriteAsync(
        () =>
        {
            using var insert = new PreparedStatement(
                _connection,
                "INSERT INTO said (about, at, word, was, by, note) VALUES (@about, @at, @word, @was, @by, @note)",
                "@about", "@at", "@word", "@was", "@by", "@note");
            return insert.Run(saying.About, saying.At.ToUnixTimeTicks(), saying.Word, saying.Was, saying.By ?? "", saying.Note ?? "");
        },
        cancel);

    /// <summary>Everything said, in the order in which it was.</summary>
    public Task<IReadOnlyList<Saying>> ReadAllAsync(CancellationToken cancel) => Task.Run(ReadAll, cancel);

    private IReadOnlyList<Saying> ReadAll()
    {
        try
        {
            using var snapshot = new Snapshot(_path);
            using var all = new PreparedStatement(snapshot.Connection, "SELECT about, at, word, was, by, note FROM said ORDER BY number");
            using var row = all.Rows();
            var said = new List<Saying>();
            while (row.Read())
            {
                said.Add(new Saying(
                    row.GetString(0), Instant.FromUnixTimeTicks(row.GetInt64(1)), row.GetString(2), row.GetString(3),
                    DaybookTable.Text(row, 4), DaybookTable.Text(row, 5)));
            }

            return said;
        }
        catch (SqliteException error)
        {
            throw RecordsException.From(error, _path);
        }
    }
}
