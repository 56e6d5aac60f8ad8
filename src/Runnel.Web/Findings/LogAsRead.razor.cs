using Microsoft.AspNetCore.Components;
using Runnel.Place;
using Runnel.Place.Findings;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

public sealed partial class LogAsRead : ComponentBase
{
    [Parameter] public required Diagnosis Diagnosis { get; set; }

    private string KitSentence => Diagnosis.Kit.Count == 0
        ? "It shows nothing that a loop could be read from."
        : $"It shows {InWords(Diagnosis.Kit)}.";

    private static string SkippedSentence(SkippedRows skipped) =>
        $"{Figures.Number(skipped.Count)} {(skipped.Count == 1 ? "row" : "rows")} left out: {skipped.Reason} ({(skipped.Count == 1 ? "line" : "first in line")} {Figures.Number(skipped.FirstLine)}).";

    private static string InWords(IReadOnlyList<string> kit)
    {
        string[] words = [.. kit.Select(k => k.Replace("-running", " switch", StringComparison.Ordinal).Replace('-', ' '))];
        return words.Length == 1 ? "the " + words[0] : $"the {string.Join(", ", words[..^1])} and {words[^1]}";
    }
}
