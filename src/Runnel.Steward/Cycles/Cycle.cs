using NodaTime;

namespace Runnel.Steward.Cycles;

/// <summary>One cycle of the sump: the fill before a run, the run, and the fill after it.</summary>
/// <param name="FillStart">Pump off.</param>
/// <param name="RunStart">Pump on.</param>
/// <param name="RunEnd">Pump off again.</param>
/// <param name="FillS">Length of the fill before the run, s.</param>
/// <param name="RunS">Length of the run, s.</param>
/// <param name="Disturbed">Known water, work or a gap touched it: not for learning the healthy loop.</param>
internal sealed record Cycle(Instant FillStart, Instant RunStart, Instant RunEnd, double FillS, double RunS, bool Disturbed);
