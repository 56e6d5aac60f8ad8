using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using Runnel.Host.Tests.Commands;
using Runnel.Twin.Invented;

namespace Runnel.Host.Tests;

/// <summary>Every command that the README shows, as it stands there, in a folder with the user's log.</summary>
public sealed partial class ReadmeTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("runnel-readme-");
    private readonly string _root = FindRoot();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Every_command_of_the_readme_runs()
    {
        await using (var log = new StreamWriter(Path.Combine(_folder.FullName, "LOG.csv"))) CsvText.WriteLog(InventedDemo.Make(), log);
        foreach (string script in new[] { "run", "runnel", "check" }) File.CreateSymbolicLink(Path.Combine(_folder.FullName, script), Path.Combine(_root, script));
        Directory.CreateSymbolicLink(Path.Combine(_folder.FullName, "places"), Path.Combine(_root, "places"));

        var commands = Commands(await File.ReadAllTextAsync(Path.Combine(_root, "README.md"), Cancel));
        Assert.True(commands.Count >= 6, string.Join('\n', commands));
        foreach (string command in commands)
        {
            switch (command)
            {
                case "./run":
                    await PagesOpenAsync();
                    break;
                case "./check":
                    // It is what runs this test; only that it is there to be typed can be seen from inside.
                    Assert.True(File.GetUnixFileMode(Path.Combine(_root, "check")).HasFlag(UnixFileMode.UserExecute));
                    break;
                default:
                    var ran = await ShellAsync(command, command.Contains(" new ", StringComparison.Ordinal) ? NewCommandTests.Answers : "");
                    Assert.True(ran.Code == 0, $"{command}\n{ran.Error}");
                    break;
            }
        }

        Assert.True(File.Exists(Path.Combine(_folder.FullName, "readings.csv")));
    }

    [Fact]
    public async Task What_the_readme_links_to_is_there()
    {
        string readme = await File.ReadAllTextAsync(Path.Combine(_root, "README.md"), Cancel);
        foreach (Match link in Links().Matches(readme))
        {
            string target = link.Groups[1].Value;
            if (!target.StartsWith("http", StringComparison.Ordinal)) Assert.True(File.Exists(Path.Combine(_root, target)), target);
        }
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private static List<string> Commands(string readme) =>
        [.. ShellBlocks().Matches(readme).SelectMany(b => b.Groups[1].Value.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))];

    private static string FindRoot()
    {
        var at = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(at.FullName, "Runnel.slnx"))) at = at.Parent ?? throw new InvalidOperationException("no Runnel.slnx above the tests");
        return at.FullName;
    }

    private async Task PagesOpenAsync()
    {
        using var pages = Start("./run --port 0 --folder work");
        string address = "";
        while (address.Length == 0 && await pages.StandardError.ReadLineAsync(Cancel) is { } line)
        {
            if (Address().Match(line) is { Success: true } found) address = found.Groups[1].Value;
        }

        Assert.NotEqual("", address);
        using (var http = new HttpClient { BaseAddress = new Uri(address) })
        {
            string page = await http.GetStringAsync(new Uri("/", UriKind.Relative), Cancel);
            Assert.Contains("invented", page, StringComparison.OrdinalIgnoreCase);
        }

        using (var signal = Process.Start("kill", ["-INT", pages.Id.ToString(CultureInfo.InvariantCulture)])) await signal.WaitForExitAsync(Cancel);
        string rest = await pages.StandardError.ReadToEndAsync(Cancel);
        await pages.WaitForExitAsync(Cancel);
        Assert.Equal(0, pages.ExitCode);
        Assert.DoesNotContain("   at ", rest, StringComparison.Ordinal);
    }

    private async Task<Ran> ShellAsync(string command, string answers)
    {
        using var shell = Start(command);
        await shell.StandardInput.WriteAsync(answers);
        shell.StandardInput.Close();
        var output = shell.StandardOutput.ReadToEndAsync(Cancel);
        string error = await shell.StandardError.ReadToEndAsync(Cancel);
        await shell.WaitForExitAsync(Cancel);
        return new Ran(shell.ExitCode, await output, error);
    }

    // "exec", so that a signal meets the command and not the shell before it.
    private Process Start(string command) => Process.Start(new ProcessStartInfo("sh", ["-c", "exec " + command])
    {
        WorkingDirectory = _folder.FullName,
        RedirectStandardInput = true,
        RedirectStandardOutput = true,
        RedirectStandardError = true,
    })!;

    [GeneratedRegex(@"```sh\n(.*?)```", RegexOptions.Singleline, 1000)]
    private static partial Regex ShellBlocks();

    [GeneratedRegex(@"\]\(([^)#]+)\)", RegexOptions.None, 1000)]
    private static partial Regex Links();

    [GeneratedRegex(@"pages are at (\S+) ", RegexOptions.None, 1000)]
    private static partial Regex Address();
}
