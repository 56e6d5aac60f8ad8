namespace Runnel.Science.Reckoning;

/// <summary>One result of a relation.</summary>
/// <param name="Name">Name in tables, JSON and the API; it ends with its unit.</param>
/// <param name="Unit">Unit; <c>1</c> for plain numbers and ratios, <c>time</c> for a moment, <c>word</c> for a word.</param>
/// <param name="Words">What it is, in a few words.</param>
public sealed record Output(string Name, string Unit, string Words)
{
    /// <summary>Whether it is a step on the way or a second form of another result: pages fold it away.</summary>
    public bool IsDetail { get; private init; }

    /// <summary>The same result, folded away on pages.</summary>
    public Output Folded() => this with { IsDetail = true };
}
