using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Runnel.Host.Tests.Commands;

/// <summary>A place with four channels and a log long enough to be stopped in the middle of.</summary>
public sealed partial class LargeLog : IDisposable
{
    public const int Rows = 200_000;

    private const string PlaceText = """
        [place]
        name = "Invented Bench"
        time-zone = "UTC"

        [[channel]]
        id = "water"
        measures = "water-temperature"

        [[channel]]
        id = "air"
        measures = "air-temperature"

        [[channel]]
        id = "ph"
        measures = "ph"

        [[channel]]
        id = "ec"
        measures = "conductivity"
        """;

    private static readonly string[] Channels = ["water", "air", "ph", "ec"];

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("runnel-large-");

    public LargeLog()
    {
        File.WriteAllText(Place, PlaceText);
        using var log = new StreamWriter(Log, append: false, Encoding.ASCII, 1 << 16);
        log.Write("time,channel,value\n");
        var start = new DateTime(2026, 2, 1, 0, 0, 0, DateTimeKind.Utc);
        var random = new Random(4);
        for (int i = 0; i < Rows; i++)
        {
            string time = start.AddSeconds(i / 4 * 10).ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
            log.Write($"{time},{Channels[i % 4]},{(6 + (random.Next(200) / 100.0)).ToString(CultureInfo.InvariantCulture)}\n");
        }
    }

    public string Place => At("place.toml");

    public string Log => At("log.csv");

    public string At(string name) => Path.Combine(_folder.FullName, name);

    /// <summary>How many readings a line of progress says are on the disk, or null for another line.</summary>
    public static long? Acknowledged(string line) =>
        OnTheDisk().Match(line) is { Success: true } match ? long.Parse(match.Groups[1].ValueSpan, CultureInfo.InvariantCulture) : null;

    public void Dispose() => _folder.Delete(recursive: true);

    [GeneratedRegex(@"^storing: (\d+) of \d+ readings are on the disk$", RegexOptions.None, 1000)]
    private static partial Regex OnTheDisk();
}
