using Microsoft.Data.Sqlite;
using Runnel.Records.Opening;

namespace Runnel.Records;

/// <summary>Copies the records as they stand at one moment, also while another process writes to them.</summary>
public static class RecordsBackup
{
    /// <summary>Writes a whole, sound copy to <paramref name="to"/>; a copy cut short never bears that name.</summary>
    /// <returns>Size of the copy, bytes.</returns>
    /// <exception cref="RecordsException">The records or the copy cannot be read or written.</exception>
    public static Task<long> CopyAsync(string path, string to, CancellationToken cancel) => Task.Run(() => Copy(path, Path.GetFullPath(to)), cancel);

    private static long Copy(string path, string to)
    {
        string half = to + ".part";
        try
        {
            File.Delete(half);
            using (var source = RecordsFile.OpenReader(path))
            using (var target = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = half, Pooling = false }.ToString()))
            {
                target.Open();
                source.BackupDatabase(target);
                using var check = target.CreateCommand();
                check.CommandText = "PRAGMA journal_mode=DELETE; PRAGMA quick_check";
                using var row = check.ExecuteReader();
                row.NextResult();
                if (!row.Read() || row.GetString(0) != "ok") throw RecordsException.Corrupt(path);
            }

            File.Move(half, to, overwrite: true);
            return new FileInfo(to).Length;
        }
        catch (SqliteException error)
        {
            File.Delete(half);
            throw RecordsException.From(error, path);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RecordsException(to, error.Message.TrimEnd('.'), "Name a file in a folder where you may write", error);
        }
    }
}
