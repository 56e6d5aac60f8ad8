using Runnel.Place;

namespace Runnel.Web.Daybook;

/// <summary>Something that people write down in two touches.</summary>
/// <param name="Entry">Its name in the daybook.</param>
/// <param name="Name">On the button that chooses it: "Drained".</param>
/// <param name="Done">On the button that writes it, as its writer says it: "I have drained it".</param>
/// <param name="Asks">What is asked.</param>
/// <param name="Unit">Of the amount; null: none is asked.</param>
/// <param name="Usual">Amount to begin from where none was written before.</param>
/// <param name="Step">By how much the big buttons move it.</param>
/// <param name="Most">More than that is a slip of the finger.</param>
internal sealed record EntryKind(string Entry, string Name, string Done, string Asks, string? Unit = null, double Usual = 0, double Step = 1, double Most = 0)
{
    public static readonly IReadOnlyList<EntryKind> All =
    [
        new("fed", "Fed", "I have fed", "How much feed", "g", 50, 10, 20_000),
        new("drained", "Drained", "I have drained it", "How much water", "L", 8, 1, 5_000),
        new("filled-by-hand", "Filled by hand", "I have filled it", "How much water", "L", 10, 5, 20_000),
        new("cleaned", "Cleaned", "I have cleaned it", "What was cleaned"),
        new("water-test", "Water test", "Write the test down", "What the test showed"),
        new("carried-off", "Carried off", "I have carried it off", "Water that went with fish, plants or sludge", "L", 5, 1, 5_000),
        new("moved-valve", "Moved a valve", "I have moved it", "Which valve, and how"),
        new("note", "Note", "Write it down", "What you saw or did"),
    ];

    /// <summary>Water that the ledger counts.</summary>
    public bool IsWater => Unit == "L";

    public bool AsksWhere => Entry is "drained" or "filled-by-hand" or "cleaned" or "fed";

    public static EntryKind? Find(string? entry) => All.FirstOrDefault(k => k.Entry == entry);

    /// <summary>An entry's name as people read it; those of other hands and of the log are said as they are.</summary>
    public static string NameOf(string entry) => Find(entry)?.Name ?? entry switch
    {
        "work-began" => "Work began",
        "work-ended" => "Work ended",
        "relearn" => "Learn anew from here",
        "done" => "Job done",
        _ => Now.NowModel.Capital(entry.Replace('-', ' ')),
    };

    /// <summary>Vessels it may be about, the likeliest first.</summary>
    public IReadOnlyList<string> Places(PlaceDescription place)
    {
        VesselKind first = Entry switch
        {
            "drained" => VesselKind.SolidsSeparator,
            "fed" => VesselKind.FishTank,
            "cleaned" => VesselKind.MechanicalFilter,
            _ => VesselKind.Sump,
        };
        return [.. place.Vessels.Where(v => Entry != "fed" || v.Kind == VesselKind.FishTank).OrderBy(v => v.Kind != first).Select(v => v.Id).Distinct()];
    }
}
