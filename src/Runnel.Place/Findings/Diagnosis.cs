using NodaTime;

namespace Runnel.Place.Findings;

/// <summary>All that was understood from a stretch of a place's log.</summary>
public sealed record Diagnosis
{
    public required string PlaceName { get; init; }
    public required DateTimeZone Zone { get; init; }
    public required Instant From { get; init; }
    public required Instant To { get; init; }
    public required long ReadingCount { get; init; }
    public required IReadOnlyList<SkippedRows> Skipped { get; init; }

    /// <summary>What these readings can show, e.g. <c>pump-running</c>, <c>pump-power</c>, <c>top-up-running</c>, <c>sump-level</c>, <c>weather</c>.</summary>
    public required IReadOnlyList<string> Kit { get; init; }
    public required CycleSummary Cycles { get; init; }
    public required IReadOnlyList<LedgerDay> Ledger { get; init; }
    /// <summary>Whether anything that came in was written down. Without it litres cannot be balanced, and what is unexplained says nothing.</summary>
    public bool InflowIsKnown => Kit.Any(k => k.StartsWith("top-up", StringComparison.Ordinal)) || Ledger.Any(d => d.TopUp.L > 0 || d.Rain.L > 0);

    public required IReadOnlyList<Estimate> Estimates { get; init; }

    /// <summary>In the order in which they were first noticed.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>What the keeper's own top-up rule did, or null where no top-up is logged.</summary>
    public OwnRuleFinding? OwnRule { get; init; }

    /// <summary>One sentence, under 90 characters where it can be, with the one number that matters.</summary>
    public required string Verdict { get; init; }

    /// <summary>Plain sentences on what else matters (what is still being learnt, what this kit cannot tell, remarks on the log).</summary>
    public required IReadOnlyList<string> Remarks { get; init; }

    /// <summary>What the charts are drawn from.</summary>
    public required Evidence Evidence { get; init; }
}

/// <summary>Cycles of the pump over the whole stretch and by civil day.</summary>
public sealed record CycleSummary(int Count, double? MedianFillS, double? MedianRunS, IReadOnlyList<CycleDay> Days);

/// <summary>One civil day's cycles.</summary>
public sealed record CycleDay(LocalDate Date, int Count, double? MedianFillS, double? MedianRunS);

/// <summary>Litres with half the width of their 90 % band.</summary>
public readonly record struct Litres(double L, double PlusMinusL);

/// <summary>One civil day's water, all in litres. Unexplained is positive where water was lost.</summary>
public sealed record LedgerDay(
    LocalDate Date, Litres TopUp, Litres Bleed, Litres Rain, Litres Evaporation, Litres PlantUse, Litres Drawn, Litres Stored,
    Litres Unexplained);

/// <summary>A quantity understood from the readings, with its 90 % band.</summary>
/// <param name="Name">e.g. <c>litres-short</c>, <c>pump-flow</c>, <c>return-flow</c>, <c>turnovers</c>, <c>gauge</c>, <c>use-a-day</c>.</param>
public sealed record Estimate(string Name, Instant Time, double Value, double Low, double High, string Unit);

/// <summary>What the keeper's own top-up rule did against what the readings called for.</summary>
public sealed record OwnRuleFinding(int TopUps, double Litres, int NotNeeded, int Late, double TooMuchL, IReadOnlyList<string> Why);
