using NodaTime;
using Runnel.Science.Units;

namespace Runnel.Place.PlaceFiles;

/// <summary>Makes a channel of its section: carries a unit of its own over to scale and offset.</summary>
internal static class ChannelReader
{
    internal static Channel Read(SectionValues section, ProblemList problems)
    {
        var measures = Quantities.Find(section.Text("measures")!)!.Value;
        var standard = Quantities.UnitOf(measures) is { Length: > 0 } name ? Unit.Of(name) : null;
        var written = ReadUnit(section, measures, standard, problems);

        // The raw value x scale + offset is in the channel's own unit; from there it goes to the standard one.
        var (toStandard, shift) = written is not null && standard is not null ? written.LinearTo(standard) : (1, 0);
        double scale = section.Number("scale") ?? 1;
        double offset = section.Number("offset") ?? 0;
        if (scale == 0) SectionReader.Reject(section, section.Entry("scale")!, "a number other than 0", "Correct it, or leave it out", problems);

        double? least = ReadLimit(section, "least", written ?? standard, standard, problems);
        double? greatest = ReadLimit(section, "greatest", written ?? standard, standard, problems);
        if (least >= greatest)
        {
            SectionReader.Reject(section, section.Entry("greatest")!, "a value above least", "Correct one of the two", problems);
        }

        return new(
            section.Text("id")!, measures, section.Text("of") is "place" or "loop" ? null : section.Text("of"),
            scale * toStandard, (offset * toStandard) + shift,
            section.Number("every") is { } everyS ? Duration.FromSeconds(everyS) : null,
            least, greatest, ReadRunningAbove(section, measures, standard, problems),
            KebabNames<SeenAs>.Find(section.Text("seen") ?? "") ?? SeenAs.Commanded, section.Number("height"), section.Text("column"));
    }

    private static Unit? ReadUnit(SectionValues section, Quantity measures, Unit? standard, ProblemList problems)
    {
        if (section.Text("unit") is not { } text) return null;
        var entry = section.Entry("unit")!;
        string quantity = Quantities.NameOf(measures);
        if (standard is null)
        {
            // pH, switches and counts have none; that may be said in so many words.
            if (text is "1" or "pH" or "ph" or "count" or "on/off" or "1/0") return null;
            SectionReader.Reject(section, entry, "no unit", $"{quantity} has none: remove the key", problems);
            return null;
        }

        // Nitrogen species are counted as nitrogen; saying so is good, another species is not.
        string bare = text;
        if (measures is Quantity.Tan or Quantity.Nitrite or Quantity.Nitrate)
        {
            int species = text.IndexOf(" as ", StringComparison.Ordinal);
            if (species >= 0)
            {
                bare = text[..species];
                if (text[(species + 4)..].Trim() is var asWhat && asWhat != "N")
                {
                    SectionReader.Reject(
                        section, entry, "mg/L as N",
                        "Convert to nitrogen with scale (nitrate x 0.2259, nitrite x 0.3045, ammonium x 0.7765)", problems);
                    return null;
                }
            }
        }

        if (!Unit.TryParse(bare, out var unit))
        {
            SectionReader.Reject(section, entry, $"a unit of {standard.Dimension.Name}", $"Write it as in \"{standard.Symbol}\"", problems);
            return null;
        }

        if (unit.Dimension == standard.Dimension) return unit;
        SectionReader.Reject(
            section, entry, $"a unit of {standard.Dimension.Name}",
            $"{text} is a unit of {unit.Dimension.Name}, and {quantity} is in {standard.Symbol}: correct unit or measures", problems);
        return null;
    }

    /// <summary>A limit is a quantity, or a bare number in the channel's own unit.</summary>
    private static double? ReadLimit(SectionValues section, string key, Unit? own, Unit? standard, ProblemList problems)
    {
        if (section.Entry(key) is not { } entry) return null;
        if (entry.Value is TomlScalar { Value: double number } && double.IsFinite(number))
        {
            return own is null || standard is null ? number : own.To(standard, number);
        }

        if (standard is not null) return QuantityReader.Read(section, entry, standard, $"\"10 {standard.Symbol}\"", problems);
        SectionReader.Reject(section, entry, "a bare number", $"Write it without quotes, as in {key} = 6.5", problems);
        return null;
    }

    private static double? ReadRunningAbove(SectionValues section, Quantity measures, Unit? standard, ProblemList problems)
    {
        if (section.Entry("running-above") is not { } entry) return null;
        if (measures is Quantity.Power or Quantity.Current)
        {
            return QuantityReader.Read(section, entry, standard!, measures == Quantity.Power ? "\"20 W\"" : "\"0.2 A\"", problems);
        }

        SectionReader.Reject(section, entry, "no such key", "It belongs to channels that measure power or current: remove it", problems);
        return null;
    }
}
