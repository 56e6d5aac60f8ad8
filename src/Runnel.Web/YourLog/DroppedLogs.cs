using System.Security.Cryptography;
using Runnel.Web.Hosting;

namespace Runnel.Web.YourLog;

/// <summary>Keeps dropped logs in the working folder, one folder each, and forgets them after a while.</summary>
public sealed class DroppedLogs(RunnelPagesOptions options, TimeProvider clock)
{
    private const int IdBytes = 16;

    /// <summary>Takes a log in. Only a whole one appears under its id.</summary>
    /// <exception cref="IOException">The disk is full or cannot be written.</exception>
    public async Task<DroppedLog> KeepAsync(Stream content, string fileName, CancellationToken cancel)
    {
        ForgetOld();
        string id = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(IdBytes));
        var log = new DroppedLog(id, Path.Combine(options.WorkFolder, id), Shown(fileName));
        Directory.CreateDirectory(log.Folder);
        try
        {
            await SaveAsync(content, log.LogPath, cancel);
            // The name goes in last: a folder without it is an upload that broke off.
            await File.WriteAllTextAsync(NamePath(log.Folder), log.FileName, cancel);
            return log;
        }
        catch
        {
            Delete(log.Folder);
            throw;
        }
    }

    /// <summary>The log of that id, or null where there is none (any more).</summary>
    public DroppedLog? Find(string id)
    {
        // Only our own form of id: nothing else may become part of a path.
        if (id.Length != IdBytes * 2 || !id.All(char.IsAsciiHexDigitLower)) return null;
        string folder = Path.Combine(options.WorkFolder, id);
        return File.Exists(NamePath(folder)) ? new(id, folder, File.ReadAllText(NamePath(folder))) : null;
    }

    /// <summary>Writes beside and then moves, so that a reader never sees half a file.</summary>
    public static async Task SaveAsync(Stream content, string path, CancellationToken cancel)
    {
        string part = path + ".part";
        await using (FileStream file = File.Create(part)) await content.CopyToAsync(file, cancel);
        File.Move(part, path, overwrite: true);
    }

    /// <summary>Deletes a log and all that was made from it.</summary>
    public static void Forget(DroppedLog log) => Delete(log.Folder);

    private void ForgetOld()
    {
        if (!Directory.Exists(options.WorkFolder)) return;
        DateTime before = clock.GetUtcNow().UtcDateTime - options.KeepLogsFor;
        foreach (string folder in Directory.EnumerateDirectories(options.WorkFolder))
        {
            if (Path.GetFileName(folder).Length == IdBytes * 2 && Directory.GetLastWriteTimeUtc(folder) < before) Delete(folder);
        }
    }

    private static void Delete(string folder)
    {
        try
        {
            Directory.Delete(folder, recursive: true);
        }
        catch (DirectoryNotFoundException)
        {
            // Someone else was quicker.
        }
    }

    private static string NamePath(string folder) => Path.Combine(folder, "name.txt");

    private static string Shown(string fileName)
    {
        string name = new([.. Path.GetFileName(fileName.Replace('\\', '/')).Where(c => !char.IsControl(c))]);
        return name.Length is 0 ? "log.csv" : name.Length > 120 ? name[..120] : name;
    }
}
