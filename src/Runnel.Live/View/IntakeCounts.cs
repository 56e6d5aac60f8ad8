using NodaTime;
using Runnel.Exchange.Intake;

namespace Runnel.Live.View;

/// <summary>What came in since the start.</summary>
/// <param name="Taken">Readings stored that were not there before.</param>
/// <param name="Changed">Readings that replaced another value of their channel at their time.</param>
/// <param name="Known">Readings that were there already, the same.</param>
/// <param name="Late">Of those taken or changed: older than what had been read; the log is then read again.</param>
/// <param name="Refused">What could not be taken, by reason.</param>
/// <param name="LastAt">When something last came in.</param>
public sealed record IntakeCounts(long Taken, long Changed, long Known, long Late, IReadOnlyList<RefusedCount> Refused, Instant? LastAt);

/// <summary>Refusals of one reason.</summary>
/// <param name="Reason">In words.</param>
/// <param name="Count">How many.</param>
/// <param name="Last">The latest.</param>
/// <param name="LastAt">When that came.</param>
public sealed record RefusedCount(string Reason, long Count, Refusal Last, Instant LastAt);
