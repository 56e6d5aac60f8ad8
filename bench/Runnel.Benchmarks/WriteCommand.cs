using System.Text.Json;
using NodaTime;
using NodaTime.Serialization.SystemTextJson;
using Runnel.Twin.Invented;

namespace Runnel.Benchmarks;

/// <summary>Writes an invented log to files, for trying the command by hand.</summary>
internal static class WriteCommand
{
    private static readonly JsonSerializerOptions Json = new JsonSerializerOptions { WriteIndented = true, Converters = { new System.Text.Json.Serialization.JsonStringEnumConverter() } }.ConfigureForNodaTime(DateTimeZoneProviders.Tzdb);

    public static int Run(Options options)
    {
        var log = options.Story == "demo"
            ? InventedDemo.Make()
            : InventedLogs.Make(options.Kinds[0], Stories.Find(options.Story) ?? throw new ArgumentException($"no story {options.Story}"), options.FirstSeed, options.Days);
        Directory.CreateDirectory(options.Out);
        File.WriteAllText(Path.Combine(options.Out, "place.toml"), log.PlaceToml);
        using (var csv = new StreamWriter(Path.Combine(options.Out, "log.csv"))) CsvText.WriteLog(log, csv);
        using (var book = new StreamWriter(Path.Combine(options.Out, "daybook.csv"))) CsvText.WriteDaybook(log, book);
        File.WriteAllText(Path.Combine(options.Out, "truth.json"), JsonSerializer.Serialize(log.Truth, Json));
        Console.WriteLine($"{log.Rows.Count} rows, {log.Daybook.Count} daybook entries in {options.Out}");
        return 0;
    }
}
