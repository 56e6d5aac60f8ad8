using System.CommandLine;
using Runnel.Cli.Inputs;
using Runnel.Twin.Invented;
using Runnel.Web.Hosting;

namespace Runnel.Cli.Pages;

/// <summary><c>runnel demo</c>: writes an invented place with its log, and opens the pages on it.</summary>
internal static class DemoCommand
{
    public static Command Create(Terminal terminal)
    {
        var into = new Option<string>("--into") { Description = "Folder for the invented place.", HelpName = "FOLDER", DefaultValueFactory = _ => "demo" };
        var filesOnly = new Option<bool>("--files-only") { Description = "Write the files and do not open the pages." };
        var port = ServedPages.PortOption();
        var host = ServedPages.HostOption();
        var folder = RunCommand.FolderOption();
        var command = new WorkedCommand(
            "demo",
            "Makes an invented place with 60 days of its log, and opens the pages on it.",
            "runnel demo --into demo --files-only\nrunnel diagnose --place demo/place.toml demo/log.csv --daybook demo/daybook.csv")
        {
            into, filesOnly, port, host, folder,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            await WriteFilesAsync(parsed.GetValue(into)!, terminal);
            if (parsed.GetValue(filesOnly)) return ExitCodes.Done;
            var options = new RunnelPagesOptions { WorkFolder = RunCommand.FolderOf(parsed.GetValue(folder)) };
            return await ServedPages.RunAsync(parsed.GetValue(host)!, parsed.GetValue(port), options, terminal, cancel);
        });
        return command;
    }

    /// <summary>Files that are there stay: they may have been changed to try something.</summary>
    private static async Task WriteFilesAsync(string folder, Terminal terminal)
    {
        (string Name, Action<InventedLog, TextWriter> Write)[] files =
        [
            ("place.toml", (log, to) => to.Write(log.PlaceToml)), ("daybook.csv", CsvText.WriteDaybook), ("log.csv", CsvText.WriteLog),
        ];
        var missing = files.Where(f => !File.Exists(Path.Combine(folder, f.Name))).ToList();
        if (missing.Count == 0) return;
        try
        {
            Directory.CreateDirectory(folder);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RefusedException(folder, $"the folder cannot be made ({error.Message.TrimEnd('.')})", "Name another with --into");
        }

        var made = InventedDemo.Make();
        foreach (var (name, write) in missing)
        {
            await OutputFile.WriteAsync(Path.Combine(folder, name), async stream =>
            {
                await using var writer = new StreamWriter(stream, leaveOpen: true);
                write(made, writer);
            });
        }

        await terminal.TellAsync($"an invented place and 60 days of its log are in {folder}.");
    }
}
