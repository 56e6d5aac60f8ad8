using NodaTime;

namespace Runnel.Exchange.Logs;

/// <summary>How a log is to be read. The defaults suit a log whose names are those of the place file.</summary>
public sealed record LogReadOptions
{
    public static readonly LogReadOptions Default = new();

    /// <summary>
    /// Names in the log (of columns in the wide form, of channels in the long form) and the channel of the place each stands for.
    /// An empty channel means that the name is left out. Names not listed are looked up among the channels of the place.
    /// </summary>
    public IReadOnlyDictionary<string, string> Names { get; init; } = new Dictionary<string, string>();

    /// <summary>The column that holds the time, where its name does not tell; else null.</summary>
    public string? TimeColumn { get; init; }

    /// <summary>The present, where known: later times are then impossible.</summary>
    public Instant? Now { get; init; }

    /// <summary>More readings than this are refused. As told by default: what half of the machine's memory holds, 5 to 60 million.</summary>
    public int MostReadings { get; init; } = FitsMemory;

    /// <summary>Sorting a file that is out of order takes up to 64 bytes a reading.</summary>
    private static int FitsMemory => (int)Math.Clamp(GC.GetGCMemoryInfo().TotalAvailableMemoryBytes / 2 / 64, 5_000_000, 60_000_000);
}
