using System.Globalization;
using CsCheck;
using Runnel.Science.Reckoning;

namespace Runnel.Science.Tests.Reckoning;

/// <summary>Asks relations over ranges of an input, written as <c>name=from..to</c>, with the rest as <c>name=value name=value</c>.</summary>
internal static class OverRanges
{
    /// <summary>The result, given back under its name, gives the input again.</summary>
    public static void UndoesItself(string relation, string range, string result, string rest, string? back = null)
    {
        var (name, from, to) = Range(range);
        var undoing = Catalogue.Find(back ?? relation)!;
        string backRest = string.Join(' ', rest.Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(p => undoing.Find(p.Split('=')[0]) is not null));
        Gen.Double[from, to].Sample(value =>
        {
            double forth = Solved(relation, rest, (name, value))[result];
            Assert.Equal(1, Solved(back ?? relation, backRest, (result, forth))[name] / value, 1e-6);
        }, iter: 100);
    }

    /// <summary>The result never moves against its direction.</summary>
    public static void OnlyMoves(string relation, string range, string result, bool rises, string rest)
    {
        var (name, from, to) = Range(range);
        bool whole = Catalogue.Find(relation)!.Find(name)!.Kind == InputKind.Whole;
        double last = double.NaN, first = double.NaN;
        for (int i = 0; i <= 30; i++)
        {
            double value = from + ((to - from) * i / 30), now = Solved(relation, rest, (name, whole ? Math.Round(value) : value))[result];
            Assert.True(double.IsFinite(now), $"{name} {value}");
            if (i > 0) Assert.True(rises ? now >= last : now <= last, string.Create(CultureInfo.InvariantCulture, $"{relation}: {result} goes from {last:R} to {now:R} at {name} {value:R}"));
            if (i == 0) first = now;
            last = now;
        }

        Assert.True(rises ? last > first : last < first, $"{relation}: {result} does not move with {name}");
    }

    public static (string Name, double From, double To) Range(string text)
    {
        string[] parts = text.Split('=', StringSplitOptions.None), ends = parts[1].Split("..");
        return (parts[0], double.Parse(ends[0], CultureInfo.InvariantCulture), double.Parse(ends[1], CultureInfo.InvariantCulture));
    }

    public static Answer Solved(string relation, string rest, params (string Name, object Value)[] more)
    {
        var given = rest.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(p => p.Split('=')).Select(p => KeyValuePair.Create(p[0], p[1]))
            .Concat(more.Select(m => KeyValuePair.Create(m.Name, m.Value is double[] list ? string.Join(' ', list.Select(v => v.ToString("R", CultureInfo.InvariantCulture))) : Convert.ToString(m.Value, CultureInfo.InvariantCulture)!)));
        var (answer, problems) = Catalogue.Find(relation)!.Solve(given);
        return answer ?? throw new InvalidOperationException($"{relation}: {string.Join(" ", problems.Select(p => p.Line))}");
    }
}
