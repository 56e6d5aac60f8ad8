using System.Globalization;
using Runnel.Science.Units;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads a string of number and unit, and carries it to the unit of its key.</summary>
internal static class QuantityReader
{
    // Units people write that name two things, or nothing here.
    private static readonly Dictionary<string, string> Meant = new(StringComparer.Ordinal)
    {
        ["gal"] = "[gal_us] (3.785 L) or [gal_br] (4.546 L)",
        ["gallon"] = "[gal_us] (3.785 L) or [gal_br] (4.546 L)",
        ["gallons"] = "[gal_us] (3.785 L) or [gal_br] (4.546 L)",
        ["C"] = "degC",
        ["c"] = "degC",
        ["F"] = "degF",
        ["litre"] = "L",
        ["litres"] = "L",
        ["liter"] = "L",
        ["liters"] = "L",
        ["lpm"] = "L/min",
        ["LPM"] = "L/min",
        ["lph"] = "L/h",
        ["LPH"] = "L/h",
        ["gph"] = "[gal_us]/h",
        ["GPH"] = "[gal_us]/h",
        ["cum"] = "m3",
        ["sqm"] = "m2",
        ["sec"] = "s",
        ["mins"] = "min",
        ["minutes"] = "min",
        ["hr"] = "h",
        ["hrs"] = "h",
        ["hours"] = "h",
        ["days"] = "d",
        ["M"] = "m",
        ["MM"] = "mm",
        ["KG"] = "kg",
        ["kw"] = "kW",
        ["KW"] = "kW",
        ["kwh"] = "kWh",
        ["w"] = "W",
        ["v"] = "V",
        ["mbars"] = "mbar",
        ["kph"] = "km/h",
        ["kmh"] = "km/h",
        ["EC"] = "mS/cm",
    };

    /// <summary>Reads a list of pairs of quantities, each given by its unit and an example; what is no pair is passed over.</summary>
    /// <returns>The pairs in those units, or null where a quantity was wrong, which is reported.</returns>
    internal static IReadOnlyList<(double First, double Second)>? Pairs(
        SectionValues section, TomlEntry entry, (string Unit, string Example) first, (string Unit, string Example) second, ProblemList problems)
    {
        List<(double, double)> pairs = [];
        foreach (var item in (entry.Value as TomlArray)?.Items ?? [])
        {
            if (item is not TomlArray { Items: [var left, var right] }) continue;
            if (Read(section, entry with { Value = left }, Unit.Of(first.Unit), first.Example, problems) is not { } a) return null;
            if (Read(section, entry with { Value = right }, Unit.Of(second.Unit), second.Example, problems) is not { } b) return null;
            pairs.Add((a, b));
        }

        return pairs;
    }

    internal static object? Read(SectionValues section, TomlEntry entry, KeyRule key, ProblemList problems)
    {
        var unit = Unit.Of(key.Unit);
        if (Read(section, entry, unit, key.Example, problems) is not { } value) return null;
        if (value >= key.Least && value <= key.Greatest && (value > 0 || !key.AboveZero)) return value;
        string least = key.AboveZero ? "more than 0" : Plain(key.Least);
        string expected = $"{least} to {Plain(key.Greatest)} {key.Unit}";
        SectionReader.Reject(section, entry, expected, "Correct the number or its unit", problems);
        return null;
    }

    /// <summary>The value in <paramref name="unit"/>, or null with the problem reported.</summary>
    internal static double? Read(SectionValues section, TomlEntry entry, Unit unit, string example, ProblemList problems)
    {
        string name = unit.Dimension.Name;
        string kind = $"{(name[0] is 'a' or 'e' or 'i' or 'o' or 'u' ? "an" : "a")} {name} with its unit";
        switch (entry.Value)
        {
            case TomlScalar { Value: string text }:
                var measure = Measure.Read(text);
                if (measure.Fault != MeasureFault.None)
                {
                    SectionReader.Reject(section, entry, kind, Remedy(measure, example), problems);
                    return null;
                }

                if (measure.Unit!.Dimension != unit.Dimension)
                {
                    SectionReader.Reject(
                        section, entry, kind, $"{measure.UnitText} is a unit of {measure.Unit.Dimension.Name}: write it as in {example}", problems);
                    return null;
                }

                double value = measure.Unit.To(unit, measure.Value);
                if (double.IsFinite(value)) return value;
                SectionReader.Reject(section, entry, kind, "Correct the number", problems);
                return null;

            case TomlScalar { Value: double } number:
                SectionReader.Reject(section, entry, kind, $"Write number and unit in quotes, as in {example}", problems);
                return null;

            default:
                SectionReader.Reject(section, entry, kind, $"Write it as in {example}", problems);
                return null;
        }
    }

    private static string Remedy(Measure measure, string example) => measure.Fault switch
    {
        MeasureFault.Comma => $"Write a decimal point, and nothing between thousands, as in {example}",
        MeasureFault.NoUnit => $"Add the unit, as in {example}",
        MeasureFault.UnknownUnit when Meant.TryGetValue(measure.UnitText, out var meant) => $"Write the unit as {meant}",
        MeasureFault.UnknownUnit when measure.UnitText.StartsWith("gal/", StringComparison.Ordinal) =>
            $"A gallon is two different volumes: write [gal_us]{measure.UnitText[3..]} or [gal_br]{measure.UnitText[3..]}",
        MeasureFault.UnknownUnit => $"{PlaceProblem.Quoted(measure.UnitText)} is no unit known here: write it as in {example}",
        _ => $"Begin with the number, as in {example}",
    };

    internal static string Plain(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}
