namespace Runnel.Science.Reckoning;

/// <summary>What an input is.</summary>
public enum InputKind
{
    /// <summary>A number with a unit.</summary>
    Number,

    /// <summary>A number without decimals.</summary>
    Whole,

    /// <summary>A row of numbers, parted by blanks or semicolons.</summary>
    Numbers,

    /// <summary>One of a few words, or a chemical formula.</summary>
    Word,

    /// <summary>A day of the calendar, <c>2026-02-01</c>.</summary>
    Date,

    /// <summary>A moment with its offset, <c>2026-02-01T12:00:00+10:00</c> (RFC 3339).</summary>
    Time,

    /// <summary>A time of day by the clock, <c>14:30</c> or <c>14:30:15</c>.</summary>
    Clock,
}

/// <summary>One input of a relation, as people, scripts and pages are told of it.</summary>
/// <param name="Name">Name on the command line, in tables and in the API; it ends with its unit.</param>
/// <param name="Unit">Unit; <c>1</c> for plain numbers and ratios.</param>
/// <param name="Words">What it is, in a few words.</param>
public sealed record Input(string Name, string Unit, string Words)
{
    /// <summary>What it is: a number unless said otherwise.</summary>
    public InputKind Kind { get; init; } = InputKind.Number;

    /// <summary>Other names it is taken under, as in published tables; the unit is the same.</summary>
    public IReadOnlyList<string> AlsoNamed { get; init; } = [];

    /// <summary>Names under which it is taken in another unit, as <c>diameter_mm</c> for <c>diameter_m</c>.</summary>
    public IReadOnlyList<(string Name, string Unit)> InOtherUnits { get; init; } = [];

    /// <summary>The unit in which pages first offer it, where people do not think in its own; null for its own.</summary>
    public string? UnitOnPages { get; init; }

    /// <summary>Least value taken.</summary>
    public double Least { get; init; } = double.NegativeInfinity;

    /// <summary>Greatest value taken.</summary>
    public double Greatest { get; init; } = double.PositiveInfinity;

    /// <summary>What is taken when it is not given, as text; null where it must be given or may be left out without a stand-in.</summary>
    public string? Default { get; init; }

    /// <summary>Whether it may be left out: it has a default, or the relation does without.</summary>
    public bool Optional { get; init; }

    /// <summary>A usual value, as text: for examples, for the pages, and for the tests of every relation.</summary>
    public required string Example { get; init; }

    /// <summary>The words taken; empty where any is looked at.</summary>
    public IReadOnlyList<string> Choices { get; init; } = [];

    /// <summary>Words to pick from on a page, each with what people call it; others may still be typed in a command.</summary>
    public IReadOnlyList<(string Value, string Words)> Offers { get; init; } = [];

    /// <summary>The range in words, with the unit: <c>0 to 50 degC</c>.</summary>
    public string Range => Kind switch
    {
        InputKind.Word => Choices.Count > 0 ? $"one of {string.Join(", ", Choices)}" : Words,
        InputKind.Date => "a date such as 2026-02-01",
        InputKind.Time => "a time with its offset such as 2026-02-01T12:00:00+10:00",
        InputKind.Clock => "a time of day such as 14:30",
        InputKind.Numbers => $"numbers parted by blanks or semicolons, each {Bounds}",
        InputKind.Whole => $"a whole number, {Bounds}",
        _ => Bounds,
    };

    // Readings may be in any unit and of any size; a bound there only keeps sums from overflowing.
    private string Bounds => Least <= -1e9 && Greatest >= 1e9 ? "any number" : Figure.WithUnit($"{Figure.Of(Least)} to {Figure.Of(Greatest)}", Unit);

    /// <summary>The same input with something taken when it is not given.</summary>
    /// <param name="value">That value, as text.</param>
    public Input Or(string value) => this with { Default = value, Optional = true, Example = value };

    /// <summary>The same input, which the relation does without.</summary>
    public Input OrNone() => this with { Optional = true };

    /// <summary>The same input under another name and other words.</summary>
    /// <param name="name">Name, with the same unit.</param>
    /// <param name="words">Words.</param>
    public Input Named(string name, string words) => this with { Name = name, Words = words, AlsoNamed = [], InOtherUnits = [] };

    /// <summary>The same input, taken under other names too.</summary>
    /// <param name="names">Names, in the same unit.</param>
    public Input Also(params string[] names) => this with { AlsoNamed = names };

    /// <summary>The same input, taken in other units under names that say so.</summary>
    /// <param name="names">Names, each with its unit.</param>
    public Input AlsoIn(params (string Name, string Unit)[] names) => this with { InOtherUnits = names };

    /// <summary>The same input, offered on pages in the unit that people think in.</summary>
    /// <param name="unit">One of its <see cref="UnitChoices"/>.</param>
    public Input OnPagesIn(string unit) => this with { UnitOnPages = unit };

    /// <summary>The unit in which a bare number is read that comes under a name; null for the input's own.</summary>
    /// <param name="name">Name with underscores.</param>
    internal string? UnitUnder(string name) =>
        InOtherUnits.FirstOrDefault(o => string.Equals(o.Name, name, StringComparison.OrdinalIgnoreCase)) is { Unit: { } unit } ? unit : null;

    /// <summary>The same input with another range.</summary>
    /// <param name="least">Least value taken.</param>
    /// <param name="greatest">Greatest value taken.</param>
    public Input Within(double least, double greatest) => this with { Least = least, Greatest = greatest };

    /// <summary>The same input with another usual value.</summary>
    /// <param name="example">Usual value, as text.</param>
    public Input Say(string example) => this with { Example = example };
}
