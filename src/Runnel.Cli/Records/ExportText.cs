using System.Globalization;
using NodaTime;
using NodaTime.Text;
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
        await to.WriteAsync("time,channel,value\r\n");
        long seen = 0;
        long rows = 0;
        await foreach (var reading in store.ReadAsync(choice.From ?? Instant.MinValue, choice.Until ?? Instant.MaxValue, cancel))
        {
            if (++seen % 10_000 == 0) report(seen / (double)Math.Max(seen, total), $"{seen} readings");
            if (choice.Channels.Count > 0 && !choice.Channels.Contains(reading.ChannelId)) continue;
            to.Write(InstantPattern.ExtendedIso.Format(reading.Time));
            to.Write(',');
            to.Write(Field(reading.ChannelId));
            to.Write(',');
            // The shortest text that gives the same number back.
            to.Write(reading.Value.ToString("R", CultureInfo.InvariantCulture));
            to.Write("\r\n");
            rows++;
        }

        return rows;
    }

    public static async Task<long> DaybookAsync(ReadingStore store, TextWriter to, Instant? from, Instant? until, CancellationToken cancel)
    {
        await to.WriteAsync("time,entry,of,amount,unit,by,note\r\n");
        long rows = 0;
        foreach (var entry in await store.Daybook.ReadAllAsync(cancel))
        {
            if (entry.Time < from || entry.Time >= until) continue;
            string amount = entry.Litres?.ToString("R", CultureInfo.InvariantCulture) ?? "";
            string[] fields =
            [
                InstantPattern.ExtendedIso.Format(entry.Time), entry.Entry, entry.Of ?? "", amount, amount.Length > 0 ? "L" : "",
                entry.By ?? "", entry.Note ?? "",
            ];
            await to.WriteAsync(string.Join(',', fields.Select(Field)) + "\r\n");
            rows++;
        }

        return rows;
    }

    private static string Field(string text) =>
        text.AsSpan().IndexOfAny("\",\r\n") < 0 ? text : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
