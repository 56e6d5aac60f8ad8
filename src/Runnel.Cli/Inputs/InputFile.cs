namespace Runnel.Cli.Inputs;

/// <summary>Opens files that users name; what is wrong with them is told in one line.</summary>
internal static class InputFile
{
    public static FileStream Open(string path)
    {
        try
        {
            if (Directory.Exists(path)) throw new RefusedException(path, "is a folder, not a file", "Name the file itself");
            return new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, 1 << 16, FileOptions.SequentialScan);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw Refused(path, error);
        }
    }

    public static async Task<string> ReadTextAsync(string path, long mostBytes, CancellationToken cancel)
    {
        await using var file = Open(path);
        if (file.Length > mostBytes)
        {
            throw new RefusedException(path, $"is larger than {mostBytes / 1024} kB, too large for what it should be", "Name the right file");
        }

        try
        {
            using var reader = new StreamReader(file);
            return await reader.ReadToEndAsync(cancel);
        }
        catch (IOException error)
        {
            throw Refused(path, error);
        }
    }

    public static RefusedException Refused(string path, Exception error) => error switch
    {
        FileNotFoundException or DirectoryNotFoundException => new(path, "there is no such file", "Check the name and the folder"),
        UnauthorizedAccessException => new(path, "may not be read", "Check the rights on the file"),
        _ => new(path, $"cannot be read ({error.Message.TrimEnd('.')})", "Check the disk and the name of the file"),
    };
}
