using Microsoft.Data.Sqlite;

namespace Runnel.Records;

/// <summary>The records cannot be read or written; says where, what and what to do about it.</summary>
public sealed class RecordsException(string where, string what, string remedy, Exception? cause = null)
    : Exception($"{where}: {what}. {remedy}.", cause)
{
    public string Where { get; } = where;
    public string What { get; } = what;
    public string Remedy { get; } = remedy;

    /// <summary>In the words of a household, not of the database.</summary>
    internal static RecordsException From(SqliteException error, string path) => error.SqliteErrorCode switch
    {
        5 or 6 => new(path, "another program is writing to the records", "Wait until it is done, or stop it, then try again", error),
        8 or 3 => new(path, "the records cannot be written: file or disk is read-only", "Make the file and its folder writable, or name another with --records", error),
        10 => new(path, "the disk reported an error", "Check the disk and its free space; what was stored before is kept", error),
        11 or 26 => Corrupt(path, error),
        13 => new(path, "the disk is full", "Free some space, then do this again; what was stored before is kept", error),
        14 => new(path, "the records cannot be opened", "Check that the folder exists and that you may write there", error),
        _ => new(path, $"the database reported: {error.Message}", "Try again; if it stays, restore the last copy", error),
    };

    internal static RecordsException Corrupt(string path, Exception? error = null) =>
        new(path, "the file is damaged, or is not a file of records", "Restore a copy, or move the file away and import the logs again", error);
}
