using System.CommandLine;
using System.CommandLine.Parsing;
using Runnel.Cli.Forecast;
using Runnel.Cli.Pages;
using Runnel.Cli.Places;
using Runnel.Cli.Reckoner;
using Runnel.Cli.Records;
using Runnel.Cli.TimeLeft;

namespace Runnel.Cli;

/// <summary>The <c>runnel</c> command: parses, calls, and turns every outcome into an exit code.</summary>
public static class RunnelCommand
{
    public const string FirstExample = "runnel diagnose --place place.toml LOG.csv";

    public static async Task<int> RunAsync(IReadOnlyList<string> args, Terminal terminal, CancellationToken cancel)
    {
        args = ReckonCommand.Normal(args);
        var root = new RootCommand("Runs a place beside your loop, reads its logs, reckons ahead, and tells what drifts and what to do first.")
        {
            DiagnoseCommand.Create(terminal),
            NewCommand.Create(terminal),
            InspectCommand.Create(terminal),
            ForecastCommand.Create(terminal),
            TimeLeftCommand.Create(terminal),
            ImportCommand.Create(terminal),
            ExportCommand.Create(terminal),
            BackupCommand.Create(terminal),
            RunCommand.Create(terminal),
            DemoCommand.Create(terminal),
            ReckonCommand.Create(terminal, args),
        };
        HelpWithExample.Install(root);
        var parsed = root.Parse(args.Count == 0 ? ["--help"] : args);
        if (parsed.Errors.Count > 0 && parsed.Action?.ClearsParseErrors != true)
        {
            string command = CommandLineOf(parsed.CommandResult);
            foreach (var error in parsed.Errors)
            {
                await terminal.Error.WriteLineAsync("runnel: " + RefusedException.Line("command line", error.Message, $"See '{command} --help'"));
            }

            return ExitCodes.WrongUsage;
        }

        try
        {
            return await parsed.InvokeAsync(
                new InvocationConfiguration
                {
                    Output = terminal.Out,
                    Error = terminal.Error,
                    EnableDefaultExceptionHandler = false,
                    // Long enough to end a running commit and close the pages' connections.
                    ProcessTerminationTimeout = TimeSpan.FromSeconds(10),
                },
                cancel);
        }
        catch (RefusedException refused)
        {
            foreach (string line in refused.Lines) await terminal.Error.WriteLineAsync("runnel: " + line);
            return refused.ExitCode;
        }
        catch (OperationCanceledException)
        {
            await terminal.Error.WriteLineAsync("runnel: stopped: nothing that was already stored is lost.");
            return ExitCodes.Stopped;
        }
    }

    private static string CommandLineOf(SymbolResult at) =>
        at is CommandResult { Command: not RootCommand, Parent: { } above } here ? $"{CommandLineOf(above)} {here.Command.Name}" : "runnel";
}
