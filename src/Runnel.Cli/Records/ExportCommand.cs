using System.CommandLine;
using NodaTime;
using Runnel.Cli.Inputs;
using Runnel.Records;

namespace Runnel.Cli.Records;

/// <summary><c>runnel export</c>: the records as CSV in the long form.</summary>
internal static class ExportCommand
{
    public static Command Create(Terminal terminal)
    {
        var records = RecordsInput.Option();
        var to = new Option<string?>("--to") { Description = "Write to this file instead of the screen.", HelpName = "FILE" };
        var daybook = new Option<bool>("--daybook") { Description = "Write the daybook instead of the readings." };
        var channels = new Option<string[]>("--channel") { Description = "Only this channel; may be given several times.", HelpName = "ID" };
        var from = new Option<string?>("--from") { Description = "Nothing before this time (UTC without an offset).", HelpName = "TIME" };
        var until = new Option<string?>("--until") { Description = "Nothing from this time on (UTC without an offset).", HelpName = "TIME" };
        var command = new WorkedCommand(
            "export",
            "Writes the records as CSV: time,channel,value, times in UTC, values in each channel's unit.",
            "runnel export --records records.sqlite --to readings.csv")
        {
            records, to, daybook, channels, from, until,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            string path = RecordsInput.PathFor(parsed.GetValue(records), null);
            var begin = TimeInput.Read("--from", parsed.GetValue(from), DateTimeZone.Utc);
            var end = TimeInput.Read("--until", parsed.GetValue(until), DateTimeZone.Utc);
            string[] wanted = parsed.GetValue(channels) ?? [];
            return await RecordsInput.RefusingAsync(async () =>
            {
                await using var store = await RecordsInput.OpenAsync(path, mustExist: true, cancel);
                var counts = await store.CountAsync(cancel);
                foreach (string id in wanted)
                {
                    if (counts.All(c => c.ChannelId != id))
                    {
                        string known = string.Join(", ", counts.Select(c => c.ChannelId));
                        throw new RefusedException("--channel", $"the records hold no channel '{id}'", $"They hold: {(known.Length > 0 ? known : "none yet")}");
                    }
                }

                Func<TextWriter, Task<long>> write = parsed.GetValue(daybook)
                    ? out_ => ExportText.DaybookAsync(store, out_, begin, end, cancel)
                    : out_ => new WorkProgress(terminal, "writing", lines: false).RunAsync(report => ExportText.ReadingsAsync(
                        store, out_, new ExportText.Choice(wanted.ToHashSet(StringComparer.Ordinal), begin, end), counts.Sum(c => c.Count), report, cancel));
                await WriteAsync(parsed.GetValue(to), terminal, write);
                return ExitCodes.Done;
            });
        });
        return command;
    }

    private static async Task WriteAsync(string? file, Terminal terminal, Func<TextWriter, Task<long>> write)
    {
        if (file is null)
        {
            await write(terminal.Out);
            await terminal.Out.FlushAsync();
            return;
        }

        long rows = 0;
        await OutputFile.WriteAsync(file, async stream =>
        {
            await using var writer = new StreamWriter(stream, bufferSize: 1 << 16, leaveOpen: true);
            rows = await write(writer);
        });
        await terminal.TellAsync($"{file}: {rows} rows written.");
    }
}
