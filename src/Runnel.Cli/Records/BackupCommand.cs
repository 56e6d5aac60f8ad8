using System.CommandLine;
using System.Globalization;
using Runnel.Records;

namespace Runnel.Cli.Records;

/// <summary><c>runnel backup</c>: a whole copy of the records, also while the place runs.</summary>
internal static class BackupCommand
{
    public static Command Create(Terminal terminal)
    {
        var records = RecordsInput.Option();
        var to = new Option<string>("--to") { Description = "The file to write; an older copy of that name is replaced once the new one is whole.", HelpName = "FILE", Required = true };
        var command = new WorkedCommand(
            "backup",
            "Copies the records as they stand at one moment, also while the place runs. To restore, stop Runnel and put the copy in the records' place.",
            "runnel backup --to records-copy.sqlite")
        {
            records, to,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            string from = RecordsInput.PathFor(parsed.GetValue(records), null), copy = parsed.GetValue(to)!;
            if (!File.Exists(from)) throw new RefusedException(from, "there are no records", "Name them with --records");
            if (Path.GetFullPath(from) == Path.GetFullPath(copy)) throw RefusedException.WrongUsage("--to", "that is the file of records itself", "Name another file");
            long bytes = await RecordsInput.RefusingAsync(() => RecordsBackup.CopyAsync(from, copy, cancel));
            await terminal.Out.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{copy}: {bytes / 1e6:0.0} MB, whole and checked."));
            return ExitCodes.Done;
        });
        return command;
    }
}
