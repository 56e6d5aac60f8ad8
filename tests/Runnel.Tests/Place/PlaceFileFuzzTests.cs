using System.Text;
using CsCheck;
using Runnel.Place.PlaceFiles;

namespace Runnel.Tests.Place;

/// <summary>Whatever is handed in as a place file: it is read or refused, and each problem stands inside it.</summary>
public class PlaceFileFuzzTests
{
    private static readonly string[] Examples =
        [Sample.Least, .. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "places"), "*.toml").Order().Select(File.ReadAllText)];

    private static readonly string[] Pieces =
    [
        "[", "]", "[[", "]]", "{", "}", "\"", "'", "\"\"\"", "'''", "#", "=", ".", ",", "\n", "\r\n", "\\", "\\u00", " ",
        "0x", "1e999", "-", "nan", "é", "😀", "\ud800",
        "[[vessel]]\n", "[place]\n", "[vessel.wall]\n", "id = \"sump\"\n", "kind = 3\n", "band = \"6,5 L\"\n",
        "a.b.c = 1\n", "2026-01-01", "true", "\t", "\u0007",
    ];

    [Fact]
    public void Random_bytes_are_refused_without_an_exception() =>
        Gen.Byte.Array[0, 400].Sample(bytes => Check(Encoding.UTF8.GetString(bytes)), iter: 500);

    [Fact]
    public void Pieces_of_toml_in_any_order_are_read_or_refused() =>
        Gen.Int[0, Pieces.Length - 1].Array[0, 60].Sample(picks => Check(string.Concat(picks.Select(p => Pieces[p]))), iter: 800);

    [Fact]
    public void A_good_file_with_something_wrong_in_it_is_read_or_refused()
    {
        var edit = Gen.Select(Gen.Double[0, 1], Gen.Int[0, 12], Gen.Int[-1, Pieces.Length - 1]);
        Gen.Select(Gen.Int[0, Examples.Length - 1], edit.Array[1, 4]).Sample(
            (example, edits) =>
            {
                string text = Examples[example];
                foreach (var (where, cut, piece) in edits)
                {
                    int at = (int)(where * text.Length);
                    text = text[..at] + (piece < 0 ? "" : Pieces[piece]) + text[Math.Min(text.Length, at + cut)..];
                }

                Check(text);
            }, iter: 800);
    }

    [Fact]
    public void Heaps_of_brackets_quotes_and_comments_do_not_exhaust_the_stack()
    {
        string[] heavy = ["[", "[", "[", "[[", "{a=", "{", "\"", "'", "#", "\n", "\"\"\"", "'''", "\\\"", "a=", "]", ","];
        Gen.Int[0, heavy.Length - 1].Array[0, 3000].Sample(picks => Check("a=" + string.Concat(picks.Select(p => heavy[p]))), iter: 300);
    }

    [Fact]
    public void A_long_path_of_dotted_keys_is_read_or_refused() => Check(string.Join('.', Enumerable.Repeat("a", 3000)) + " = 1");

    private static void Check(string text)
    {
        var result = PlaceFile.Read(text, "place.toml");
        Assert.True(result.Place is null == result.Problems.Count > 0);
        string[] lines = text.TrimStart('\ufeff').Split('\n');
        foreach (var problem in result.Problems)
        {
            Assert.InRange(problem.Line, 1, lines.Length);
            Assert.InRange(problem.Column, 1, lines[problem.Line - 1].Length + 1);
            Assert.DoesNotContain(problem.ToString(), char.IsControl);
        }
    }
}
