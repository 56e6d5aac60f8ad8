using Runnel.Exchange.Daybook;
using Runnel.Exchange.Logs;
using Runnel.Place.Findings;
using Runnel.Place.PlaceFiles;
using Runnel.Steward;
using Runnel.Twin.Invented;

namespace Runnel.Cli.Pages;

/// <summary>The invented place of the first page, made when it is first needed.</summary>
internal sealed class DemoPlace
{
    private readonly Lazy<InventedLog> _log = new(InventedDemo.Make);

    public InventedLog Log => _log.Value;

    /// <summary>Through the same text and the same readers as a log that is dropped: the first page shows what a user's own gives.</summary>
    public Diagnosis Diagnose()
    {
        var read = PlaceFile.Read(Log.PlaceToml, "place.toml");
        var place = read.Place ?? throw new InvalidOperationException(string.Join('\n', read.Problems));
        using var log = AsFile(CsvText.WriteLog);
        using var daybook = AsFile(CsvText.WriteDaybook);
        var readings = LogReader.Read(log, place, LogReadOptions.Default, null, CancellationToken.None);
        return Steward.Diagnose.Log(place, readings, DaybookReader.Read(daybook, place, CancellationToken.None).Entries);
    }

    private MemoryStream AsFile(Action<InventedLog, TextWriter> write)
    {
        var file = new MemoryStream();
        using (var writer = new StreamWriter(file, leaveOpen: true)) write(Log, writer);
        file.Position = 0;
        return file;
    }
}
