using System.Globalization;
using Runnel.Science.Reckoning;
using Runnel.Science.Units;

namespace Runnel.Science.Tests.Reckoning;

/// <summary>What every relation promises, whoever adds it.</summary>
public sealed class CatalogueTests
{
    public static IEnumerable<TheoryDataRow<string>> Names => Catalogue.All.Select(r => new TheoryDataRow<string>(r.Name));

    [Theory, MemberData(nameof(Names))]
    public void It_is_described_in_full(string name)
    {
        var relation = Catalogue.Find(name)!;
        Assert.Matches("^[a-z0-9]+(-[a-z0-9]+)*$", relation.Name);
        Assert.EndsWith("?", relation.Question, StringComparison.Ordinal);
        Assert.EndsWith(".", relation.Explanation, StringComparison.Ordinal);
        Assert.NotEmpty(relation.Formula);
        Assert.NotEmpty(relation.Source);
        Assert.NotEmpty(relation.Subject.Name);
        Assert.NotEmpty(relation.MainOutput.Words);
        string[] names = [.. relation.Inputs.SelectMany(i => i.AlsoNamed.Prepend(i.Name).Concat(i.InOtherUnits.Select(o => o.Name)))];
        Assert.Equal(names.Length, names.Distinct().Count());
        Assert.Equal(relation.Outputs.Count, relation.Outputs.Select(o => o.Name).Distinct().Count());
        Assert.All(names, n => Assert.Matches("^[a-z0-9_]+$", n));
        Assert.All(relation.Choices.SelectMany(c => c.Groups).SelectMany(g => g), n => Assert.NotNull(relation.Find(n)));
        if (relation.Along is { } along) Assert.Equal(InputKind.Number, relation.Find(along) is { Kind: InputKind.Whole } ? InputKind.Number : relation.Find(along)!.Kind);
        foreach (var input in relation.Inputs.Where(i => i.Kind is InputKind.Number or InputKind.Whole))
        {
            Assert.True(double.IsFinite(input.Least) && double.IsFinite(input.Greatest) && input.Least < input.Greatest, input.Name);
            double example = double.Parse(input.Example, CultureInfo.InvariantCulture);
            Assert.True(example >= input.Least && example <= input.Greatest, $"{input.Name}: {example}");
        }
    }

    [Theory, MemberData(nameof(Names))]
    public void It_answers_its_own_example_with_a_meaning(string name)
    {
        var relation = Catalogue.Find(name)!;
        var (answer, problems) = relation.Solve(relation.ExampleInputs);
        Assert.True(answer is not null, string.Join(" ", problems.Select(p => p.Line)));
        Assert.All(answer.Values.Zip(relation.Outputs).Where(v => v.First.Text is null), v => Assert.True(double.IsFinite(v.First.Number) || MayBeNone(name, v.Second), v.Second.Name));
        Assert.NotEmpty(answer.Meaning);
        Assert.DoesNotContain("NaN", answer.Meaning, StringComparison.Ordinal);
    }

    [Theory, MemberData(nameof(Names))]
    public void It_refuses_what_is_no_number_missing_doubled_or_out_of_range_by_name_and_range(string name)
    {
        var relation = Catalogue.Find(name)!;
        var example = relation.ExampleInputs.ToList();
        foreach (var (key, text) in example)
        {
            var input = relation.Find(key)!;
            Refused(relation, input, [.. example, new(key, text)]);
            if (relation.Choices.All(c => !c.Groups[0].Contains(key)) && input.Default is null) Refused(relation, input, [.. example.Where(e => e.Key != key)]);
            if (input.Kind is not (InputKind.Number or InputKind.Whole)) continue;
            foreach (double bad in new[] { double.NaN, double.PositiveInfinity, input.Greatest + 1, input.Least - 1 })
                Refused(relation, input, [.. example.Where(e => e.Key != key), new(key, bad.ToString("R", CultureInfo.InvariantCulture))]);
        }

        var extra = relation.Solve([.. example, new("nonsense", "1")]);
        Assert.Null(extra.Answer);
    }

