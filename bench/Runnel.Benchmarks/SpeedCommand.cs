using System.Diagnostics;
using NodaTime;
using Runnel.Exchange.Findings;
using Runnel.Exchange.Logs;
using Runnel.Place;
using Runnel.Place.PlaceFiles;
using Runnel.Records;
using Runnel.Steward;
using Runnel.Twin.Invented;
using Runnel.Web.Report;

namespace Runnel.Benchmarks;

/// <summary>How long each step of a log's way takes, the first time in a process and the second, with processor time and memory.</summary>
internal static class SpeedCommand
{
    public static async Task<int> RunAsync(Options options)
    {
        foreach (var kind in options.Kinds)
        {
            var made = InventedLogs.Make(kind, Stories.Find("healthy")!, options.FirstSeed, options.Days);
            using var csv = new MemoryStream();
            await using (var writer = new StreamWriter(csv, leaveOpen: true)) CsvText.WriteLog(made, writer);
            Console.WriteLine($"{kind}, {options.Days} days: {made.Rows.Count} rows, {csv.Length / 1e6:0.0} MB");
            await StepsAsync(made, csv);
            await PageSpeed.MeasureAsync(made, csv.ToArray());
        }

        using var self = Process.GetCurrentProcess();
        Console.WriteLine($"most memory of this process, generator and all: {self.PeakWorkingSet64 / 1e6:0} MB");
        return 0;
    }

    private static async Task StepsAsync(InventedLog made, MemoryStream csv)
    {
        foreach (string round in (string[])["first", "second"])
        {
            PlaceDescription place = PlaceFile.Read(made.PlaceToml, "place.toml").Place!;
            long before = GC.GetTotalAllocatedBytes();
            csv.Position = 0;
            var log = Timed($"{round}: read the CSV", made.Rows.Count, "rows", () => LogReader.Read(csv, place, LogReadOptions.Default, null, default));
            var found = Timed($"{round}: diagnose", log.Readings.Count, "readings", () => Diagnose.Log(place, log, made.Daybook));
            Timed($"{round}: as JSON", 1, "pages", () => DiagnosisJson.Write(found));
            Timed($"{round}: as one HTML file with charts", 1, "pages", () => HtmlReport.Render(found));
            Console.WriteLine($"  {round}: allocated {(GC.GetTotalAllocatedBytes() - before) / 1e6:0} MB");
            await StoreAsync(round, place, log);
        }
    }

    private static async Task StoreAsync(string round, PlaceDescription place, ReadingLog log)
    {
        string folder = Directory.CreateTempSubdirectory("runnel-speed-").FullName;
        string path = Path.Combine(folder, "records.sqlite");
        var readings = log.Readings.Select(r => new ChannelReading(place.Channels[r.Channel].Id, r.Time, r.Value)).ToList();
        var watch = Stopwatch.StartNew();
        await using (var store = await ReadingStore.OpenAsync(path, default))
        {
            foreach (var batch in readings.Chunk(20_000)) await store.AddAsync(batch, default);
            Tell($"{round}: import", watch.Elapsed, null, readings.Count, "readings");
        }

        long bytes = new DirectoryInfo(folder).GetFiles().Sum(f => f.Length);
        Console.WriteLine($"  {round}: {bytes / (double)readings.Count:0.0} bytes a reading on disk");
        Directory.Delete(folder, recursive: true);
    }

    internal static T Timed<T>(string what, long count, string unit, Func<T> work)
    {
        using var self = Process.GetCurrentProcess();
        var cpu = self.TotalProcessorTime;
        var watch = Stopwatch.StartNew();
        var result = work();
        watch.Stop();
        self.Refresh();
        Tell(what, watch.Elapsed, self.TotalProcessorTime - cpu, count, unit);
        return result;
    }

    internal static void Tell(string what, TimeSpan took, TimeSpan? cpu, long count, string unit)
    {
        string processor = cpu is { } used ? $", processor {used.TotalMilliseconds:0} ms" : "";
        string rate = count > 1 ? $", {count / took.TotalSeconds:#,0} {unit}/s" : "";
        Console.WriteLine($"  {what}: {took.TotalMilliseconds:0} ms{processor}{rate}");
    }
}
