using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Ledger;

/// <summary>Stretches in which the gauge takes water held back for water lost: drains foul, a tank spills, the pump weakens. What stands in
/// the ledger then rests on what is known to have come and gone.</summary>
internal sealed class MisledGauge
{
    /// <summary>Share of the water above the sills by which drains that block can raise it in a day; what is missing beyond that has run over a
    /// rim (common practice: a screen blocks within days).</summary>
    public const double MostHeldBackADay = 0.3;

    private static readonly string[] Misleading =
        [CauseNames.DrainFouling, CauseNames.TankOverflow, CauseNames.PumpWeakening, CauseNames.SiphonStuck, CauseNames.CheckValveLeaking];

    private readonly List<Notice> _notices;

    public MisledGauge(IReadOnlyList<Notice> notices) =>
        _notices = [.. notices.Where(n => Misleading.Contains(n.Cause)).OrderBy(n => n.Since)];

    /// <summary>The notice of what misleads the gauge at that time, or null.</summary>
    public Notice? At(Instant time) => _notices.Find(n => n.Since <= time && !(n.Cleared <= time));

    /// <summary>Probability that the gauge is misled, by the causes that the notice weighs.</summary>
    public static double Probability(Notice notice) => notice.Causes.Where(c => Misleading.Contains(c.Name)).Sum(c => c.Probability);
}
