namespace Runnel.Cli.Inputs;

/// <summary>Writes files that users ask for. The old file stays until the new one is whole.</summary>
internal static class OutputFile
{
    public static async Task WriteAsync(string path, Func<Stream, Task> write)
    {
        if (Directory.Exists(path)) throw new RefusedException(path, "is a folder, not a file", "Name a file in it");
        // A device or a pipe has no old content to protect, and nothing can be moved over it.
        string target = IsSpecial(path) ? path : path + ".part";
        try
        {
            await using (var file = new FileStream(target, FileMode.Create, FileAccess.Write))
            {
                await write(file);
                await file.FlushAsync(CancellationToken.None);
            }

            if (target != path) File.Move(target, path, overwrite: true);
        }
        catch (Exception error)
        {
            if (target != path) TryDelete(target);
            throw error is IOException or UnauthorizedAccessException ? Refused(path, error) : error;
        }
    }

    private static bool IsSpecial(string path) =>
        File.Exists(path) && (File.GetAttributes(path) & (FileAttributes.Device | FileAttributes.ReparsePoint)) != 0
        || path.StartsWith("/dev/", StringComparison.Ordinal);

    private static RefusedException Refused(string path, Exception error) => error switch
    {
        DirectoryNotFoundException => new(path, "the folder does not exist", "Make it first, or name another file"),
        UnauthorizedAccessException => new(path, "may not be written", "Check the rights on the folder, or name another file"),
        _ => new(path, $"could not be written ({error.Message.TrimEnd('.')})", "Check the free space and the disk, or name another file"),
    };

    private static void TryDelete(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // The first error is the one to tell.
        }
    }
}
