using System.CommandLine;
using Runnel.Place;
using Runnel.Place.PlaceFiles;

namespace Runnel.Cli.Inputs;

/// <summary>The place file a command is given.</summary>
internal static class PlaceInput
{
    /// <summary>Far beyond any household's; a log named by mistake is told at once.</summary>
    private const long MostBytes = 4 * 1024 * 1024;

    public static Option<string?> Option() => new("--place")
    {
        Description = "The place file (TOML): vessels, equipment and channels.",
        HelpName = "FILE",
    };

    /// <summary>Reads it; everything that is wrong with it is told at once.</summary>
    public static async Task<(PlaceDescription Place, string Text)> ReadAsync(
        string? path, PlaceNeeds needs, Terminal terminal, CancellationToken cancel)
    {
        if (path is null)
        {
            throw RefusedException.WrongUsage(
                "--place", "no place file was named", "Add --place FILE, or make one with 'runnel new --from-log LOG.csv'");
        }

        var (read, text) = await ParseAsync(path, needs, cancel);
        if (read.Place is not { } place) throw Refused(read);
        foreach (string remark in read.Remarks) await terminal.TellAsync($"{path}: {remark}");
        return (place, text);
    }

    /// <summary>Reads it, sound or not.</summary>
    public static async Task<(PlaceFileResult Read, string Text)> ParseAsync(string path, PlaceNeeds needs, CancellationToken cancel)
    {
        if (!File.Exists(path) && !Directory.Exists(path))
        {
            throw new RefusedException(path, "there is no such place file", "Check the name, or make one with 'runnel new --from-log LOG.csv'");
        }

        string text = await InputFile.ReadTextAsync(path, MostBytes, cancel);
        return (PlaceFile.Read(text, path, needs), text);
    }

    /// <summary>Every problem of the file, a line each.</summary>
    public static RefusedException Refused(PlaceFileResult read) => new(
        ExitCodes.CouldNot, [.. read.Problems.Select(p => RefusedException.Line($"{p.File}:{p.Line}:{p.Column}", p.What, p.Remedy))]);
}
