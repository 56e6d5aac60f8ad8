using Microsoft.AspNetCore.Components;
using Runnel.Place.Findings;
using Runnel.Web.Words;

namespace Runnel.Web.Findings;

public sealed partial class InFigures : ComponentBase
{
    [Parameter] public required Diagnosis Diagnosis { get; set; }

    private sealed record Row(string Name, string Value, string Unit, string Band);

    private IReadOnlyList<Row> Rows => [.. Diagnosis.Estimates.GroupBy(e => e.Name).Select(g => RowOf(g.MaxBy(e => e.Time)!))];

    private static Row RowOf(Estimate e)
    {
        (string name, string unit, double per) = e.Name switch
        {
            "litres-short" => e.Value < 0 ? ("More than full", "L", -1.0) : ("Short of full", "L", 1.0),
            "pump-flow" => ("The pump lifts", "L/min", 1),
            "return-flow" => ("Comes back through the drains", "L/min", 1),
            "pumped-a-day" => ("Pumped", "L a day", 1),
            "turnovers" => ("Turnovers of the loop", Figures.UnitInWords(e.Unit), 1),
            "litres-per-percent-of-inflow" => ("One percent less coming back means", "L short", 1),
            "litres-per-mm" => ("One millimetre of sump level means", "L", 1),
            "use-a-day" => ("Weather and plants take", "L a day", 1),
            "use-over-weather" => ("That is, of what weather and leaf area lead to expect", "%", 100),
            _ => (char.ToUpperInvariant(e.Name[0]) + e.Name[1..].Replace('-', ' '), Figures.UnitInWords(e.Unit), 1),
        };
        string Shown(double value) => Figures.Rounded(value * per, e.Value * per);
        (double low, double high) = per < 0 ? (e.High, e.Low) : (e.Low, e.High);
        return new(name, Shown(e.Value), unit, $"({Shown(low)} to {Shown(high)})");
    }
}
