using System.CommandLine;
using Runnel.Exchange;
using Runnel.Exchange.Daybook;
using Runnel.Place;

namespace Runnel.Cli.Inputs;

/// <summary>The daybook a command may be given.</summary>
internal static class DaybookInput
{
    public static Option<string?> Option() => new("--daybook")
    {
        Description = "What people wrote down (CSV: time,entry,of,amount,unit,by,note).",
        HelpName = "FILE",
    };

    public static async Task<IReadOnlyList<DaybookEntry>> ReadAsync(
        string? path, PlaceDescription place, Terminal terminal, CancellationToken cancel)
    {
        if (path is null) return [];
        try
        {
            using var file = InputFile.Open(path);
            var book = await Task.Run(() => DaybookReader.Read(file, place, cancel), cancel);
            foreach (var skipped in book.Skipped)
            {
                await terminal.TellAsync($"{path}:{skipped.FirstLine}: {skipped.Count} entries not taken: {skipped.Reason}.");
            }

            foreach (string remark in book.Remarks) await terminal.TellAsync($"{path}: {remark}");
            return book.Entries;
        }
        catch (UnreadableFileException error)
        {
            throw new RefusedException($"{path}:{error.Line}:{error.Column}", error.What, error.Remedy);
        }
    }
}
