using NodaTime;
using Runnel.Exchange.Intake;
using Runnel.Place;
using Runnel.Place.Findings;

namespace Runnel.Live.View;

/// <summary>The running place at one moment; nothing in it changes afterwards.</summary>
public sealed record LiveView
{
    /// <summary>Counts up with every view, so that a page knows whether it has seen this one.</summary>
    public required long Number { get; init; }

    public required PlaceDescription Place { get; init; }

    /// <summary>The present of this place (in the demo it may run faster than the clock on the wall).</summary>
    public required Instant At { get; init; }

    /// <summary>What is understood; null until there is something to understand, and <see cref="NotYet"/> then says why.</summary>
    public required Diagnosis? Findings { get; init; }

    /// <summary>Why there are no findings yet, as sentences; null where there are.</summary>
    public string? NotYet { get; init; }

    /// <summary>The notices of <see cref="Findings"/> in its order, with what people said to each.</summary>
    public required IReadOnlyList<NoticeStanding> Notices { get; init; }

    /// <summary>In the order of the place file.</summary>
    public required IReadOnlyList<ChannelStanding> Channels { get; init; }

    /// <summary>Someone's hands are in the loop; null: nobody's.</summary>
    public WorkingOnIt? Working { get; init; }

    /// <summary>Work ended and nobody has said yet whether all is as before; null: nothing to ask.</summary>
    public ClosingQuestion? Closing { get; init; }

    public required IntakeCounts Intake { get; init; }

    /// <summary>Where readings come from, and whether each source can be reached.</summary>
    public required IReadOnlyList<SourceStanding> Sources { get; init; }

    /// <summary>What is wrong with Runnel itself (a full disk, records that cannot be written), as sentences; empty: nothing.</summary>
    public IReadOnlyList<string> Troubles { get; init; } = [];

    /// <summary>Late or corrected entries came: the log is being read again, and findings may change when that is done.</summary>
    public bool ReadingAgain { get; init; }
}
