namespace Runnel.Place.PlaceFiles;

/// <summary>What reading a place file gave.</summary>
/// <param name="Place">The place; null where there are problems.</param>
/// <param name="Problems">All that is wrong with the file, in the order of its lines.</param>
/// <param name="Remarks">What is allowed but may not be meant, in plain sentences.</param>
public sealed record PlaceFileResult(PlaceDescription? Place, IReadOnlyList<PlaceProblem> Problems, IReadOnlyList<string> Remarks)
{
    /// <summary>What keeps the file from telling how the water moves; no matter to commands that do not need it.</summary>
    public IReadOnlyList<PlaceProblem> HydraulicProblems { get; init; } = [];
}

/// <summary>The text form of a place: TOML 1.0 whose quantities carry their units.</summary>
public static class PlaceFile
{
    /// <summary>Reads and checks the text of a place file. Bad text never throws: everything wrong with it is listed at once.</summary>
    /// <param name="text">The whole file.</param>
    /// <param name="fileName">Its name, for the problems.</param>
    /// <param name="needs">What the command at hand cannot do without; null: what <c>diagnose</c> needs.</param>
    public static PlaceFileResult Read(string text, string fileName, PlaceNeeds? needs = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        if (TomlText.Parse(text, problems) is not { } root) return new(null, problems.InFileOrder(), problems.Remarks);

        var sections = PlaceSections.Read(root, problems);
        var draft = PlaceDraft.Of(sections, problems);
        CrossChecks.Run(draft, problems);
        needs ??= PlaceNeeds.Diagnose;
        needs.Check(draft, problems);
        // Keys that were kept for later commands went unchecked: they must not begin to fail where nothing needs them.
        ProblemList Where(bool needed) => needed ? problems : new ProblemList(fileName);
        var ofWater = Where(needs.Hydraulics);
        var hydraulics = HydraulicsReader.Read(draft, ofWater);
        var ofFish = Where(needs.Fish);
        var fish = FishReader.Read(draft, hydraulics, ofFish);
        if (needs.Fish && fish is null)
        {
            problems.AddMissing(
                new(1, 1), "fish-group", "[[fish-group]]", $"{needs.Command} needs to know the fish, and this file names none",
                "Add [[fish-group]] with species, in = the tank's id, count and weight = the mean weight of one");
        }

        var wiring = WiringReader.Read(draft, Where(needs.Wiring));
        return new(problems.Any ? null : draft.ToPlace() with { Hydraulics = hydraulics, Fish = ofFish.Any ? null : fish, Wiring = wiring }, problems.InFileOrder(), problems.Remarks)
        {
            HydraulicProblems = ofWater.InFileOrder(),
        };
    }
}
