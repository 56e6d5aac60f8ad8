namespace Runnel.Science.Reckoning;

/// <summary>
/// One relation as people meet it. This description alone drives the command line, tables, the API and the pages: whoever adds an entry to
/// the <see cref="Catalogue"/> has added it everywhere.
/// </summary>
/// <param name="Name">Its name: kebab-case, as in <c>runnel reckon NAME</c>.</param>
/// <param name="Question">The question of a keeper that it answers.</param>
public sealed record Relation(string Name, string Question)
{
    /// <summary>In plain words: what it reckons, and what it leaves out.</summary>
    public required string Explanation { get; init; }

    /// <summary>What it is reckoned from.</summary>
    public required IReadOnlyList<Input> Inputs { get; init; }

    /// <summary>Inputs that stand for each other.</summary>
    public IReadOnlyList<OneOf> Choices { get; init; } = [];

    /// <summary>What comes out.</summary>
    public required IReadOnlyList<Output> Outputs { get; init; }

    /// <summary>The input along which a chart shows how the answer moves; null where a chart says nothing.</summary>
    public string? Along { get; init; }

    /// <summary>Ends of that chart; null where the input's whole range is shown.</summary>
    public (double From, double To)? Shown { get; init; }

    /// <summary>The result that the chart and the headline show; null for the first.</summary>
    public string? Main { get; init; }

    /// <summary>The formula as plain text.</summary>
    public required string Formula { get; init; }

    /// <summary>Where it is published, and how far it may be trusted.</summary>
    public required string Source { get; init; }

    /// <summary>What can hurt, and who has the last word.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];

    /// <summary>The subject whose page lists it; set by the catalogue.</summary>
    public Subject Subject { get; internal init; } = Subject.None;

    /// <summary>Other names of it, from the published tables that it is checked against.</summary>
    public IReadOnlyList<string> AlsoCalled { get; internal init; } = [];

    internal IReadOnlyList<Rule> Rules { get; init; } = [];

    /// <summary>The sum: results in the order of <see cref="Outputs"/>, from inputs that are read and in range.</summary>
    public required Func<Given, Value[]> Reckon { get; init; }

    /// <summary>What an answer means, in a sentence or two.</summary>
    public required Func<Answer, string> Meaning { get; init; }

    /// <summary>The result that the chart and the headline show.</summary>
    public Output MainOutput => Outputs.First(o => Main is null || o.Name == Main);

    /// <summary>The input of a name or one of its other names; upper and lower case, and hyphens or points for underscores, are one.</summary>
    /// <param name="name">Name.</param>
    /// <returns>The input, or null.</returns>
    public Input? Find(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        string bare = Bare(name);
        return Inputs.FirstOrDefault(i => string.Equals(i.Name, bare, StringComparison.OrdinalIgnoreCase))
            ?? Inputs.FirstOrDefault(i => i.AlsoNamed.Contains(bare, StringComparer.OrdinalIgnoreCase) || i.UnitUnder(bare) is not null);
    }

    /// <summary>The name in its one form.</summary>
    internal static string Bare(string name) => name.Trim().Replace('-', '_').Replace('.', '_');

    /// <summary>Whether an input may be left out: by itself, or because others stand for it.</summary>
    /// <param name="input">The input.</param>
    public bool IsOptional(Input input)
    {
        ArgumentNullException.ThrowIfNull(input);
        return input.Optional || Choices.Any(c => c.Groups.Any(g => g.Contains(input.Name)));
    }

    /// <summary>Usual inputs, complete: those without a default, and the first group where there is a choice.</summary>
    public IEnumerable<KeyValuePair<string, string>> ExampleInputs =>
        Inputs.Where(i => i.Default is null && !IsOptional(i) || Choices.Any(c => c.Groups[0].Contains(i.Name) && (!c.MayBeNone || i.Default is null)))
            .Select(i => KeyValuePair.Create(i.Name, i.Example));

    /// <summary>Reads the inputs, checks them and reckons.</summary>
    /// <param name="given">Names and texts; an empty text counts as not given.</param>
    public Reckoned Solve(IEnumerable<KeyValuePair<string, string>> given)
    {
        var (read, problems) = new GivenReader(this).Read(given);
        return read is null ? new Reckoned(null, problems) : Solve(read);
    }

    /// <summary>Reckons from inputs that were read before, as with another value of one of them.</summary>
    /// <param name="given">The inputs.</param>
    public Reckoned Solve(Given given)
    {
        ArgumentNullException.ThrowIfNull(given);
        try
        {
            foreach (var rule in Rules)
            {
                if (!rule.Holds(given)) return Refused(new Problem(rule.Input, rule.What, rule.Remedy));
            }

            return new Reckoned(new Answer(this, given, Reckon(given)), []);
        }
        catch (RefusedInputException refused)
        {
            return Refused(refused.Problem);
        }
        catch (Exception error) when (error is ArgumentException or FormatException)
        {
            // What no range of a single input says: the relation itself refused the combination.
            return Refused(new Problem("", $"these inputs do not go together ({error.Message.Split('\n', '(')[0].Trim()})", "Check them against each other"));
        }
    }

    private static Reckoned Refused(Problem problem) => new(null, [problem]);
}
