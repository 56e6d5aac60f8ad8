using Runnel.Place;

namespace Runnel.Exchange.Intake;

/// <summary>Something that came in and could not be taken.</summary>
/// <param name="Reason">In words, without a final stop; the same words for the same fault, so that they can be counted.</param>
/// <param name="Example">Where it came from and what it looked like, cut short.</param>
public sealed record Refusal(string Reason, string Example);

/// <summary>What one message, request or piece of a file gave.</summary>
/// <param name="Readings">In the unit of their quantity, of channels of the place.</param>
/// <param name="Refused">What could not be taken.</param>
public sealed record Received(IReadOnlyList<Reading> Readings, IReadOnlyList<Refusal> Refused)
{
    public static readonly Received Nothing = new([], []);
}

/// <summary>Takes what came in; completes when its readings are on the disk.</summary>
public delegate Task TakeReceived(Received received, CancellationToken cancel);
