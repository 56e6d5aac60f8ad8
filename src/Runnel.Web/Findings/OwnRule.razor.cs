using Microsoft.AspNetCore.Components;
using Runnel.Place.Findings;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

public sealed partial class OwnRule : ComponentBase
{
    [Parameter] public required OwnRuleFinding Finding { get; set; }

    private string Sentence
    {
        get
        {
            string made = $"It made {Counted(Finding.TopUps, "top-up", "top-ups")} of {Figures.Number(Finding.Litres)} L in all";
            if (Finding.NotNeeded == 0 && Finding.Late == 0) return made + "; the readings called for every one of them.";
            var faults = new List<string>();
            if (Finding.NotNeeded > 0) faults.Add($"{Figures.Number(Finding.NotNeeded)} {(Finding.NotNeeded == 1 ? "was" : "were")} not needed");
            if (Finding.Late > 0) faults.Add($"{Figures.Number(Finding.Late)} came late");
            string tooMuch = Finding.TooMuchL >= 1 ? $" It poured {Figures.Number(Finding.TooMuchL)} L too much." : "";
            return $"{made}; {string.Join(" and ", faults)}.{tooMuch}";
        }
    }

    private static string Counted(int count, string one, string many) => $"{Figures.Number(count)} {(count == 1 ? one : many)}";
}
