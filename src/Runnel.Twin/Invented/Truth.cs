using NodaTime;

namespace Runnel.Twin.Invented;

/// <summary>What truly happened in an invented log.</summary>
/// <param name="Events">In order of onset.</param>
/// <param name="Days">Litres by civil day.</param>
/// <param name="TargetFillS">Median fill while the loop is as its keeper wants it, s; 0 where the pump never stops.</param>
/// <param name="TopUps">Top-ups that the keeper's rule or timer ordered.</param>
/// <param name="NotNeeded">Those that a rule ordered for a loop as full as its keeper wants it, or nearly; a timer knows no need.</param>
public sealed record Truth(IReadOnlyList<TrueEvent> Events, IReadOnlyList<TrueDay> Days, double TargetFillS, int TopUps, int NotNeeded);

/// <summary>One true event.</summary>
/// <param name="Kind">What happened.</param>
/// <param name="IsFault">False: a change made by people, weather or the mains; it must not be called a fault.</param>
/// <param name="Causes">Names of causes that are right for it; the first is the very one. Empty where nothing need be said.</param>
/// <param name="AlsoFair">Names that follow from it and are not wrong beside it.</param>
/// <param name="Onset">When it began.</param>
/// <param name="End">When it was over, or null.</param>
/// <param name="Size">As said at the kind.</param>
public sealed record TrueEvent(
    HappeningKind Kind,
    bool IsFault,
    IReadOnlyList<string> Causes,
    IReadOnlyList<string> AlsoFair,
    Instant Onset,
    Instant? End,
    double Size);

/// <summary>True litres of one civil day. <paramref name="StoredL"/> is the change of the loop's water.</summary>
/// <param name="Date">Civil date.</param>
/// <param name="TopUpL">Let in while the top-up valve was ordered open.</param>
/// <param name="StrayTopUpL">Let in while the top-up valve was ordered shut (weeping or stuck).</param>
/// <param name="BleedL">Let out while the bleed valve was ordered open.</param>
/// <param name="StrayBleedL">Let out while the bleed valve was ordered shut.</param>
/// <param name="RainL">Rain caught.</param>
/// <param name="EvaporationL">From open water.</param>
/// <param name="PlantUseL">Through leaves.</param>
/// <param name="DrawnL">Taken by people and written down; less what they filled in by hand and wrote down.</param>
/// <param name="UnloggedL">Taken by people and not written down.</param>
/// <param name="LeakL">Leaks.</param>
/// <param name="SplashL">Small losses that nobody sees: splash, wet nets, drips.</param>
/// <param name="SpilledL">Over rims.</param>
/// <param name="StoredL">Change of all water in the loop.</param>
/// <param name="Canopy">Canopy at the end of the day, m2.</param>
public sealed record TrueDay(
    LocalDate Date, double TopUpL, double StrayTopUpL, double BleedL, double StrayBleedL, double RainL, double EvaporationL,
    double PlantUseL, double DrawnL, double UnloggedL, double LeakL, double SplashL, double SpilledL, double StoredL, double Canopy)
{
    /// <summary>Litres that a perfect ledger of logged valves, weather and daybook would call unexplained; positive is lost.</summary>
    public double UnexplainedL => UnloggedL + LeakL + SplashL + SpilledL + StrayBleedL - StrayTopUpL;

    /// <summary>In less out less change of store; zero to rounding.</summary>
    public double BalanceL => TopUpL + StrayTopUpL + RainL - BleedL - StrayBleedL - EvaporationL - PlantUseL - DrawnL - UnloggedL
        - LeakL - SplashL - SpilledL - StoredL;
}
