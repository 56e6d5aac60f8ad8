using System.Globalization;

namespace Runnel.Science.Tests;

/// <summary>One row of a published table: gives its inputs, compares its expected values, and knows which were not compared.</summary>
public sealed class PublishedCase(string table, string name, string relation, string source, Dictionary<string, string> inputs, Dictionary<string, (string Value, Tolerance Within)> expected)
{
    private readonly HashSet<string> compared = [];

    public string Name => name;

    public string Relation => relation;

    public string Source => source;

    public IEnumerable<string> Columns => inputs.Keys;

    public IEnumerable<string> Expected => expected.Keys;

    public bool Has(string column) => inputs.ContainsKey(column);

    public string Text(string column) =>
        inputs.TryGetValue(column, out string? text) ? text : throw new InvalidOperationException($"{table}, {name}: no input {column}");

    public double Number(string column) => double.Parse(Text(column), CultureInfo.InvariantCulture);

    public double Number(string column, double without) => Has(column) ? Number(column) : without;

    public bool Expects(string column) => expected.ContainsKey(column);

    public string ExpectedText(string column)
    {
        compared.Add(column);
        return expected[column].Value;
    }

    /// <summary>Compares where the row has that expected value.</summary>
    public void Compare(string column, double actual)
    {
        if (!expected.TryGetValue(column, out var wanted)) return;
        compared.Add(column);
        double value = double.Parse(wanted.Value, CultureInfo.InvariantCulture);
        double margin = wanted.Within.MarginFor(value);
        Assert.True(
            Math.Abs(actual - value) <= margin,
            string.Create(CultureInfo.InvariantCulture, $"{table}, {name}: {column} is {actual:R}, published {value:R} within {margin:R}. Source: {source}"));
    }

    /// <summary>Fails when an expected value of the row was never compared.</summary>
    public void AssertAllCompared() =>
        Assert.True(compared.SetEquals(expected.Keys), $"{table}, {name} ({relation}): not compared: {string.Join(", ", expected.Keys.Except(compared))}");

    public Exception Unknown() => new InvalidOperationException($"{table}, {name}: no check for relation {relation}");
}

/// <summary>Absolute and relative tolerance; the wider counts.</summary>
public readonly record struct Tolerance(double Absolute, double Relative)
{
    // The last places of a printed bound must not decide.
    public double MarginFor(double value) => (Math.Max(Absolute, Relative * Math.Abs(value)) * (1 + 1e-9)) + 1e-300;
}
