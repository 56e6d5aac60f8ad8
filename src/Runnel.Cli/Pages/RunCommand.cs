using System.CommandLine;
using Runnel.Cli.Inputs;
using Runnel.Cli.Records;
using Runnel.Place.PlaceFiles;
using Runnel.Web.Hosting;

namespace Runnel.Cli.Pages;

/// <summary><c>runnel run</c>: runs a place, or the pages alone.</summary>
internal static class RunCommand
{
    public static Command Create(Terminal terminal)
    {
        var place = new Argument<string?>("PLACE.toml")
        {
            Description = "The place file. Without it: pages where a log is dropped and its findings are read.",
            Arity = ArgumentArity.ZeroOrOne,
        };
        var records = RecordsInput.Option();
        var check = new Option<bool>("--check") { Description = "Only check the place file: what is wrong with it, or nothing." };
        var mqttPort = MqttPortOption();
        var port = ServedPages.PortOption();
        var host = ServedPages.HostOption();
        var folder = FolderOption();
        var command = new WorkedCommand(
            "run",
            "Runs a place: takes its readings in, says what they mean, and opens the pages.",
            "runnel run place.toml --port 4870")
        {
            place, records, check, mqttPort, host, port, folder,
        };
        command.SetAction((parsed, cancel) =>
        {
            string work = FolderOf(parsed.GetValue(folder));
            if (parsed.GetValue(place) is not { } file)
            {
                if (parsed.GetValue(check)) throw RefusedException.WrongUsage("--check", "no place file was named", "Write 'runnel run place.toml --check'");
                return ServedPages.RunAsync(
                    parsed.GetValue(host)!, parsed.GetValue(port), new RunnelPagesOptions { WorkFolder = work }, work, () => new ServiceSupervisor(() => true), terminal, cancel);
            }

            if (parsed.GetValue(check)) return CheckAsync(file, terminal, cancel);
            var settings = new RunSettings(parsed.GetValue(host)!, parsed.GetValue(port), parsed.GetValue(mqttPort), work);
            return RunningPlace.RunAsync(file, parsed.GetValue(records), settings, terminal, cancel);
        });
        return command;
    }

    public static Option<int?> MqttPortOption() => new("--mqtt-port")
    {
        Description = "Port of Runnel's own MQTT broker. [default: as the place file says, else 1883]",
        HelpName = "N",
    };

    public static Option<string?> FolderOption() => new("--folder")
    {
        Description = "Where dropped logs are kept. [default: a folder of your own account]",
        HelpName = "FOLDER",
    };

    public static string FolderOf(string? named)
    {
        if (named is not null) return Path.GetFullPath(named);
        string account = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        // A service account may have no home.
        return account.Length > 0 ? Path.Combine(account, "runnel") : Path.Combine(Path.GetTempPath(), "runnel");
    }

    private static async Task<int> CheckAsync(string file, Terminal terminal, CancellationToken cancel)
    {
        var (place, _) = await PlaceInput.ReadAsync(file, PlaceNeeds.Run, terminal, cancel);
        await terminal.Out.WriteLineAsync($"{file}: {place.Name} can be run: {place.Channels.Count} channels, {place.Wiring.Sources.Count} sources beside Runnel's own broker.");
        return ExitCodes.Done;
    }
}
