namespace Runnel.Place.PlaceFiles;

/// <summary>Gathers what is wrong with one file, in the order of its lines.</summary>
internal sealed class ProblemList(string file)
{
    private const int MostShown = 100;
    private readonly List<PlaceProblem> _problems = [];
    private readonly HashSet<int> _brokenLines = [];

    internal List<string> Remarks { get; } = [];

    /// <summary>Whether the text itself is broken: then something that seems missing may only be unreadable.</summary>
    internal bool TextIsBroken => _brokenLines.Count > 0;

    internal bool Any => _problems.Count > 0;

    internal bool AnyAbout(string keyPath) => _problems.Any(p => p.KeyPath.StartsWith(keyPath, StringComparison.Ordinal));

    internal void AddBrokenText(TextPlace at, string what, string remedy)
    {
        _brokenLines.Add(at.Line);
        _problems.Add(new(file, at.Line, at.Column, "", "", "TOML 1.0", null, what, remedy));
    }

    internal void Add(TextPlace at, string keyPath, string found, string expected, string what, string remedy, string? nearest = null)
    {
        if (_brokenLines.Contains(at.Line)) return;
        _problems.Add(new(file, at.Line, at.Column, keyPath, PlaceProblem.Quoted(found), expected, nearest, what, remedy));
    }

    /// <summary>Something is not there. Held back where the text is broken.</summary>
    internal void AddMissing(TextPlace at, string keyPath, string expected, string what, string remedy)
    {
        if (!TextIsBroken) Add(at, keyPath, "", expected, what, remedy);
    }

    internal IReadOnlyList<PlaceProblem> InFileOrder()
    {
        PlaceProblem[] sorted = [.. _problems.OrderBy(p => p.Line).ThenBy(p => p.Column)];
        if (sorted.Length <= MostShown) return sorted;
        var last = sorted[MostShown - 1];
        return
        [
            .. sorted.Take(MostShown - 1),
            last with
            {
                KeyPath = "", Found = "", Nearest = null,
                What = $"there are {sorted.Length - MostShown + 1} more problems from here on",
                Remedy = "Mend those above first",
            },
        ];
    }
}
