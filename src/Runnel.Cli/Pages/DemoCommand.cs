using System.CommandLine;
using Runnel.Cli.Inputs;
using Runnel.Twin.Invented;

namespace Runnel.Cli.Pages;

/// <summary><c>runnel demo</c>: runs an invented place, or writes one with its log.</summary>
internal static class DemoCommand
{
    private const string PlaceName = "quince-court.toml";

    public static Command Create(Terminal terminal)
    {
        var into = new Option<string>("--into") { Description = "Folder for the invented place.", HelpName = "FOLDER", DefaultValueFactory = _ => "demo" };
        var filesOnly = new Option<bool>("--files-only") { Description = "Write an invented place file with 60 days of its log and daybook, and run nothing." };
        var pace = new Option<double>("--pace") { Description = "How many times as fast as the clock the place lives, 1 to 3600.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var fault = new Option<string?>("--fault") { Description = "Something that breaks as the pages open, for example pump-stopped or drain-fouling.", HelpName = "NAME" };
        var mqttPort = RunCommand.MqttPortOption();
        var port = ServedPages.PortOption();
        var host = ServedPages.HostOption();
        var folder = RunCommand.FolderOption();
        var command = new WorkedCommand(
            "demo",
            "Runs an invented place: the twin plays its pump, valves and sensors over MQTT, and its last 30 days are lived through first.",
            "runnel demo --pace 60 --fault drain-fouling")
        {
            into, filesOnly, pace, fault, mqttPort, host, port, folder,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            string demo = parsed.GetValue(into)!;
            if (parsed.GetValue(filesOnly))
            {
                await WriteFilesAsync(demo, terminal);
                return ExitCodes.Done;
            }

            double told = parsed.GetValue(pace);
            if (!(told is >= 1 and <= 3600)) throw RefusedException.WrongUsage("--pace", "it is not from 1 to 3600", "Give a number, for example --pace 60");
            var settings = new RunSettings(parsed.GetValue(host)!, parsed.GetValue(port), parsed.GetValue(mqttPort), RunCommand.FolderOf(parsed.GetValue(folder)));
            string live = Path.Combine(demo, "live");
            return await RunningPlace.DemoAsync(await CopyPlaceAsync(live), told, parsed.GetValue(fault), settings, terminal, cancel);
        });
        return command;
    }

    /// <summary>The invented place's file, carried inside the program; written anew each time, since its records are too.</summary>
    private static async Task<string> CopyPlaceAsync(string folder)
    {
        string path = Path.Combine(folder, PlaceName);
        try
        {
            Directory.CreateDirectory(folder);
            await using var from = typeof(DemoCommand).Assembly.GetManifestResourceStream(PlaceName)!;
            await using var to = File.Create(path);
            await from.CopyToAsync(to);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RefusedException(path, $"the invented place cannot be written ({error.Message.TrimEnd('.')})", "Name another folder with --into");
        }

        return path;
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
