using Runnel.Place;

namespace Runnel.Exchange.Daybook;

/// <summary>A daybook as read: entries in time order, rows that were not taken, and what else there is to say.</summary>
public sealed record DaybookFile(IReadOnlyList<DaybookEntry> Entries, IReadOnlyList<SkippedRows> Skipped, IReadOnlyList<string> Remarks);
