namespace Runnel.Science.Reckoning;

/// <summary>Inputs of which one group is given and the others are not: <c>pressure_kpa</c> or <c>altitude_m</c>.</summary>
/// <param name="Groups">The groups, the usual one first; all inputs of a group belong together.</param>
/// <param name="MayBeNone">Whether the relation does without all of them.</param>
public sealed record OneOf(IReadOnlyList<IReadOnlyList<string>> Groups, bool MayBeNone = false)
{
    /// <summary>Whether the usual value of the first group will nearly always do: pages fold the choice away.</summary>
    public bool IsDetail { get; init; }

    /// <summary>
    /// Whether two groups that are both given say the same, as where a table has the altitude beside the pressure of that altitude. Then the
    /// first counts. Null: only one may be given.
    /// </summary>
    internal Func<Given, bool>? Agrees { get; init; }

    /// <summary>The choice in words: <c>rhmax_pct with rhmin_pct, or ea_kpa</c>.</summary>
    public string Words => string.Join(", or ", Groups.Select(g => string.Join(" with ", g)));
}
