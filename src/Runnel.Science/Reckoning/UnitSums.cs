using Runnel.Science.Units;
using static Runnel.Science.Reckoning.Ask;

namespace Runnel.Science.Reckoning;

/// <summary>What is known of units.</summary>
internal static class UnitSums
{
    public static readonly Relation[] All =
    [
        new("unit-known", "Is my unit understood?")
        {
            Explanation = "Whether a unit can be written behind a figure in place files, tables and sums, and what it measures. Spellings are those of UCUM (m3/h, [gal_us], uS/cm, Cel) and of the trade (gal_us, degC, kWh); capitals count.",
            Inputs = [Word("unit", "a unit alone, without a figure", "m3/h")],
            Outputs = [new("valid", "word", "true where it is understood"), new("measures", "word", "what it measures; none where it is not understood"), new("si_factor", "1", "base units of the SI in one of it; none where it is not understood")],
            Main = "valid",
            Formula = "units and prefixes after the Unified Code for Units of Measure",
            Source = "UCUM 2.2 (Regenstrief Institute); spellings of the trade beside it.",
            Reckon = g => Unit.TryParse(g.Word("unit"), out var unit) ? ["true", unit.Dimension.Name, unit.Factor] : ["false", default(string), double.NaN],
            Meaning = a => a.Say("valid") == "true" ? $"Yes: it measures {a.Say("measures")}." : "No. Try another spelling: capitals count, and a bare gal could be one of two.",
        },
    ];
}
