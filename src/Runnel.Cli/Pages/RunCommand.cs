using System.CommandLine;
using Runnel.Web.Hosting;

namespace Runnel.Cli.Pages;

/// <summary><c>runnel run</c>: the pages.</summary>
internal static class RunCommand
{
    public static Command Create(Terminal terminal)
    {
        var port = ServedPages.PortOption();
        var host = ServedPages.HostOption();
        var folder = FolderOption();
        var command = new WorkedCommand(
            "run", "Opens the pages, where a log is dropped and its findings are read.", "runnel run --port 4870") { port, host, folder };
        command.SetAction((parsed, cancel) => ServedPages.RunAsync(
            parsed.GetValue(host)!, parsed.GetValue(port), new RunnelPagesOptions { WorkFolder = FolderOf(parsed.GetValue(folder)) }, terminal, cancel));
        return command;
    }

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
}
