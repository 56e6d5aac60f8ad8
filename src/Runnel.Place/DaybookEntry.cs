using NodaTime;

namespace Runnel.Place;

/// <summary>What a person wrote down.</summary>
/// <param name="Time">When it happened.</param>
/// <param name="Entry">The kind as written, e.g. <c>drained</c>, <c>filled-by-hand</c>, <c>carried-off</c>, <c>cleaned</c>,
/// <c>work-began</c>, <c>work-ended</c>, <c>moved-valve</c>, <c>relearn</c>.</param>
/// <param name="Of">A declared identifier, or null for the loop as a whole.</param>
/// <param name="Litres">Amount as litres where the entry is about water, else null.</param>
/// <param name="By">Who wrote it.</param>
/// <param name="Note">Free text.</param>
public sealed record DaybookEntry(Instant Time, string Entry, string? Of, double? Litres, string? By, string? Note);
