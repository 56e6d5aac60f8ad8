using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Runnel.Exchange.Csv;
using Runnel.Exchange.Logs;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Records;

namespace Runnel.Cli.Records;

/// <summary>Readings and daybook as CSV (RFC 4180) that every command here reads back.</summary>
internal static class ExportText
{
    /// <summary>What is wanted. No channels: all of them. Null times: no limit.</summary>
    public sealed record Choice(IReadOnlySet<string> Channels, Instant? From, Instant? Until);

    public static async Task<long> ReadingsAsync(
        ReadingStore store, TextWriter to, Choice choice, long total, Action<double, string> report, CancellationToken cancel)
    {
        var writer = new LogWriter(to, await PlaceAsync(store, cancel));
        long seen = 0;
        long rows = 0;
        await foreach (var reading in store.ReadAsync(choice.From ?? Instant.MinValue, choice.Until ?? Instant.MaxValue, cancel))
        {
            if (++seen % 10_000 == 0) report(seen / (double)Math.Max(seen, total), $"{seen} readings");
            if (choice.Channels.Count > 0 && !choice.Channels.Contains(reading.ChannelId)) continue;
            writer.Write(reading.Time, reading.ChannelId, reading.Value);
            rows++;
        }

        return rows;
    }

    public static async Task<long> DaybookAsync(ReadingStore store, TextWriter to, Instant? from, Instant? until, CancellationToken cancel)
    {
        CsvLine.Write(to, "time", "entry", "of", "amount", "unit", "by", "note");
        long rows = 0;
        foreach (var entry in await store.Daybook.ReadAllAsync(cancel))
        {
            if (entry.Time < from || entry.Time >= until) continue;
            string amount = entry.Litres?.ToString("R", CultureInfo.InvariantCulture) ?? "";
            CsvLine.Write(
                to, InstantPattern.ExtendedIso.Format(entry.Time), entry.Entry, entry.Of ?? "", amount, amount.Length > 0 ? "L" : "",
                entry.By ?? "", entry.Note ?? "");
            rows++;
        }

        return rows;
    }

    /// <summary>The place whose text is in force, for the units of its channels; null where the records hold none that can be read.</summary>
    private static async Task<PlaceDescription?> PlaceAsync(ReadingStore store, CancellationToken cancel) =>
        await store.PlaceTexts.LatestAsync(cancel) is { } latest ? PlaceFile.Read(latest.Text, "records", PlaceNeeds.Import).Place : null;
}
