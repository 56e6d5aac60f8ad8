namespace Runnel.Place.PlaceFiles;

/// <summary>Makes a climate of its section.</summary>
internal static class ClimateReader
{
    internal static Climate? Read(SectionValues? section, ProblemList problems)
    {
        if (section is null) return null;
        double[]? high = Months("high"), low = Months("low"), solar = Months("solar"), rain = Months("rain"), days = Months("rain-days");
        if (high is not null && low is not null && high.Zip(low).Any(m => m.First <= m.Second))
            SectionReader.Reject(section, section.Entry("low")!, "lower than high in every month", "Correct one of the two", problems);
        Together("high", "low");
        Together("rain", "rain-days");
        double from = section.Number("rain-day-from") ?? 1;
        if (rain is not null && days is not null && rain.Zip(days).Any(m => m.First < m.Second * from || (m.First > 0 && m.Second <= 0)))
        {
            SectionReader.Reject(
                section, section.Entry("rain-days")!, "days of which each can have had its rain", "Correct rain, rain-days or rain-day-from", problems);
        }

        if (section.Written.Contains("sunshine") && section.Written.Contains("solar"))
            problems.Remarks.Add("[climate]: both sunshine and solar are told; solar is used.");
        if (section.Written.Contains("humidity") && section.Written.Contains("dew-point"))
            problems.Remarks.Add("[climate]: both humidity and dew-point are told; humidity is used.");
        return new(
            high, low, Months("spread"), Months("humidity") is { } percent ? [.. percent.Select(p => p / 100)] : null, Months("dew-point"), Months("wind"), rain, days,
            Months("sunshine"), solar, section.Number("wind-height") ?? 2, from);

        double[]? Months(string key) => section.Value<double[]>(key);

        void Together(string one, string other)
        {
            bool has = section.Written.Contains(one);
            if (has == section.Written.Contains(other)) return;
            (string told, string lacks) = has ? (one, other) : (other, one);
            problems.AddMissing(
                section.At, $"climate.{lacks}", SectionRules.Climate.Find(lacks)!.Example, $"[climate] tells {told} without {lacks}",
                $"Add it, as in {lacks} = {SectionRules.Climate.Find(lacks)!.Example}, or remove {told}");
        }
    }
}
