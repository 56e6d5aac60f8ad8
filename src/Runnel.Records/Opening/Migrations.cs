using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Runnel.Records.Opening;

/// <summary>Brings a file of records to today's form, one numbered step after the other, after setting a copy aside.</summary>
internal static class Migrations
{
    /// <summary>Marks the file as ours, so that another program's database is never touched. The letters "Runl".</summary>
    private const int ApplicationId = 0x52756E6C;

    private const string Folder = "Runnel.Records.Migrations.";

    /// <summary>The numbered scripts, first to last.</summary>
    public static IReadOnlyList<string> Scripts { get; } =
        [.. typeof(Migrations).Assembly.GetManifestResourceNames().Where(n => n.StartsWith(Folder, StringComparison.Ordinal)).Order(StringComparer.Ordinal)];

    public static void Run(SqliteConnection connection, string path) => Run(connection, path, Scripts.Count);

    /// <summary>Up to a given version; only tests stop short of the last.</summary>
    public static void Run(SqliteConnection connection, string path, int upTo)
    {
        long owner = Scalar(connection, "PRAGMA application_id");
        long tables = Scalar(connection, "SELECT count(*) FROM sqlite_schema");
        if (owner != ApplicationId && tables > 0) throw RecordsException.Corrupt(path);

        int version = (int)Scalar(connection, "PRAGMA user_version");
        if (version > Scripts.Count)
        {
            throw new RecordsException(path, "the records were written by a newer version", "Use that version, or name another file with --records");
        }

        if (version >= upTo) return;
        if (version > 0) CopyFirst(connection, path, version);
        for (int next = version + 1; next <= upTo; next++)
        {
            using var transaction = connection.BeginTransaction();
            Execute(connection, Script(next));
            Execute(connection, $"PRAGMA application_id = {ApplicationId.ToString(CultureInfo.InvariantCulture)}");
            Execute(connection, $"PRAGMA user_version = {next.ToString(CultureInfo.InvariantCulture)}");
            transaction.Commit();
        }
    }

    /// <summary>Where the copy of a file of that version is put before it is changed.</summary>
    public static string CopyName(string path, int version) => $"{path}.version-{version.ToString(CultureInfo.InvariantCulture)}";

    private static void CopyFirst(SqliteConnection connection, string path, int version)
    {
        string copy = CopyName(path, version);
        // Written beside and moved: a copy cut short by a full disk must not pass for a whole one.
        string half = copy + ".part";
        File.Delete(half);
        using (var command = connection.CreateCommand())
        {
            command.CommandText = "VACUUM INTO @half";
            command.Parameters.AddWithValue("@half", half);
            command.ExecuteNonQuery();
        }

        File.Move(half, copy, overwrite: true);
    }

    private static string Script(int number)
    {
        using var stream = typeof(Migrations).Assembly.GetManifestResourceStream(Scripts[number - 1])!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    private static long Scalar(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return (long)command.ExecuteScalar()!;
    }

    private static void Execute(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
