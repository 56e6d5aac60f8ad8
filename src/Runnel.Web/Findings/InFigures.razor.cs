using Microsoft.AspNetCore.Components;
using Runnel.Place.Findings;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

public sealed partial class InFigures : ComponentBase
{
    [Parameter] public required Diagnosis Diagnosis { get; set; }

    private sealed record Row(string Name, string Value, string Unit, string Band);

    private IReadOnlyList<Row> Rows =>
    [
        .. Diagnosis.Estimates.GroupBy(e => e.Name).Select(g => g.MaxBy(e => e.Time)!).Select(e =>
        {
            int decimals = Figures.DecimalsFor(e.Value);
            return new Row(NameInWords(e.Name), Figures.Number(e.Value, decimals), Figures.UnitInWords(e.Unit), $"({Figures.Range(e.Low, e.High, decimals)})");
        }),
    ];

    private static string NameInWords(string name) => name switch
    {
        "litres-short" => "Short of full",
        "pump-flow" => "The pump lifts",
        "return-flow" => "Comes back through the drains",
        "turnovers" => "Turnovers of the loop",
        "gauge" => "A fill lengthens, for each litre short",
        "use-a-day" => "Weather and plants take",
        _ => char.ToUpperInvariant(name[0]) + name[1..].Replace('-', ' '),
    };
}