    [Theory, MemberData(nameof(Names))]
    public void It_answers_or_refuses_in_words_anywhere_in_its_ranges(string name)
    {
        var relation = Catalogue.Find(name)!;
        var random = new Random(7);
        for (int turn = 0; turn < 200; turn++)
        {
            var given = relation.ExampleInputs.Select(e => new KeyValuePair<string, string>(e.Key, Somewhere(relation.Find(e.Key)!, e.Value, random)));
            var (answer, problems) = relation.Solve(given);
            if (answer is null) Assert.All(problems, p => Assert.NotEmpty(p.Remedy));
            else Assert.NotEmpty(answer.Meaning);
        }
    }

    [Theory, MemberData(nameof(Names))]
    public void It_can_be_given_in_every_unit_it_offers(string name)
    {
        var relation = Catalogue.Find(name)!;
        foreach (var input in relation.Inputs)
        {
            var units = UnitChoices.Of(input);
            Assert.All(units, u => Assert.True(double.IsFinite(u.Scale) && u.Scale > 0));
            Assert.All(input.InOtherUnits, o => Assert.Equal(Unit.Of(input.Unit).Dimension, Unit.Of(o.Unit).Dimension));
            if (input.UnitOnPages is { } shown) Assert.Contains(units, u => u.Symbol == shown);
            if (units.Count > 0) Assert.Equal((input.Unit, 1.0, 0.0), (units[0].Symbol, units[0].Scale, units[0].Offset));
        }
    }

    [Fact]
    public void Names_are_found_in_any_spelling()
    {
        Assert.NotNull(Catalogue.Find("ETO_daily"));
        Assert.Null(Catalogue.Find("eto"));
        Assert.Equal("temp_c", Catalogue.Find("ammonia")!.Find("Temp-C")!.Name);
    }

    [Fact]
    public void A_value_with_another_unit_is_turned_into_the_inputs_own()
    {
        var ammonia = Catalogue.Find("ammonia")!;
        var given = new Dictionary<string, string> { ["temp_c"] = "75.2 degF", ["ph"] = "8", ["tan_mg_n_l"] = "1000 ug/L" };
        // "mg/L as N" is no unit that can be parsed, so a microgram is refused rather than guessed.
        Assert.Null(ammonia.Solve(given).Answer);
        given["tan_mg_n_l"] = "1";
        Assert.Equal(0.0502, ammonia.Solve(given).Answer!["nh3_mg_n_l"], 0.0001);
    }

    // A result that may be missing in ordinary use says so: no surface exchange, no steady oxygen; a chart without a signal; a figure that a book does not give.
    private static bool MayBeNone(string relation, Output output) =>
        (relation, output.Name) is ("time-to-hypoxia", "steady_do_mg_l") or ("extraterrestrial-radiation", "i0_mj_m2_h") || Catalogue.Find(relation)!.Subject.Name == "books"
        || output.Words.Contains("none", StringComparison.Ordinal);

    private static void Refused(Relation relation, Input input, IReadOnlyList<KeyValuePair<string, string>> given)
    {
        var (answer, problems) = relation.Solve(given);
        Assert.Null(answer);
        Assert.Contains(problems, p => p.Input == input.Name && p.Remedy.Contains(input.Range, StringComparison.Ordinal));
    }

    private static string Somewhere(Input input, string example, Random random) => input.Kind switch
    {
        InputKind.Number => (input.Least + ((input.Greatest - input.Least) * Math.Pow(random.NextDouble(), 3))).ToString("R", CultureInfo.InvariantCulture),
        InputKind.Whole => Math.Floor(input.Least + ((Math.Min(input.Greatest, 1000) - input.Least) * random.NextDouble())).ToString("R", CultureInfo.InvariantCulture),
        InputKind.Word when input.Choices.Count > 0 => input.Choices[random.Next(input.Choices.Count)],
        _ => example,
    };
}
