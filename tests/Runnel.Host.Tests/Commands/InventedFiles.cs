using Runnel.Twin.Invented;

namespace Runnel.Host.Tests.Commands;

/// <summary>An invented place with its log and daybook, written once for all tests.</summary>
public sealed class InventedFiles : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("runnel-invented-");

    public InventedFiles()
    {
        Made = InventedLogs.Make(LoopKind.SwitchLog, Stories.Find("healthy")!, seed: 5, days: 16);
        File.WriteAllText(Place, Made.PlaceToml);
        using (var log = new StreamWriter(Log)) CsvText.WriteLog(Made, log);
        using (var daybook = new StreamWriter(Daybook)) CsvText.WriteDaybook(Made, daybook);
    }

    public InventedLog Made { get; }

    public string Place => At("place.toml");

    public string Log => At("log.csv");

    public string Daybook => At("daybook.csv");

    public string At(string name) => Path.Combine(_folder.FullName, name);

    public string Write(string name, string text)
    {
        File.WriteAllText(At(name), text);
        return At(name);
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
