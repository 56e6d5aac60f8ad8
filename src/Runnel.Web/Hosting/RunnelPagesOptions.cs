using Runnel.Live;
using Runnel.Live.Demo;
using Runnel.Live.Sources;
using Runnel.Place.Findings;
using Runnel.Web.Now;

namespace Runnel.Web.Hosting;

/// <summary>What the host tells the pages.</summary>
public sealed record RunnelPagesOptions
{
    /// <summary>Where dropped logs are kept; made when missing.</summary>
    public required string WorkFolder { get; init; }

    /// <summary>Addresses to listen on, as Kestrel writes them; null: as the host's settings say. Port 0 picks a free one.</summary>
    public string? Urls { get; init; }

    /// <summary>Greatest size of a dropped file. A year of a ten-second channel in long form is about 150 MB.</summary>
    public long LargestLogBytes { get; init; } = 256L * 1024 * 1024;

    /// <summary>Dropped logs are forgotten after this, so that a shared machine does not gather other people's records.</summary>
    public TimeSpan KeepLogsFor { get; init; } = TimeSpan.FromDays(14);

    /// <summary>Makes the findings that the first page shows; called once, at the start. Null: the first page asks for a log.</summary>
    public Func<Diagnosis>? InventedLog { get; init; } = Findings.InventedLog.FromTheTwin;

    /// <summary>The running place; null: pages for dropped logs only.</summary>
    public LivePlace? Live { get; init; }

    /// <summary>Where its readings come from; told wherever <see cref="Live"/> is.</summary>
    public PlaceSources? Sources { get; init; }

    /// <summary>The invented world behind it; null: the place is real.</summary>
    public DemoPlace? Demo { get; init; }

    /// <summary>What whoever opens the pages must know; null: the pages listen on this machine only.</summary>
    public string? Key { get; init; }

    /// <summary>What can be tried where no <see cref="Demo"/> tells it; null: nothing.</summary>
    public FaultBench? Faults { get; init; }
}
