using NodaTime;

namespace Runnel.Place;

/// <summary>One time-stamped value of a channel, in the channel's unit (scale and offset already applied).</summary>
/// <param name="Channel">Position of the channel in <see cref="PlaceDescription.Channels"/>.</param>
/// <param name="Time">When it was taken.</param>
/// <param name="Value">Finite value in the quantity's unit; for running 1 or 0.</param>
public readonly record struct Reading(int Channel, Instant Time, double Value);

/// <summary>Rows of a log that were not taken, by reason.</summary>
/// <param name="Reason">In words, for people.</param>
/// <param name="Count">How many rows.</param>
/// <param name="FirstLine">Line number of the first, from 1.</param>
public sealed record SkippedRows(string Reason, long Count, long FirstLine);

/// <summary>The log's clock went wrong: rows written after <paramref name="Before"/> carried times from <paramref name="After"/> on.</summary>
/// <param name="Line">Line number of the first row behind the step.</param>
/// <param name="Before">Last good time before the step; the first good time where the log begins with a wrong clock.</param>
/// <param name="After">First time behind it, as written; it may lie decades away. Rows of that time are not among the readings.</param>
public sealed record ClockStep(long Line, Instant Before, Instant After);

/// <summary>A log as read: readings in time order (equal times in file order), and what was not taken.</summary>
public sealed record ReadingLog(
    IReadOnlyList<Reading> Readings,
    IReadOnlyList<SkippedRows> Skipped,
    IReadOnlyList<ClockStep> ClockSteps,
    IReadOnlyList<string> Remarks);
