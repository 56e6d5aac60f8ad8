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
        command.SetAction(async (parsed, cancel) =>
        {
            var (described, _) = await PlaceInput.ReadAsync(parsed.GetValue(place), PlaceNeeds.Diagnose, terminal, cancel);
            var upTo = TimeInput.Read("--until", parsed.GetValue(until), described.Zone);
            var entries = await DaybookInput.ReadAsync(parsed.GetValue(daybook), described, terminal, cancel);
            string path = parsed.GetValue(log)!;
            var readable = parsed.GetValue(scaled) ? LogInput.AsScaled(described) : described;
            var readings = await LogInput.ReadAsync(path, readable, parsed.GetValue(most), terminal, cancel);
            // Not awaited to its end when stopped: there is nothing to keep, and the user should not wait.
            var found = await Task.Run(() => Diagnosed(path, described, readings, entries, upTo), cancel).WaitAsync(cancel);
            if (parsed.GetValue(html) is { } page) await WritePageAsync(page, found);
            await terminal.Out.WriteAsync(parsed.GetValue(json) ? DiagnosisJson.Write(found).TrimEnd() + "\n" : FindingsText.Render(found));
            return ExitCodes.Done;
        });
        return command;
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
            throw new RefusedException(ExitCodes.CouldNot, [$"{path}: {error.Message}".ReplaceLineEndings(" ")]);
        }
    }

    private static Task WritePageAsync(string path, Diagnosis found) =>
        OutputFile.WriteAsync(path, async stream =>
        {
            await using var writer = new StreamWriter(stream, leaveOpen: true);
            await writer.WriteAsync(HtmlReport.Render(found));
        });
}
