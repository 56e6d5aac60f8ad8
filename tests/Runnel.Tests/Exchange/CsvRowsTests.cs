using System.Text;
using System.Text.Json;
using CsCheck;
using nietras.SeparatedValues;
using Runnel.Exchange.Csv;

namespace Runnel.Tests.Exchange;

public sealed class CsvRowsTests
{
    // Source: RFC 4180 (Shafranovich, 2005), section 2; rows checked there with Python's csv module.
    [Fact, Trait("source", "RFC 4180")]
    public void Published_cases_are_split_and_written_as_printed()
    {
        using var document = JsonDocument.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Published", "csv.json")));
        int split = 0, refused = 0, written = 0;
        foreach (var published in document.RootElement.GetProperty("cases").EnumerateArray())
        {
            string name = published.GetProperty("case").GetString()!;
            if (published.GetProperty("relation").GetString()!.StartsWith("write", StringComparison.Ordinal))
            {
                var text = new StringWriter();
                CsvLine.Write(text, [.. published.GetProperty("input").EnumerateArray().Select(f => f.GetString()!)]);
                Assert.Equal((name, published.GetProperty("expected").GetProperty("text").GetString()), (name, text.ToString()));
                written++;
                continue;
            }

            var (rows, fault) = Split(published.GetProperty("input").GetString()!);
            if (published.TryGetProperty("expected_error", out var error))
            {
                var expected = error.GetString()!.StartsWith("text", StringComparison.Ordinal) ? CsvFault.TextAfterQuote : CsvFault.UnclosedQuote;
                Assert.Equal((name, expected), (name, fault));
                refused++;
                continue;
            }

            string[][] wanted = [.. published.GetProperty("expected").GetProperty("rows").EnumerateArray()
                .Select(r => r.EnumerateArray().Select(f => f.GetString()!).ToArray())];
            Assert.Equal(CsvFault.None, fault);
            Assert.Equal(wanted, rows);
            split++;
        }

        Assert.Equal((8, 2, 2), (split, refused, written));
    }

    [Fact]
    public void Any_fields_come_back_as_they_were_written()
    {
        var field = Gen.OneOf(Gen.String[Gen.Char["ab,;\"\r\n\t é温"], 0, 8], Gen.Const(""));
        field.Array[1, 6].Array[1, 20].Sample(rows =>
        {
            var text = new StringWriter();
            foreach (string[] row in rows) CsvLine.Write(text, row);
            var (read, fault) = Split(text.ToString());
            return fault == CsvFault.None && Same(rows, read);
        }, iter: 2000);
    }

    // Checked against another reader of RFC 4180, the package Sep.
    [Fact]
    public void Quoted_text_is_split_as_another_reader_splits_it()
    {
        var field = Gen.OneOf(Gen.String[Gen.Char["ab;1.\"\n "], 0, 6]);
        field.Array[3, 3].Array[1, 20].Sample(rows =>
        {
            var text = new StringBuilder();
            foreach (string[] row in rows)
                text.AppendJoin(',', row.Select(f => $"\"{f.Replace("\"", "\"\"", StringComparison.Ordinal)}\"")).Append('\n');
            using var other = Sep.New(',').Reader(o => o with { HasHeader = false, Unescape = true }).FromText(text.ToString());
            var theirs = new List<string[]>();
            foreach (var row in other) theirs.Add([row[0].ToString(), row[1].ToString(), row[2].ToString()]);
            return Same([.. theirs], Split(text.ToString()).Rows);
        }, iter: 500);
    }

    [Fact]
    public void A_row_knows_the_line_it_begins_on()
    {
        var rows = new CsvRows("a,b\r\n\r\n\"x\ny\",z\rlast,row".AsMemory(), ',');
        var lines = new List<(long, string)>();
        while (rows.Next()) lines.Add((rows.Line, rows[1].ToString()));
        Assert.Equal([(1, "b"), (3, "z"), (5, "row")], lines);
        Assert.Equal(1, rows.BlankLines);
    }

    [Fact]
    public void A_quote_that_is_never_closed_costs_one_line_only()
    {
        var rows = new CsvRows("a,b\n\"oops,1\nc,d\ne,f\n".AsMemory(), ',');
        var seen = new List<(long, CsvFault)>();
        while (rows.Next()) seen.Add((rows.Line, rows.Fault));
        Assert.Equal([(1, CsvFault.None), (2, CsvFault.UnclosedQuote), (3, CsvFault.None), (4, CsvFault.None)], seen);
    }

    [Fact]
    public void A_line_without_end_is_a_fault_and_the_next_is_read()
    {
        var rows = new CsvRows((new string('x', 3 * CsvRows.GreatestRowLength) + "\na,b\n").AsMemory(), ',');
        Assert.True(rows.Next());
        Assert.Equal(CsvFault.TooLong, rows.Fault);
        Assert.True(rows.Next());
        Assert.Equal((2L, "b"), (rows.Line, rows[1].ToString()));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(7)]
    public void The_pieces_in_which_text_arrives_do_not_matter(int piece)
    {
        string text = "ä,\"b\r\n\"\"c\"\"\",d\r\n\r\n1,2,3\r4,\"5\",6";
        using var slow = new PiecewiseStream(Encoding.UTF8.GetBytes(text), piece);
        var rows = new CsvRows(CsvText.Open(slow, null, TestContext.Current.CancellationToken), ',');
        Assert.Equal(Split(text).Rows, All(rows));
    }

    private static (string[][] Rows, CsvFault Fault) Split(string text)
    {
        var rows = new CsvRows(text.AsMemory(), ',');
        var all = new List<string[]>();
        while (rows.Next())
        {
            if (rows.Fault != CsvFault.None) return ([], rows.Fault);
            all.Add(Fields(rows));
        }

        return ([.. all], CsvFault.None);
    }

    private static string[][] All(CsvRows rows)
    {
        var all = new List<string[]>();
        while (rows.Next()) all.Add(Fields(rows));
        return [.. all];
    }

    private static string[] Fields(CsvRows rows)
    {
        var fields = new string[rows.Count];
        for (int i = 0; i < fields.Length; i++) fields[i] = rows[i].ToString();
        return fields;
    }

    private static bool Same(string[][] a, string[][] b) => a.Length == b.Length && a.Zip(b).All(p => p.First.SequenceEqual(p.Second));
}
