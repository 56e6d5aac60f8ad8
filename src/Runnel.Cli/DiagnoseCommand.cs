using System.CommandLine;
using NodaTime;
using Runnel.Cli.Findings;
using Runnel.Cli.Inputs;
using Runnel.Exchange.Findings;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Place.PlaceFiles;
using Runnel.Steward;
using Runnel.Web.Report;

namespace Runnel.Cli;

/// <summary><c>runnel diagnose</c>: a whole log in, what was understood out.</summary>
internal static class DiagnoseCommand
{
    public static Command Create(Terminal terminal)
    {
        var log = LogInput.Argument();
        var place = PlaceInput.Option();
        var daybook = DaybookInput.Option();
        var until = new Option<string?>("--until") { Description = "Use nothing later than this time (a date alone means its beginning).", HelpName = "TIME" };
        var json = new Option<bool>("--json") { Description = "Print JSON instead of text." };
        var html = new Option<string?>("--html") { Description = "Also write one self-contained page with charts.", HelpName = "FILE" };
        var scaled = LogInput.ScaledOption();
        var most = LogInput.MostReadingsOption();
        var command = new WorkedCommand(
            "diagnose",
            "Tells what the loop has been doing, what drifted and since when, and what to do first.",
            "runnel diagnose --place place.toml LOG.csv --html findings.html")
        {
            log, place, daybook, until, json, html, scaled, most,
        };
        command.SetAction((parsed, cancel) => RunAsync(
            new Asked(
                parsed.GetValue(place), parsed.GetValue(log)!, parsed.GetValue(daybook), parsed.GetValue(until), parsed.GetValue(json),
                parsed.GetValue(html), parsed.GetValue(scaled), parsed.GetValue(most)),
            terminal, cancel));
        return command;
    }

    /// <summary>What was asked for on the command line.</summary>
    public sealed record Asked(
        string? Place, string Log, string? Daybook = null, string? Until = null, bool Json = false, string? Html = null, bool Scaled = false,
        int? MostReadings = null);

    public static async Task<int> RunAsync(Asked asked, Terminal terminal, CancellationToken cancel)
    {
        var (place, _) = await PlaceInput.ReadAsync(asked.Place, PlaceNeeds.Diagnose, terminal, cancel);
        var until = TimeInput.Read("--until", asked.Until, place.Zone);
        var entries = await DaybookInput.ReadAsync(asked.Daybook, place, terminal, cancel);
        var readings = await LogInput.ReadAsync(asked.Log, asked.Scaled ? LogInput.AsScaled(place) : place, asked.MostReadings, terminal, cancel);
        // Not awaited to its end when stopped: there is nothing to keep, and the user should not wait.
        var found = await Task.Run(() => Diagnosed(asked.Log, place, readings, entries, until), cancel).WaitAsync(cancel);
        if (asked.Html is { } page) await WritePageAsync(page, found);
        await terminal.Out.WriteAsync(asked.Json ? DiagnosisJson.Write(found).TrimEnd() + "\n" : FindingsText.Render(found));
        return ExitCodes.Done;
    }

    private static Diagnosis Diagnosed(
        string path, PlaceDescription place, ReadingLog log, IReadOnlyList<DaybookEntry> daybook, Instant? until)
    {
        try
        {
            return Diagnose.Log(place, log, daybook, until);
        }
        catch (NotYetReadableException error)
        {
            throw new RefusedException(ExitCodes.CouldNot, [$"{path}: {error.Message.TrimEnd('.')}.".ReplaceLineEndings(" ")]);
        }
    }

    private static Task WritePageAsync(string path, Diagnosis found) =>
        OutputFile.WriteAsync(path, async stream =>
        {
            await using var writer = new StreamWriter(stream, leaveOpen: true);
            await writer.WriteAsync(HtmlReport.Render(found));
        });
}
