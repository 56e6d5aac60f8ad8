using Runnel.Place.Water;
using Runnel.Science.Pipes;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads the table of a pipe.</summary>
internal sealed class PipeReader(ProblemList problems)
{
    // Drawn plastic: Moody (1944) and later tables give 0.0015 mm new; with slime and joints a few times that is common practice.
    private const double PlasticMm = 0.007;

    internal SectionValues Section(TomlTable table, string name, IReadOnlyList<KeyRule> keys) =>
        SectionReader.Read(table, new SectionRule(name, Repeats: false, keys), 1, problems);

    /// <summary>The pipe, or null with what is missing reported.</summary>
    internal WaterPipe? Pipe(SectionValues section, double? endM)
    {
        bool whole = true;
        foreach (var (key, example) in (ReadOnlySpan<(string, string)>)[("length", "\"4 m\""), ("diameter", "\"40 mm\"")])
        {
            if (section.Written.Contains(key)) continue;
            whole = false;
            problems.AddMissing(section.At, $"{section.Path}.{key}", example, $"{section.Title} has no {key}", $"Add {key} = {example}");
        }

        double? length = section.Number("length"), diameter = section.Number("diameter");
        double k = (section.Number("k") ?? 0) + Fittings(section);
        if (k < 0)
        {
            SectionReader.Reject(section, section.Entry("k")!, "0 or more", "Correct the number", problems);
            whole = false;
        }

        return whole && length is { } m && diameter is { } bore ? new(m, bore, section.Number("roughness") ?? PlasticMm, k, endM) : null;
    }

    private double Fittings(SectionValues section)
    {
        if (section.Entry("fittings") is not { } entry) return 0;
        double sum = 0;
        foreach (var item in entry.Value is TomlArray list ? list.Items : [entry.Value])
        {
            string? name = (item as TomlScalar)?.Value as string;
            if (name is not null && MinorLoss.Of(name) is { } k)
            {
                sum += k;
                continue;
            }

            string? nearest = name is null ? null : NearestName.To(name, MinorLoss.Fittings);
            SectionReader.Reject(
                section, entry with { Value = item }, "the name of a fitting",
                nearest is null ? $"Choose from: {string.Join(", ", MinorLoss.Fittings)}" : $"Write \"{nearest}\"", problems, nearest);
        }

        return sum;
    }
}
