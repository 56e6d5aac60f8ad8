using System.Globalization;
using Runnel.Twin.Invented;

namespace Runnel.Benchmarks;

/// <summary>What was asked for on the command line.</summary>
internal sealed record Options
{
    public IReadOnlyList<LoopKind> Kinds { get; init; } = Enum.GetValues<LoopKind>();
    public string Story { get; init; } = "all";
    public int Seeds { get; init; } = 5;
    public int FirstSeed { get; init; } = 1;
    public int Days { get; init; } = 40;
    public bool Verbose { get; init; }
    public bool Twin { get; init; }
    public string Out { get; init; } = "invented";
    public int Threads { get; init; } = Math.Min(2, Environment.ProcessorCount);

    public static Options Parse(IEnumerable<string> args)
    {
        var options = new Options();
        using var rest = args.GetEnumerator();
        while (rest.MoveNext())
        {
            string name = rest.Current;
            string Value() => rest.MoveNext() ? rest.Current : throw new ArgumentException($"{name} needs a value");
            int Whole() => int.Parse(Value(), CultureInfo.InvariantCulture);
            options = name switch
            {
                "--kind" => options with { Kinds = ParseKinds(Value()) },
                "--story" => options with { Story = Value() },
                "--seeds" => options with { Seeds = Whole() },
                "--seed" or "--first-seed" => options with { FirstSeed = Whole() },
                "--days" => options with { Days = Whole() },
                "--threads" => options with { Threads = Whole() },
                "--out" => options with { Out = Value() },
                "--twin" => options with { Twin = true, Seeds = 200, Days = 32 },
                "--verbose" => options with { Verbose = true },
                _ => throw new ArgumentException($"unknown option {name}"),
            };
        }

        return options;
    }

    private static LoopKind[] ParseKinds(string text) =>
        text == "all" ? Enum.GetValues<LoopKind>() : [.. text.Select(c => (LoopKind)"ABCD".IndexOf(char.ToUpperInvariant(c), StringComparison.Ordinal))];

    public IEnumerable<Story> Stories() => Runnel.Twin.Invented.Stories.All.Where(s => Story switch
    {
        "all" => true,
        "faults" => s.IsFault,
        "changes" => !s.IsFault,
        _ => Story.Split(',').Contains(s.Name),
    });

    public IEnumerable<(LoopKind Kind, Story Story, int Seed)> Logs() =>
        from kind in Kinds
        from story in Stories()
        where story.Fits(kind)
        from seed in Enumerable.Range(FirstSeed, Seeds)
        select (kind, story, seed);
}
