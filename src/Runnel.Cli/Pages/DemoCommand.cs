using System.CommandLine;
using Runnel.Cli.Inputs;
using Runnel.Exchange.Daybook;
using Runnel.Exchange.Logs;
using Runnel.Place.Findings;
using Runnel.Place.PlaceFiles;
using Runnel.Steward;
using Runnel.Twin.Invented;
using Runnel.Web.Hosting;

namespace Runnel.Cli.Pages;

/// <summary><c>runnel demo</c>: writes an invented place with its log, and opens the pages on it.</summary>
internal static class DemoCommand
{
    public const string PlaceName = "place.toml";
    public const string LogName = "log.csv";
    public const string DaybookName = "daybook.csv";

    // A loop whose drains foul while its keeper's rule pours: the case that a pump log alone explains best.
    private const string StoryName = "drain-fouling-2";
    private const int Seed = 11;
    private const int Days = 60;

    public static Command Create(Terminal terminal)
    {
        var into = new Option<string>("--into") { Description = "Folder for the invented place.", HelpName = "FOLDER", DefaultValueFactory = _ => "demo" };
        var filesOnly = new Option<bool>("--files-only") { Description = "Write the files and do not open the pages." };
        var port = ServedPages.PortOption();
        var host = ServedPages.HostOption();
        var folder = RunCommand.FolderOption();
        var command = new WorkedCommand(
            "demo",
            $"Makes an invented place with {Days} days of its log, and opens the pages on it.",
            "runnel demo --into demo --files-only\nrunnel diagnose --place demo/place.toml demo/log.csv --daybook demo/daybook.csv")
        {
            into, filesOnly, port, host, folder,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            string demo = parsed.GetValue(into)!;
            await WriteFilesAsync(demo, terminal);
            if (parsed.GetValue(filesOnly)) return ExitCodes.Done;
            var options = new RunnelPagesOptions
            {
                WorkFolder = RunCommand.FolderOf(parsed.GetValue(folder)),
                InventedLog = () => Read(demo),
            };
            return await ServedPages.RunAsync(parsed.GetValue(host)!, parsed.GetValue(port), options, terminal, cancel);
        });
        return command;
    }

    /// <summary>Made once: the same generator gives the same files, and what a user changed in them stays.</summary>
    private static async Task WriteFilesAsync(string folder, Terminal terminal)
    {
        string[] files = [Path.Combine(folder, PlaceName), Path.Combine(folder, DaybookName), Path.Combine(folder, LogName)];
        if (files.All(File.Exists)) return;
        try
        {
            Directory.CreateDirectory(folder);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RefusedException(folder, $"the folder cannot be made ({error.Message.TrimEnd('.')})", "Name another with --into");
        }

        var log = InventedLogs.Make(LoopKind.SwitchLog, Stories.Find(StoryName)!, Seed, Days);
        await WriteAsync(files[0], to => to.Write(log.PlaceToml));
        await WriteAsync(files[1], to => CsvText.WriteDaybook(log, to));
        await WriteAsync(files[2], to => CsvText.WriteLog(log, to));
        await terminal.TellAsync($"an invented place and {Days} days of its log are in {folder}.");
    }

    private static Task WriteAsync(string path, Action<TextWriter> write) =>
        OutputFile.WriteAsync(path, async stream =>
        {
            await using var writer = new StreamWriter(stream, leaveOpen: true);
            write(writer);
        });

    /// <summary>The same way in as for a log that is dropped: what the first page shows is what a user's own log gives.</summary>
    private static Diagnosis Read(string folder)
    {
        string placePath = Path.Combine(folder, PlaceName);
        var place = PlaceFile.Read(File.ReadAllText(placePath), placePath).Place
            ?? throw new InvalidDataException($"{placePath} was changed and is no longer valid");
        using var log = InputFile.Open(Path.Combine(folder, LogName));
        var readings = LogReader.Read(log, place, LogReadOptions.Default, null, CancellationToken.None);
        using var daybook = InputFile.Open(Path.Combine(folder, DaybookName));
        return Diagnose.Log(place, readings, DaybookReader.Read(daybook, place, CancellationToken.None).Entries);
    }
}
