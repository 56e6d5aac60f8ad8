using NodaTime;
using Runnel.Place.Findings;

namespace Runnel.Steward.Ledger;

/// <summary>What was noticed and changes what a reading is worth to the ledger: a gauge that takes water held back for water lost (drains foul,
/// a tank spills, the pump weakens), top-ups that were counted but never came, fills that tell no store.</summary>
internal sealed class LedgerDoubts(IReadOnlyList<Notice> notices)
{
    /// <summary>Share of the water above the sills by which drains that block can raise it in a day; what is missing beyond that has run over a
    /// rim (common practice: a screen blocks within days).</summary>
    public const double MostHeldBackADay = 0.3;

    private static readonly string[] Misleading =
        [CauseNames.DrainFouling, CauseNames.TankOverflow, CauseNames.PumpWeakening, CauseNames.SiphonStuck, CauseNames.CheckValveLeaking];

    private readonly List<Notice> _misleading = [.. notices.Where(n => Misleading.Contains(n.Cause)).OrderBy(n => n.Since)];
    private readonly List<Notice> _empty = [.. notices.Where(n => n.Cause == CauseNames.TopUpWithoutEffect)];
    private readonly List<Notice> _unreadable =
        [.. notices.Where(n => n.Cause is CauseNames.PumpShortCycling or CauseNames.PumpStopped or CauseNames.PumpDry)];

    /// <summary>The notice of what misleads the gauge at that time, or null; what is known to have come and gone then tells the store.</summary>
    public Notice? MisledAt(Instant time) => _misleading.Find(n => n.StandsAt(time));

    /// <summary>Probability that the gauge is misled, by the causes that the notice weighs.</summary>
    public static double Misled(Notice notice) => notice.Causes.Where(c => Misleading.Contains(c.Name)).Sum(c => c.Probability);

    /// <summary>A notice says that top-ups brought no water then.</summary>
    public bool TopUpsEmptyAt(Instant time) => _empty.Exists(n => n.StandsAt(time));

    /// <summary>The pump stood, or its switch chattered: its cycles tell no store.</summary>
    public bool StoreUnreadableAt(Instant time) => _unreadable.Exists(n => n.StandsAt(time));
}
