using System.Globalization;
using Runnel.Science.Units;

namespace Runnel.Science.Reckoning;

/// <summary>Reads the inputs of a relation from texts, and lists everything that is wrong with them.</summary>
internal sealed class GivenReader(Relation relation)
{
    private readonly Dictionary<string, object> values = [];
    private readonly List<Problem> problems = [];

    // Also what was named with a value that is not taken: that is told once, not again as missing.
    private readonly HashSet<string> named = [];

    /// <summary>The inputs, or null and the problems.</summary>
    public (Given? Given, IReadOnlyList<Problem> Problems) Read(IEnumerable<KeyValuePair<string, string>> given)
    {
        foreach (var (name, text) in given)
        {
            if (string.IsNullOrWhiteSpace(text)) continue;
            if (relation.Find(name) is not { } input) problems.Add(Unknown(name));
            else if (!named.Add(input.Name)) problems.Add(new Problem(input.Name, "is given twice", $"Give it once: {input.Words}, {input.Range}"));
            else if (ValueText.Read(input, InItsUnit(input, name, text.Trim()), out var problem) is { } value) values.Add(input.Name, value);
            else problems.Add(problem!);
        }

        Complete();
        return problems.Count == 0 ? (new Given(values), []) : (null, problems);
    }

    // A bare number under a name that ends with another unit is in that unit.
    private static string InItsUnit(Input input, string name, string text) =>
        input.UnitUnder(Relation.Bare(name)) is { } unit && double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out _) ? $"{text} {unit}" : text;

    private void Complete()
    {
        var given = new Given(values);
        foreach (var choice in relation.Choices) Choose(choice, given);
        foreach (var input in relation.Inputs)
        {
            if (named.Contains(input.Name)) continue;
            bool chosenAgainst = relation.Choices.Any(c => c.Groups.Any(g => g.Contains(input.Name)) && c.Groups.Any(g => g.Any(named.Contains)));
            if (input.Default is { } text && !chosenAgainst) values.TryAdd(input.Name, ValueText.Read(input, text, out _)!);
            else if (!relation.IsOptional(input)) problems.Add(new Problem(input.Name, "is missing", $"Give {input.Words}, {input.Range}"));
        }
    }

    private void Choose(OneOf choice, Given given)
    {
        var whole = choice.Groups.Where(g => g.All(named.Contains)).ToArray();
        // A group that is part of a longer one that is given says nothing of its own.
        whole = [.. whole.Where(g => !whole.Any(other => other.Count > g.Count && g.All(other.Contains)))];
        var begun = choice.Groups.Where(g => g.Any(named.Contains)).ToArray();
        if (whole.Length == 0 && begun.Length == 0)
        {
            bool stoodFor = choice.Groups[0].All(n => relation.Find(n)!.Default is not null);
            if (!choice.MayBeNone && !stoodFor) problems.Add(new Problem(string.Join(" or ", choice.Groups.Select(g => g[0])), "is missing", $"Give {Described(choice)}"));
        }
        else if (whole.Length == 0 || begun.Any(g => !g.All(named.Contains) && !whole.Any(w => g.Where(named.Contains).All(w.Contains))))
        {
            var half = begun.First(g => !g.All(named.Contains));
            string missing = half.First(n => !named.Contains(n));
            var input = relation.Find(missing)!;
            problems.Add(new Problem(missing, $"is missing beside {half.First(named.Contains)}", $"Give {input.Words}, {input.Range}; or {choice.Words}"));
        }
        else if (whole.Length > 1 && (problems.Count > 0 || choice.Agrees?.Invoke(given) != true))
        {
            problems.Add(new Problem(whole[1][0], $"is given beside {whole[0][0]}", $"Give only one of them: {choice.Words}"));
        }
    }

    private string Described(OneOf choice) => string.Join(", or ", choice.Groups.Select(g => string.Join(" with ", g.Select(n =>
    {
        var input = relation.Find(n)!;
        return $"{n} ({input.Words}, {input.Range})";
    }))));

    private Problem Unknown(string name) => new(
        name, $"is no input of {relation.Name}", $"Its inputs are {string.Join("; ", relation.Inputs.Select(i => $"{i.Name}, {i.Range}"))}");
}

/// <summary>Reads the text of one input.</summary>
internal static class ValueText
{
    private static readonly string[] ClockForms = ["H:mm", "H:mm:ss", "H:mm:ss.FFF"];

    /// <summary>The value, or null and what is wrong.</summary>
    public static object? Read(Input input, string text, out Problem? problem)
    {
        problem = null;
        switch (input.Kind)
        {
            case InputKind.Word:
                if (input.Choices.Count == 0) return text;
                string? known = input.Choices.FirstOrDefault(c => string.Equals(c, text, StringComparison.OrdinalIgnoreCase));
                if (known is null) problem = new Problem(input.Name, $"\"{text}\" is not known", $"Give {input.Range}");
                return known;
            case InputKind.Date:
                if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date)) return date;
                problem = new Problem(input.Name, $"\"{text}\" is no date", $"Give {input.Words}, {input.Range}");
                return null;
            case InputKind.Clock:
                if (TimeOnly.TryParseExact(text, ClockForms, CultureInfo.InvariantCulture, DateTimeStyles.None, out var clock)) return clock;
                problem = new Problem(input.Name, $"\"{text}\" is no time of day", $"Give {input.Words}, {input.Range}");
                return null;
            case InputKind.Time:
                if (Rfc3339.Read(text) is { } time) return time;
                problem = new Problem(input.Name, $"\"{text}\" is no time with an offset", $"Give {input.Words}, {input.Range}");
                return null;
            case InputKind.Numbers:
                var numbers = new List<double>();
                foreach (string part in text.Split([' ', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
                {
                    if (Number(input, part, out problem) is not { } one) return null;
                    numbers.Add(one);
                }

                return numbers.ToArray();
            default:
                return Number(input, text, out problem);
        }
    }

    private static double? Number(Input input, string text, out Problem? problem)
    {
        problem = null;
        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) || !double.IsFinite(value))
        {
            // A number with a unit behind it is turned into the unit of the input.
            if (Measure.Read(text) is { Fault: MeasureFault.None, Unit: { } unit } measure && UnitChoices.Convert(measure.Value, unit, input.Unit) is { } turned) value = turned;
            else
            {
                problem = new Problem(input.Name, $"\"{text}\" is no number{(text.Contains(',', StringComparison.Ordinal) ? " (a point parts the decimals)" : "")}", $"Give {input.Words}, {input.Range}");
                return null;
            }
        }

        if (!(value >= input.Least && value <= input.Greatest)) problem = new Problem(input.Name, $"{text} is out of range", $"Give {input.Words}, {input.Range}");
        else if (input.Kind == InputKind.Whole && value != Math.Floor(value)) problem = new Problem(input.Name, $"{text} is no whole number", $"Give {input.Words}, {input.Range}");
        return problem is null ? value : null;
    }
}
