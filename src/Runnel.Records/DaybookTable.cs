using Microsoft.Data.Sqlite;
using NodaTime;
using Runnel.Place;
using Runnel.Records.Reading;
using Runnel.Records.Writing;

namespace Runnel.Records;

/// <summary>What people wrote down. The same entry again changes nothing; a changed one keeps how it read before.</summary>
public sealed class DaybookTable
{
    private const string Columns = "time, entry, of, litres, by, note";
    private readonly SqliteConnection _connection;
    private readonly GroupCommit _commits;
    private readonly string _path;

    internal DaybookTable(SqliteConnection connection, GroupCommit commits, string path) =>
        (_connection, _commits, _path) = (connection, commits, path);

    /// <summary>Stores entries and tells how many were new.</summary>
    public Task<int> AddAsync(IReadOnlyList<DaybookEntry> entries, CancellationToken cancel) =>
        _commits.WriteAsync(() => entries.Count(e => Add(e, null, null) is not null), cancel);

    /// <summary>Stores an entry that a person writes now; null where the same one is there already.</summary>
    /// <param name="entry">What happened.</param>
    /// <param name="written">When it was written down.</param>
    /// <param name="until">Of work: when it is meant to end.</param>
    /// <param name="cancel">Stops the waiting.</param>
    public Task<long?> WriteAsync(DaybookEntry entry, Instant written, Instant? until, CancellationToken cancel) =>
        _commits.WriteAsync(() => Add(entry, written, until), cancel);

    /// <summary>Gives an entry another reading; the old one is kept beside it. False where there is no such entry.</summary>
    public Task<bool> CorrectAsync(long number, DaybookEntry now, Instant at, string? by, CancellationToken cancel) =>
        _commits.WriteAsync(() => Correct(number, now, struck: false, at, by), cancel);

    /// <summary>Takes an entry back; it stays to be seen. False where there is no such entry.</summary>
    public Task<bool> StrikeAsync(long number, Instant at, string? by, CancellationToken cancel) =>
        _commits.WriteAsync(() => Correct(number, null, struck: true, at, by), cancel);

    /// <summary>All entries that hold, in time order; those of one time in the order they came.</summary>
    public async Task<IReadOnlyList<DaybookEntry>> ReadAllAsync(CancellationToken cancel) =>
        [.. (await ListAsync(cancel)).Where(r => !r.Struck).Select(r => r.Entry)];

    /// <summary>All entries, struck ones too, with how they read before; in time order.</summary>
    public Task<IReadOnlyList<DaybookRow>> ListAsync(CancellationToken cancel) => Task.Run(List, cancel);

    internal static string? Text(SqliteDataReader row, int column) => row.GetString(column) is { Length: > 0 } text ? text : null;

    private static object[] Values(DaybookEntry e) =>
        [e.Time.ToUnixTimeTicks(), e.Entry, e.Of ?? "", (object?)e.Litres ?? DBNull.Value, e.By ?? "", e.Note ?? ""];

    private static object Ticks(Instant? time) => time is { } t ? t.ToUnixTimeTicks() : DBNull.Value;

    private long? Add(DaybookEntry entry, Instant? written, Instant? until)
    {
        using var known = new PreparedStatement(
            _connection,
            "SELECT 1 FROM daybook_before WHERE time = @time AND entry = @entry AND of = @of AND litres IS @litres AND by = @by AND note = @note",
            "@time", "@entry", "@of", "@litres", "@by", "@note");
        // Read in again from the file it came from, after somebody had corrected it here.
        if (written is null && known.Value(Values(entry)) is not null) return null;
        using var insert = new PreparedStatement(
            _connection,
            $"INSERT INTO daybook ({Columns}, written, until) VALUES (@time, @entry, @of, @litres, @by, @note, @written, @until) ON CONFLICT DO NOTHING",
            "@time", "@entry", "@of", "@litres", "@by", "@note", "@written", "@until");
        if (insert.Run([.. Values(entry), Ticks(written), Ticks(until)]) == 0) return null;
        using var last = new PreparedStatement(_connection, "SELECT last_insert_rowid()");
        return (long)last.Value()!;
    }

    private bool Correct(long number, DaybookEntry? now, bool struck, Instant at, string? by)
    {
        using var keep = new PreparedStatement(
            _connection,
            $"INSERT INTO daybook_before (of_entry, changed, changed_by, {Columns}) SELECT number, @at, @by, {Columns} FROM daybook WHERE number = @number AND struck = 0",
            "@number", "@at", "@by");
        if (keep.Run(number, at.ToUnixTimeTicks(), by ?? "") == 0) return false;
        if (now is null)
        {
            using var strike = new PreparedStatement(_connection, "UPDATE daybook SET struck = @struck WHERE number = @number", "@number", "@struck");
            return strike.Run(number, struck ? 1 : 0) == 1;
        }

        using var change = new PreparedStatement(
            _connection,
            "UPDATE OR IGNORE daybook SET time = @time, entry = @entry, of = @of, litres = @litres, by = @by, note = @note WHERE number = @number",
            "@time", "@entry", "@of", "@litres", "@by", "@note", "@number");
        return change.Run([.. Values(now), number]) == 1;
    }

    private IReadOnlyList<DaybookRow> List()
    {
        try
        {
            using var snapshot = new Snapshot(_path);
            var before = Before(snapshot.Connection);
            using var all = new PreparedStatement(
                snapshot.Connection, $"SELECT {Columns}, number, written, until, struck FROM daybook ORDER BY time, number");
            using var row = all.Rows();
            var rows = new List<DaybookRow>();
            while (row.Read())
            {
                long number = row.GetInt64(6);
                rows.Add(new DaybookRow(number, Entry(row), Time(row, 7), Time(row, 8), row.GetInt64(9) == 1, before.GetValueOrDefault(number) ?? []));
            }

            return rows;
        }
        catch (SqliteException error)
        {
            throw RecordsException.From(error, _path);
        }
    }

    private static Dictionary<long, List<EarlierEntry>> Before(SqliteConnection connection)
    {
        using var all = new PreparedStatement(connection, $"SELECT {Columns}, of_entry, changed, changed_by FROM daybook_before ORDER BY number");
        using var row = all.Rows();
        var before = new Dictionary<long, List<EarlierEntry>>();
        while (row.Read())
        {
            long number = row.GetInt64(6);
            if (!before.TryGetValue(number, out var list)) before[number] = list = [];
            list.Add(new EarlierEntry(Entry(row), Instant.FromUnixTimeTicks(row.GetInt64(7)), Text(row, 8)));
        }

        return before;
    }

    private static Instant? Time(SqliteDataReader row, int column) =>
        row.IsDBNull(column) ? null : Instant.FromUnixTimeTicks(row.GetInt64(column));

    private static DaybookEntry Entry(SqliteDataReader row) => new(
        Instant.FromUnixTimeTicks(row.GetInt64(0)), row.GetString(1), Text(row, 2),
        row.IsDBNull(3) ? null : row.GetDouble(3), Text(row, 4), Text(row, 5));
}
