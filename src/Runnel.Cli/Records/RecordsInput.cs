using System.CommandLine;
using Runnel.Cli.Inputs;
using Runnel.Records;

namespace Runnel.Cli.Records;

/// <summary>The file of records a command works on.</summary>
internal static class RecordsInput
{
    public const string UsualName = "records.sqlite";

    public static Option<string?> Option() => new("--records")
    {
        Description = $"The file of records. [default: {UsualName} beside the place file, or in this folder]",
        HelpName = "FILE",
    };

    /// <summary>Beside the place file, so that a place's files travel together.</summary>
    public static string PathFor(string? named, string? placeFile) =>
        named ?? Path.Combine(Path.GetDirectoryName(placeFile) ?? "", UsualName);

    public static async Task<ReadingStore> OpenAsync(string path, bool mustExist, CancellationToken cancel)
    {
        if (mustExist && !File.Exists(path))
        {
            throw new RefusedException(path, "there are no records yet", "Take a log in with 'runnel import', or name another file with --records");
        }

        return await RefusingAsync(() => ReadingStore.OpenAsync(path, cancel));
    }

    /// <summary>Tells trouble with the records as every command tells trouble.</summary>
    public static async Task<T> RefusingAsync<T>(Func<Task<T>> work)
    {
        try
        {
            return await work();
        }
        catch (RecordsException error)
        {
            throw new RefusedException(error.Where, error.What, error.Remedy);
        }
    }
}
