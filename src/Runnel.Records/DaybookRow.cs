using NodaTime;
using Runnel.Place;

namespace Runnel.Records;

/// <summary>An entry as it stands in the records.</summary>
/// <param name="Number">Its own, for good.</param>
/// <param name="Entry">As it reads now.</param>
/// <param name="Written">When it was written down; null: read in from a file.</param>
/// <param name="Until">Of work: when it was meant to end.</param>
/// <param name="Struck">It was taken back.</param>
/// <param name="Before">How it read before, oldest first.</param>
public sealed record DaybookRow(
    long Number, DaybookEntry Entry, Instant? Written, Instant? Until, bool Struck, IReadOnlyList<EarlierEntry> Before);

/// <summary>How an entry read until it was changed.</summary>
/// <param name="Entry">As it read.</param>
/// <param name="Changed">When that ended.</param>
/// <param name="ChangedBy">Who changed it.</param>
public sealed record EarlierEntry(DaybookEntry Entry, Instant Changed, string? ChangedBy);
