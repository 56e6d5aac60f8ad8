using Runnel.Science.Units;

namespace Runnel.Place.PlaceFiles;

/// <summary>Reads twelve numbers, January first, and the one unit behind them (<c>8 10 12 15 19 22 26 26 22 16 11 8 degC</c>).</summary>
internal static class MonthsReader
{
    private const string OfNumbers = "+-.0123456789";
    private const string Between = " ,;\t\r\n";

    internal static object? Read(SectionValues section, TomlEntry entry, KeyRule key, ProblemList problems)
    {
        string expected = $"twelve numbers from {QuantityReader.Plain(key.Least)} to {QuantityReader.Plain(key.Greatest)} {key.Unit}, January first, and then their unit";
        string remedy = $"Write it as in {key.Example}";
        if ((entry.Value as TomlScalar)?.Value is string text && text.AsSpan().IndexOfAnyExcept(OfNumbers + Between) is > 0 and var at)
        {
            string written = text[at..].Trim();
            string[] numbers = text[..at].Split(Between.ToCharArray(), StringSplitOptions.RemoveEmptyEntries);
            var wanted = Unit.Of(key.Unit);
            if (!Unit.TryParse(written, out var unit) || unit.Dimension != wanted.Dimension) remedy = $"{PlaceProblem.Quoted(written)} is no unit of this: write it as in {key.Example}";
            else if (numbers.Length == 12 && Array.ConvertAll(numbers, n => Measure.Read($"{n} {written}")) is var months
                && Array.TrueForAll(months, m => m.Fault == MeasureFault.None && unit.To(wanted, m.Value) >= key.Least && unit.To(wanted, m.Value) <= key.Greatest))
            {
                return Array.ConvertAll(months, m => unit.To(wanted, m.Value));
            }
        }

        SectionReader.Reject(section, entry, expected, remedy, problems);
        return null;
    }
}
