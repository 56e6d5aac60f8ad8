using Runnel.Science.Reckoning;

namespace Runnel.Science.Tests.Reckoning;

// Source: those of the tables, named in each row. The relations are reached by name, with the columns of the table as inputs.
public sealed class HydraulicReckonerTests
{
    private static readonly Dictionary<string, PublishedTable> Tables = ReckonedHydraulics.Files.ToDictionary(f => f, PublishedTable.Open);

    public static IEnumerable<TheoryDataRow<string>> Files => ReckonedHydraulics.Files.Select(f => new TheoryDataRow<string>(f));

    [Theory, MemberData(nameof(Files))]
    public void Rows_of_a_published_table_come_out_by_name(string file)
    {
        var wrong = new List<string>();
        int rows = 0;
        foreach (var c in Tables[file].Rows.Select(r => Tables[file][r.Data.Item1]))
        {
            if (ReckonedHydraulics.Of(c) is not { } use)
            {
                if (ReckonedHydraulics.ReasonFor(c) is null) wrong.Add($"{c.Name}: neither a relation nor a reason");
                continue;
            }

            rows++;
            var relation = Catalogue.Find(use.Relation) ?? throw new InvalidOperationException($"no relation {use.Relation}");
            var given = c.Columns.Select(n => use.Inputs.TryGetValue(n, out var other) ? KeyValuePair.Create(other.Input, $"{c.Text(n)} {other.Unit}".Trim()) : KeyValuePair.Create(n, c.Text(n)))
                .Where(i => relation.Find(i.Key) is not null && !use.Also.ContainsKey(i.Key)).Concat(use.Also);
            var (answer, problems) = relation.Solve(given);
            if (answer is null)
            {
                wrong.Add($"{c.Name}: {relation.Name} refused: {string.Join(" ", problems.Select(p => p.Line))}");
                continue;
            }

            foreach (string expected in c.Expected.Except(use.Left))
            {
                var (name, factor) = use.Outputs.GetValueOrDefault(expected, (expected, 1));
                if (relation.Outputs.FirstOrDefault(o => string.Equals(o.Name, name, StringComparison.OrdinalIgnoreCase)) is not { } output) wrong.Add($"{c.Name}: {relation.Name} has no result {name}");
                else if (output.Unit == "word") Assert.Equal(c.ExpectedText(expected), answer.Say(output.Name));
                else c.Compare(expected, factor * answer[output.Name]);
            }
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.True(rows > 15);
    }

    // Whoever has such a table names the kind of its rows and gives the columns as they stand.
    [Theory, MemberData(nameof(Files))]
    public void Rows_come_out_by_the_name_of_their_kind_with_their_columns_as_they_stand(string file)
    {
        int rows = 0, values = 0;
        foreach (var c in Tables[file].Rows.Select(r => Tables[file][r.Data.Item1]))
        {
            if (ReckonedHydraulics.Of(c) is null || Catalogue.Find(ReckonedHydraulics.Family(c.Name)) is not { } relation) continue;
            var (answer, problems) = relation.Solve(c.Columns.Where(n => relation.Find(n) is not null).Select(n => KeyValuePair.Create(n, c.Text(n))));
            Assert.True(answer is not null, $"{c.Name}: {relation.Name} refused: {string.Join(" ", problems.Select(p => p.Line))}");
            rows++;
            foreach (string expected in c.Expected)
            {
                // The last of a name is the table's own.
                if (relation.Outputs.Index().LastOrDefault(o => string.Equals(o.Item.Name, expected, StringComparison.OrdinalIgnoreCase)) is not { Item: { } output } found) continue;
                values++;
                if (output.Unit == "word") Assert.Equal(c.ExpectedText(expected), answer.Values[found.Index].Text);
                else c.Compare(expected, answer.Values[found.Index].Number);
            }
        }

        Assert.True(rows >= 10 && values >= rows, $"{rows} rows, {values} values");
    }
}
