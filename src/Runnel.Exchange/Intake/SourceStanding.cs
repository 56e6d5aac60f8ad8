using NodaTime;

namespace Runnel.Exchange.Intake;

/// <summary>How a source of readings stands.</summary>
/// <param name="Id">As in the place file; <c>own-broker</c> for the broker that Runnel runs, <c>web</c> for what is posted.</param>
/// <param name="What">What it is, for people: "the broker at 192.168.1.5", "the file pump.csv".</param>
/// <param name="Connected">It can be reached (a broker runs, a file is there, the last request was answered).</param>
/// <param name="LastHeard">When something last came from it; null: never since the start.</param>
/// <param name="Trouble">What is wrong and what to do, as sentences; null: nothing.</param>
public sealed record SourceStanding(string Id, string What, bool Connected, Instant? LastHeard, string? Trouble);
