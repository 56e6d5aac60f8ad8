using Runnel.Science.Units;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads a latitude or longitude: degrees and the letter of the half of the globe (<c>34.2 S</c>).</summary>
internal static class AngleReader
{
    internal static object? Read(
        SectionValues section, TomlEntry entry, KeyRule key, char plus, char minus, double greatest, ProblemList problems)
    {
        string expected = $"degrees from 0 to {greatest:0} with {plus} or {minus}";
        if (entry.Value is TomlScalar { Value: string text })
        {
            // The letter is taken off first: E would read as an exponent and S as siemens.
            string trimmed = text.Trim();
            char side = trimmed.Length == 0 ? ' ' : char.ToUpperInvariant(trimmed[^1]);
            if (side == plus || side == minus)
            {
                string degrees = trimmed[..^1].TrimEnd();
                var measure = Measure.Read(degrees.EndsWith('°') || degrees.EndsWith("deg", StringComparison.Ordinal) ? degrees : degrees + " deg");
                if (measure.Fault == MeasureFault.None && measure.Value >= 0 && measure.Value <= greatest)
                {
                    return side == plus ? measure.Value : -measure.Value;
                }

                string how = measure.Fault == MeasureFault.Comma ? "Write a decimal point, as in" : "Write decimal degrees, as in";
                SectionReader.Reject(section, entry, expected, $"{how} {key.Example}", problems);
                return null;
            }
        }

        SectionReader.Reject(section, entry, expected, $"Say on which half of the globe, as in {key.Example}", problems);
        return null;
    }
}
