using System.CommandLine;
using NodaTime;
using Runnel.Cli.Inputs;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Records;

namespace Runnel.Cli.Records;

/// <summary><c>runnel import</c>: takes logs into the records. Doing it again changes nothing.</summary>
internal static class ImportCommand
{
    /// <summary>Readings in one commit: large enough to pack hours at once, small enough that little is repeated after a stop.</summary>
    private const int Batch = 20_000;

    public static Command Create(Terminal terminal)
    {
        var logs = new Argument<string[]>("LOG.csv") { Description = "One log or several.", Arity = ArgumentArity.OneOrMore };
        var place = PlaceInput.Option();
        var records = RecordsInput.Option();
        var daybook = DaybookInput.Option();
        var scaled = LogInput.ScaledOption();
        var most = LogInput.MostReadingsOption();
        var json = new Option<bool>("--json") { Description = "Print JSON instead of text." };
        var command = new WorkedCommand(
            "import",
            "Takes logs into the records. A reading that is there already is not doubled; what is told as stored stays, whatever happens next.",
            "runnel import --place place.toml LOG.csv")
        {
            logs, place, records, daybook, scaled, most, json,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            string? placeFile = parsed.GetValue(place);
            var (described, text) = await PlaceInput.ReadAsync(placeFile, PlaceNeeds.Import, terminal, cancel);
            var entries = await DaybookInput.ReadAsync(parsed.GetValue(daybook), described, terminal, cancel);
            string path = RecordsInput.PathFor(parsed.GetValue(records), placeFile);
            var readable = parsed.GetValue(scaled) ? LogInput.AsScaled(described) : described;
            return await RecordsInput.RefusingAsync(async () =>
            {
                await using var store = await RecordsInput.OpenAsync(path, mustExist: false, cancel);
                await store.PlaceTexts.KeepAsync(text, SystemClock.Instance.GetCurrentInstant(), cancel);
                int newEntries = await store.Daybook.AddAsync(entries, cancel);
                var summaries = new List<ImportSummary>();
                foreach (string log in parsed.GetValue(logs)!)
                {
                    var read = await LogInput.ReadAsync(log, readable, parsed.GetValue(most), terminal, cancel);
                    var stored = await StoreAsync(store, described, read, terminal, cancel);
                    summaries.Add(new ImportSummary(log, read, stored));
                }

                await terminal.Out.WriteAsync(
                    parsed.GetValue(json) ? ImportSummary.Json(path, summaries, newEntries) : ImportSummary.Text(path, summaries, newEntries));
                return ExitCodes.Done;
            });
        });
        return command;
    }

    private static Task<Stored> StoreAsync(
        ReadingStore store, PlaceDescription place, ReadingLog log, Terminal terminal, CancellationToken cancel) =>
        new WorkProgress(terminal, "storing", lines: true).RunAsync(async report =>
        {
            var stored = default(Stored);
            int total = log.Readings.Count;
            for (int from = 0; from < total; from += Batch)
            {
                cancel.ThrowIfCancellationRequested();
                var batch = new ChannelReading[Math.Min(Batch, total - from)];
                for (int i = 0; i < batch.Length; i++)
                {
                    var reading = log.Readings[from + i];
                    batch[i] = new ChannelReading(place.Channels[reading.Channel].Id, reading.Time, reading.Value);
                }

                stored += await store.AddAsync(batch, cancel);
                // Told only after the commit: these words are a promise.
                report((from + batch.Length) / (double)total, $"{from + batch.Length} of {total} readings are on the disk");
            }

            return stored;
        });
}
