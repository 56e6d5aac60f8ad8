using System.Globalization;
using Microsoft.AspNetCore.Http;
using Runnel.Science.Reckoning;
using Runnel.Web.YourLog;

namespace Runnel.Web.Reckoner;

/// <summary>What a person filled in on the page of a relation, with the units chosen, and what came of it.</summary>
public sealed class AskedSum
{
    private readonly Dictionary<string, string> _texts = [];
    private readonly Dictionary<string, UnitChoice> _units = [];

    private AskedSum(Relation relation) => Relation = relation;

    public Relation Relation { get; }

    /// <summary>Whether the figures are the usual ones, because none were given yet.</summary>
    public bool IsExample { get; private init; }

    public Answer? Answer { get; private set; }

    public IReadOnlyList<FieldError> Errors { get; private set; } = [];

    /// <summary>Takes the figures of a query; a query without any stands for the example of the relation.</summary>
    public static AskedSum Of(Relation relation, IQueryCollection query)
    {
        bool isExample = relation.Inputs.All(i => !query.ContainsKey(i.Name));
        var asked = new AskedSum(relation) { IsExample = isExample };
        foreach (Input input in relation.Inputs)
        {
            IReadOnlyList<UnitChoice> units = UnitChoices.Of(input);
            string symbol = isExample ? input.UnitOnPages ?? input.Unit : query[UnitField(input)].ToString();
            if (units.Count > 0) asked._units[input.Name] = units.FirstOrDefault(u => u.Symbol == symbol) ?? units[0];
            if (!isExample) asked._texts[input.Name] = query[input.Name].ToString().Trim();
            else if (input.Default is { } usual) asked._texts[input.Name] = asked.InUnitShown(input, usual);
        }

        if (isExample)
        {
            foreach ((string name, string text) in relation.ExampleInputs) asked._texts[name] = asked.InUnitShown(relation.Find(name)!, text);
        }

        asked.Solve();
        return asked;
    }

    public static string UnitField(Input input) => input.Name + "-unit";

    /// <summary>The text in a field, as it was typed.</summary>
    public string TextOf(Input input) => _texts.GetValueOrDefault(input.Name, "");

    /// <summary>The unit in which an input is given; null where there is no choice.</summary>
    public UnitChoice? UnitOf(Input input) => _units.GetValueOrDefault(input.Name);

    /// <summary>The plausible range in the unit chosen.</summary>
    public string RangeOf(Input input)
    {
        if (UnitOf(input) is not { } unit) return Figure.Pretty(input.Range);
        return Figure.WithUnit($"{Figure.Brief(Shown(input.Least, unit))} to {Figure.Brief(Shown(input.Greatest, unit))}", Figure.Pretty(unit.Symbol));
    }

    /// <summary>The range as a hint under the field: an upper end that nobody reaches is left out.</summary>
    public string HintOf(Input input) => input.Kind == InputKind.Numbers ? "numbers parted by blanks or semicolons" : input.Greatest < 1e6 || input.Kind is not InputKind.Number || UnitOf(input) is not { } unit ? RangeOf(input)
        : Figure.WithUnit($"{Figure.Brief(Shown(input.Least, unit))} or more", Figure.Pretty(unit.Symbol));

    /// <summary>A value in the input's own unit, carried to the unit chosen.</summary>
    public static double Shown(double own, UnitChoice unit) => (own - unit.Offset) / unit.Scale;

    /// <summary>The address that carries these figures.</summary>
    public string Address
    {
        get
        {
            var parts = new List<string>();
            foreach (Input input in Relation.Inputs)
            {
                if (TextOf(input) is not { Length: > 0 } text || text == input.Default && IsOwnUnit(input)) continue;
                parts.Add($"{input.Name}={Uri.EscapeDataString(text)}");
                if (!IsOwnUnit(input)) parts.Add($"{UnitField(input)}={Uri.EscapeDataString(_units[input.Name].Symbol)}");
            }

            return $"/reckoner/{Relation.Name}?{string.Join('&', parts)}";
        }
    }

    /// <summary>The same sum on the command line.</summary>
    public string Command => "runnel reckon " + Relation.Name + string.Concat(Given().Where(g => g.Value.Length > 0 && g.Value != Relation.Find(g.Key)!.Default)
        .Select(g => $" --{g.Key} {(g.Value.AsSpan().IndexOfAny(" ;()") >= 0 ? $"\"{g.Value}\"" : g.Value)}"));

    private string InUnitShown(Input input, string own) => UnitOf(input) is not { } unit || unit is { Scale: 1, Offset: 0 } || !double.TryParse(own, CultureInfo.InvariantCulture, out double value) ? own
        : Shown(value, unit).ToString("G6", CultureInfo.InvariantCulture);

    private bool IsOwnUnit(Input input) => UnitOf(input) is null or { Scale: 1, Offset: 0 };

    private void Solve()
    {
        (Answer, IReadOnlyList<Problem> problems) = Relation.Solve(Given());
        Errors = [.. problems.Select(p => new FieldError(FieldOf(p.Input), Sentence(p)))];
    }

    private string FieldOf(string input) => Relation.Find(input.Split(" or ")[0])?.Name ?? "";

    // On a page the field's label stands above; its name in scripts would only puzzle.
    private string Sentence(Problem problem)
    {
        Input? input = Relation.Find(problem.Input.Split(" or ")[0]);
        if (input is not null && TextOf(input) is { Length: > 0 } typed) problem = problem with { What = problem.What.Replace(InOwnUnit(input.Name, typed), typed, StringComparison.Ordinal) };
        string what = input is null ? problem.Input.Length > 0 ? problem.Line : $"{problem.What}. {problem.Remedy}." : $"{problem.What}. Expected: {RangeOf(input)}.";
        foreach (Input other in Relation.Inputs) what = what.Replace(other.Name, other.Words.Split(" (")[0].Split(": ")[0], StringComparison.Ordinal);
        return input is null ? what : $"{Asking.Capital(input.Words.Split(" (")[0].Split(": ")[0])} {what}";
    }

    private IEnumerable<KeyValuePair<string, string>> Given() => _texts.Select(t => KeyValuePair.Create(t.Key, InOwnUnit(t.Key, t.Value)));

    private string InOwnUnit(string name, string text)
    {
        if (!_units.TryGetValue(name, out UnitChoice? unit) || unit is { Scale: 1, Offset: 0 }) return text;
        return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value)
            ? ((value * unit.Scale) + unit.Offset).ToString("G12", CultureInfo.InvariantCulture) : text;
    }
}
