using System.Text.RegularExpressions;
using NodaTime.Text;
using Runnel.Exchange;

namespace Runnel.Tests.Exchange;

/// <summary>Every example of docs/readings.md is read, and must say what stands below it.</summary>
public sealed partial class ReadingsGuideTests
{
    private static readonly string Guide = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "docs", "readings.md"));

    public static TheoryData<int> Examples() => [.. Enumerable.Range(0, Pairs().Count(Guide))];

    [Theory]
    [MemberData(nameof(Examples))]
    public void An_example_of_the_guide_reads_as_it_says(int index)
    {
        var example = Pairs().Matches(Guide)[index];
        Assert.Equal(example.Groups["reads"].Value.TrimEnd('\n'), Said(example.Groups["csv"].Value));
    }

    [Fact]
    public void The_guide_has_its_examples() => Assert.Equal(8, Pairs().Count(Guide));

    private static string Said(string csv)
    {
        try
        {
            var log = Logs.Read(csv);
            string[] lines =
            [
                .. Logs.Lines(log),
                .. log.Skipped.Select(s => $"skipped: line {s.FirstLine}, {s.Count} {(s.Count == 1 ? "row" : "rows")}: {s.Reason}"),
                .. log.ClockSteps.Select(s => $"clock step: line {s.Line}, from {InstantPattern.ExtendedIso.Format(s.Before)} to {InstantPattern.ExtendedIso.Format(s.After)}"),
                .. log.Remarks.Select(r => $"remark: {r}"),
            ];
            return string.Join('\n', lines);
        }
        catch (UnreadableFileException error)
        {
            return $"error: {error.Message}";
        }
    }

    [GeneratedRegex("```csv\n(?<csv>.*?)```\n```reads\n(?<reads>.*?)```", RegexOptions.Singleline, matchTimeoutMilliseconds: 2000)]
    private static partial Regex Pairs();
}
