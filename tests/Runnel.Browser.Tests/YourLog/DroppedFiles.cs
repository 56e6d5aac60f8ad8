using Runnel.Twin.Invented;

namespace Runnel.Browser.Tests.YourLog;

/// <summary>Files to drop: the invented log as its logger would have written it.</summary>
public sealed class DroppedFiles
{
    private readonly string _folder;

    public DroppedFiles(string folder)
    {
        _folder = folder;
        Directory.CreateDirectory(folder);
        InventedLog made = InventedDemo.Make();
        using (StreamWriter log = File.CreateText(Log)) CsvText.WriteLog(made, log);
        using (StreamWriter daybook = File.CreateText(Daybook)) CsvText.WriteDaybook(made, daybook);
        File.WriteAllText(Place, made.PlaceToml);
        File.WriteAllText(BrokenPlace, made.PlaceToml.Replace("[place]", "[place]\nlattitude = \"34.2 S\"", StringComparison.Ordinal));
        File.WriteAllBytes(Picture, [0x89, (byte)'P', (byte)'N', (byte)'G', 13, 10, 26, 10, 0, 0, 0, 13]);
        File.WriteAllText(Empty, "");
        using StreamWriter large = File.CreateText(TooLarge);
        large.WriteLine("time,channel,value");
        for (int i = 0; i < Site.LargestLogBytes / 40 + 450_000; i++) large.WriteLine("2026-02-01T00:00:00+11:00,sump-pump,1");
    }

    public string Log => Path.Combine(_folder, "log.csv");
    public string Daybook => Path.Combine(_folder, "daybook.csv");
    public string Place => Path.Combine(_folder, "place.toml");
    public string BrokenPlace => Path.Combine(_folder, "broken.toml");
    public string Picture => Path.Combine(_folder, "picture.csv");
    public string Empty => Path.Combine(_folder, "empty.csv");
    public string TooLarge => Path.Combine(_folder, "large.csv");
}
