using Runnel.Science.Reckoning;

namespace Runnel.Web.Reckoner;

/// <summary>One thing a form asks for: an input, or several of which one group is to be filled in.</summary>
/// <param name="Groups">Groups of inputs; one group of one input where there is no choice.</param>
/// <param name="MayBeNone">Whether all may stay empty.</param>
public sealed record Asking(IReadOnlyList<IReadOnlyList<Input>> Groups, bool MayBeNone)
{
    public bool IsChoice => Groups.Count > 1;

    /// <summary>Whether an input is part of several groups, as a temperature that goes with humidity or with a dew point.</summary>
    public bool Overlaps => IsChoice && Groups.SelectMany(g => g).GroupBy(i => i.Name).Any(g => g.Count() > 1);

    /// <summary>Every input once, in the order of the groups.</summary>
    public IReadOnlyList<Input> Apart => [.. Groups.SelectMany(g => g).DistinctBy(i => i.Name)];

    /// <summary>The groups in words, as they stand above inputs that overlap.</summary>
    public IEnumerable<string> Ways => Groups.Select(g => string.Join(", ", g.Select(i => i.Words.Split(": ")[0].Split(" (")[0])));

    /// <summary>Whether the usual value of the first group will nearly always do.</summary>
    public bool IsDetail { get; private init; }

    /// <summary>Whether a usual value stands in for it.</summary>
    public bool IsUsual => IsChoice ? IsDetail && Groups[0].All(i => i.Default is not null) : Groups[0][0] is { Optional: true, Kind: not InputKind.Clock };

    /// <summary>Words as they begin a line; pH keeps its own way.</summary>
    public static string Capital(string words) => words.StartsWith("pH", StringComparison.Ordinal) ? words : char.ToUpperInvariant(words[0]) + words[1..];

    /// <summary>What a form asks for, in the order of the inputs.</summary>
    public static IReadOnlyList<Asking> Of(Relation relation)
    {
        var asked = new List<Asking>();
        var done = new HashSet<string>();
        foreach (Input input in relation.Inputs)
        {
            if (done.Contains(input.Name)) continue;
            OneOf? choice = relation.Choices.FirstOrDefault(c => c.Groups.Any(g => g.Contains(input.Name)));
            Asking next = choice is null ? new([[input]], input.Optional)
                : new([.. choice.Groups.Select(g => (IReadOnlyList<Input>)[.. g.Select(n => relation.Find(n)!)])], choice.MayBeNone) { IsDetail = choice.IsDetail };
            foreach (Input taken in next.Groups.SelectMany(g => g)) done.Add(taken.Name);
            asked.Add(next);
        }

        return asked;
    }
}
