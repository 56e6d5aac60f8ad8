using Runnel.Exchange.Logs;
using Runnel.Place;

namespace Runnel.Exchange.Survey;

/// <summary>The unit of a channel, from beside its values or from its heading.</summary>
internal static class HeadingUnit
{
    private static readonly Quantity[] All = Enum.GetValues<Quantity>();

    /// <summary>The unit, empty where none is told, and whether it is beyond doubt that it is one.</summary>
    public static (string Unit, bool IsSure) Of(string heading, string? besideValues)
    {
        if (besideValues is { Length: > 0 }) return (besideValues, true);
        if (Headings.UnitInBrackets(heading) is { Length: > 0 } inside) return (inside, true);

        // "PumpPower_kW", "temp F": the last word may be a unit.
        string trimmed = heading.TrimEnd();
        int gap = trimmed.LastIndexOfAny([' ', '_']);
        return (gap > 0 ? trimmed[(gap + 1)..] : "", false);
    }

    /// <summary>The quantities that have such a unit; none for a percentage, which says nothing.</summary>
    public static IReadOnlyList<Quantity> QuantitiesOf(string unit, LogUnits units) =>
        unit is "" or "%" or "1" ? [] : [.. All.Where(q => units.To(q, unit) is not null)];
}
