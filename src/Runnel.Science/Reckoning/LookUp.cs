using Runnel.Science.Figures;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>
/// The short way to describe a look-up: rows of a table of reference data, found by one word or two, each figure with the source of its row. Where
/// several sources have a row, the first one answers and the meaning says how many there are.
/// </summary>
/// <param name="rows">The table.</param>
/// <param name="source">Source of a row.</param>
/// <param name="provenance">How a row was come by.</param>
internal sealed class LookUp<T>(IReadOnlyList<T> rows, Func<T, string> source, Func<T, string> provenance)
{
    private readonly List<(Input Input, Func<T, string> Of)> keys = [];
    private readonly List<(Output Output, Func<T, Value> Of)> figures = [];

    /// <summary>A word to find rows by; a row is found when its own begins with it.</summary>
    public LookUp<T> By(string name, string words, Func<T, string> of, bool optional = false)
    {
        string[] known = [.. rows.Select(of).Where(w => w.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase)];
        var input = Word(name, words, known[0]) with { Offers = [.. known.Select(k => (k, k))], Optional = optional };
        keys.Add((input, of));
        return this;
    }

    public LookUp<T> Gives(string name, string unit, string words, Func<T, double?> of)
    {
        figures.Add((new(name, unit, words), r => of(r)));
        return this;
    }

    /// <summary>Both ends of a range, <c>X_min</c> and <c>X_max</c> with the unit behind.</summary>
    public LookUp<T> GivesRange(string name, string suffix, string unit, string words, Func<T, FigureRange?> of) =>
        Gives($"{name}_min{suffix}", unit, words + ", from", r => of(r)?.Least).Gives($"{name}_max{suffix}", unit, words + ", to", r => of(r)?.Greatest);

    public LookUp<T> Says(string name, string words, Func<T, string> of)
    {
        figures.Add((new(name, "word", words), r => of(r) is { Length: > 0 } text ? text : (string?)null));
        return this;
    }

    public Relation As(string name, string question, string explanation, string print, Func<Answer, string> meaning, params string[] cautions)
    {
        figures.Add((new Output("figure_source", "word", "source of these figures"), r => source(r)));
        figures.Add((new Output("figure_provenance", "word", "how they were come by"), r => provenance(r)));
        return new Relation(name, question)
        {
            Explanation = explanation,
            Inputs = [.. keys.Select(k => k.Input)],
            Outputs = [.. figures.Select(f => f.Output)],
            Formula = "looked up in a table, not reckoned",
            Source = print,
            Cautions = cautions,
            Reckon = g =>
            {
                var row = Found(g)[0];
                return [.. figures.Select(f => f.Of(row))];
            },
            Meaning = a => meaning(a) + (Found(a.Given).Length is > 1 and var count ? $" {count} rows answer to that; this is the first." : "") + Weak(a.Say("figure_provenance")),
        };
    }

    // A figure that nobody could read up says so beside itself.
    private static string Weak(string how) => how.StartsWith("memory", StringComparison.Ordinal) ? " The figures are from memory: check them before they matter." : "";

    private T[] Found(Given given)
    {
        var found = rows.AsEnumerable();
        foreach (var (input, of) in keys.Where(k => given.Has(k.Input.Name)))
        {
            string word = given.Word(input.Name).Trim();
            T[] exact = [.. found.Where(r => string.Equals(of(r), word, StringComparison.OrdinalIgnoreCase))];
            T[] left = exact.Length > 0 ? exact : [.. found.Where(r => of(r).StartsWith(word, StringComparison.OrdinalIgnoreCase))];
            if (left.Length == 0)
            {
                string known = string.Join(", ", found.Select(of).Where(w => w.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.OrdinalIgnoreCase));
                throw new RefusedInputException(new Problem(input.Name, $"\"{word}\" is not listed", $"Listed: {known}"));
            }

            found = left;
        }

        return [.. found];
    }
}
